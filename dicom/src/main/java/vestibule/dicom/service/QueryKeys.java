package vestibule.dicom.service;

import java.util.ArrayList;
import java.util.List;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Element;
import vestibule.dicom.data.Value;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.dict.Dictionary;
import vestibule.dicom.io.CharacterSet;

/** What was asked for, compared with what came (PS3.4 C.2.2.1). */
public final class QueryKeys {

    private QueryKeys() {}

    /**
     * The keys that a match leaves out. A key that is there without a value is not missing: the peer knows it and has nothing to say.
     *
     * @param keys the identifier of the request
     * @param match the identifier of one answer
     * @return each as a path of tag and keyword, in the order of the keys; inside sequences, once for each item that lacks it
     */
    public static List<String> missing(DataSet keys, DataSet match) {
        List<String> missing = new ArrayList<>();
        collect("", keys, match, missing);
        return missing;
    }

    private static void collect(String path, DataSet keys, DataSet match, List<String> missing) {
        for (Element key : keys) {
            if (key.tag().equals(Attributes.SPECIFIC_CHARACTER_SET.tag())
                    || key.tag().equals(Attributes.TIMEZONE_OFFSET_FROM_UTC.tag())) {
                continue;
            }
            String place = path + Dictionary.standard().describe(key.tag());
            Element found = match.find(key.tag()).orElse(null);
            if (found == null) {
                missing.add(place);
            } else if (key.value() instanceof Value.Items wanted && found.value() instanceof Value.Items items) {
                wanted.all()
                        .forEach(inner -> items.all().forEach(item -> collect(place + " > ", inner, item, missing)));
            }
        }
    }

    /** The keys with the character set their text needs, if they do not name one (PS3.4 C.2.2.2). */
    static DataSet withCharacterSet(DataSet keys) {
        if (keys.contains(Attributes.SPECIFIC_CHARACTER_SET) || !needsMoreThanAscii(keys)) {
            return keys;
        }
        String[] terms = CharacterSet.UTF_8.terms().toArray(String[]::new);
        return keys.toBuilder().put(Attributes.SPECIFIC_CHARACTER_SET, terms).build();
    }

    private static boolean needsMoreThanAscii(DataSet keys) {
        return keys.stream().anyMatch(element -> {
            if (element.value() instanceof Value.Texts texts) {
                return texts.all().stream().anyMatch(text -> text.chars().anyMatch(c -> c > 0x7F));
            }
            return element.value() instanceof Value.Items items
                    && items.all().stream().anyMatch(QueryKeys::needsMoreThanAscii);
        });
    }
}
