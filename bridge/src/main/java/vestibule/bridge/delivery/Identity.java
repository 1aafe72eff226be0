package vestibule.bridge.delivery;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import vestibule.dicom.data.Attribute;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.dict.Attributes;

/**
 * What tells patients apart in an object (PS3.3 C.7.1.1), compared with what the archive says of it. An archive may leave any of it out of
 * its answer or fill in what we left empty; only a different value counts.
 */
final class Identity {

    static final List<Attribute> KEYS = List.of(
            Attributes.PATIENT_ID,
            Attributes.ISSUER_OF_PATIENT_ID,
            Attributes.PATIENT_NAME,
            Attributes.PATIENT_BIRTH_DATE);

    private Identity() {}

    /** The attributes with another value there; their names only, for no value belongs into a message. */
    static List<String> changed(DataSet ours, DataSet theirs) {
        List<String> changed = new ArrayList<>();
        for (Attribute key : KEYS) {
            Optional<String> here = value(ours, key);
            Optional<String> there = value(theirs, key);
            if (here.isPresent() && there.isPresent() && !here.equals(there)) {
                changed.add(key.toString());
            }
        }
        return changed;
    }

    /** Without what has no meaning: case of names, spaces at the ends, components that are empty at the end (PS3.5 6.2). */
    private static Optional<String> value(DataSet dataSet, Attribute key) {
        return dataSet.text(key)
                .map(text -> key.equals(Attributes.PATIENT_NAME)
                        ? text.split("=", -1)[0].replaceAll("[\\^ ]+$", "").toUpperCase(Locale.ROOT)
                        : text.strip())
                .filter(text -> !text.isEmpty());
    }
}
