package vestibule.validator.rules;

import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.dict.Attributes;

/**
 * How a photograph was taken, in the words that our own objects have in Acquisition Context Description (0040,0556):
 * {@code view=…; capture=…; picture=…; correction=…}. Objects of others have none of them.
 *
 * @param view the view that it shows
 * @param capture how the camera looked
 * @param picture whether it is uncorrected, corrected or a copy
 * @param correction what put it right
 */
record Taking(Optional<String> view, Optional<String> capture, Optional<String> picture, Optional<String> correction) {

    static Taking of(DataSet dataSet) {
        Map<String, String> words = new HashMap<>();
        for (String word : dataSet.text(Attributes.ACQUISITION_CONTEXT_DESCRIPTION)
                .orElse("")
                .split(";", -1)) {
            int parted = word.indexOf('=');
            if (parted > 0 && !word.substring(parted + 1).isBlank()) {
                words.putIfAbsent(
                        word.substring(0, parted).strip(),
                        word.substring(parted + 1).strip());
            }
        }
        return new Taking(
                Optional.ofNullable(words.get("view")),
                Optional.ofNullable(words.get("capture")),
                Optional.ofNullable(words.get("picture")),
                Optional.ofNullable(words.get("correction")));
    }

    /** Whether it is the picture as the camera recorded it, which a mirror may have reversed. */
    boolean isUncorrected() {
        return picture.equals(Optional.of("uncorrected"));
    }

    /** Whether it was made from another object, which says what put it right. */
    boolean isCopy() {
        return picture.equals(Optional.of("copy"));
    }
}
