package vestibule.validator.iod;

import java.util.List;
import vestibule.dicom.data.Element;
import vestibule.dicom.data.Value;

/** Values of elements seen as the tables see them. */
public final class Values {

    private Values() {}

    /** The values as text, spaces at both ends left out; none for bytes and sequences. */
    public static List<String> texts(Element element) {
        if (element.value() instanceof Value.Texts texts) {
            return texts.all().stream().map(String::strip).toList();
        }
        if (element.value() instanceof Value.Integers numbers) {
            return numbers.all().stream().map(String::valueOf).toList();
        }
        if (element.value() instanceof Value.Reals numbers) {
            return numbers.all().stream().map(String::valueOf).toList();
        }
        return List.of();
    }

    /** Whether there is a value in the sense of type 1 (PS3.5 7.4.1): not of zero length, and not of spaces alone. */
    public static boolean isFilled(Element element) {
        if (element.value() instanceof Value.Texts texts) {
            return texts.all().stream().anyMatch(text -> !text.isBlank());
        }
        return !element.isEmpty();
    }
}
