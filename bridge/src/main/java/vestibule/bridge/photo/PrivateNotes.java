package vestibule.bridge.photo;

import com.drew.lang.Rational;
import com.drew.metadata.Metadata;
import com.drew.metadata.exif.ExifSubIFDDirectory;
import com.drew.metadata.exif.GpsDirectory;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import vestibule.dicom.data.Attribute;
import vestibule.dicom.data.Bulk;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Tag;
import vestibule.dicom.data.TextForm;
import vestibule.dicom.data.VR;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.dict.Dictionary;

/**
 * The notes of a camera that tell of people and places, taken out only as far as a practice asks (PS3.3 C.8.12.10 to C.8.12.12; PS3.15
 * Table E.1-1 removes them all).
 */
final class PrivateNotes {

    /** The GPS attributes stand in the order of their Exif tags (0016,0070 is Exif GPS 0000). */
    private static final int FIRST_PLACE = 0x00160070;

    private static final int LAST_TAG = 0x1E;
    private static final int TIME = 0x07;
    private static final int DATE = 0x1D;

    /** The letters that PS3.3 C.8.12.12 enumerates. */
    private static final Map<Integer, String> LETTERS = Map.ofEntries(
            Map.entry(0x01, "NS"),
            Map.entry(0x03, "EW"),
            Map.entry(0x09, "AV"),
            Map.entry(0x0A, "23"),
            Map.entry(0x0C, "KMN"),
            Map.entry(0x0E, "TM"),
            Map.entry(0x10, "TM"),
            Map.entry(0x13, "NS"),
            Map.entry(0x15, "EW"),
            Map.entry(0x17, "TM"),
            Map.entry(0x19, "KMN"));

    private static final int BODY_SERIAL = 0xA431;
    private static final int LENS_SERIAL = 0xA435;
    private static final int OWNER = 0xA430;
    private static final int MAKER_NOTE = 0x927C;

    private PrivateNotes() {}

    static DataSet of(Metadata metadata, Keep keep) {
        DataSet.Builder notes = DataSet.builder();
        ExifTags second = new ExifTags(metadata.getFirstDirectoryOfType(ExifSubIFDDirectory.class));
        if (keep.owner()) {
            putText(notes, Attributes.CAMERA_OWNER_NAME, second.text(OWNER));
        }
        if (keep.serials()) {
            putText(notes, Attributes.DEVICE_SERIAL_NUMBER, second.text(BODY_SERIAL));
            putText(notes, Attributes.LENS_SERIAL_NUMBER, second.text(LENS_SERIAL));
        }
        if (keep.makerNotes()) {
            second.bytes(MAKER_NOTE).ifPresent(bytes -> notes.put(Attributes.MAKER_NOTE, Bulk.of(bytes)));
        }
        if (keep.place()) {
            ExifTags place = new ExifTags(metadata.getFirstDirectoryOfType(GpsDirectory.class));
            for (int tag = 0; tag <= LAST_TAG; tag++) {
                putPlace(notes, place, tag);
            }
        }
        return notes.build();
    }

    private static void putText(DataSet.Builder notes, Attribute attribute, Optional<String> text) {
        notes.putIfKnown(
                attribute,
                text.filter(value -> TextForm.problem(attribute.vr(), value).isEmpty()));
    }

    private static void putPlace(DataSet.Builder notes, ExifTags place, int tag) {
        Attribute attribute = Dictionary.standard()
                .find(new Tag(FIRST_PLACE + tag))
                .orElseThrow(() -> new IllegalStateException("the dictionary has all places"))
                .attribute();
        switch (attribute.vr()) {
            case CS ->
                notes.putIfKnown(
                        attribute,
                        place.text(tag)
                                .filter(letter -> letter.length() == 1
                                        && LETTERS.getOrDefault(tag, "").contains(letter)));
            case DS -> {
                List<String> decimals = Decimal.of(place.fractions(tag));
                if (!decimals.isEmpty() && attribute.multiplicity().allows(decimals.size())) {
                    notes.put(attribute, decimals.toArray(String[]::new));
                }
            }
            case US ->
                place.number(tag)
                        .filter(number -> number == 0 || number == 1)
                        .ifPresent(number -> notes.put(attribute, number));
            case IS ->
                place.number(tag)
                        .filter(number -> number == 0 || number == 1)
                        .ifPresent(number -> notes.put(attribute, Long.toString(number)));
            case DT -> notes.putIfKnown(attribute, tag == DATE ? date(place) : time(place));
            case UT -> putText(notes, attribute, place.text(tag));
            default -> {} // blocks of bytes with a code of their own: version, method, area
        }
    }

    private static Optional<String> date(ExifTags place) {
        return place.text(DATE)
                .map(text -> text.replace(":", ""))
                .filter(text -> TextForm.problem(VR.DA, text).isEmpty() && text.length() == 8);
    }

    /** Hours, minutes and seconds of UTC, with the day they belong to. */
    private static Optional<String> time(ExifTags place) {
        List<Rational> parts = place.fractions(TIME);
        Optional<String> date = date(place);
        if (parts.size() != 3
                || date.isEmpty()
                || parts.stream().anyMatch(part -> part.getDenominator() == 0 || part.doubleValue() < 0)) {
            return Optional.empty();
        }
        String clock = "%02d%02d%02d"
                .formatted(
                        parts.get(0).longValue(),
                        parts.get(1).longValue(),
                        parts.get(2).longValue());
        return Optional.of(date.get() + clock + "+0000")
                .filter(text -> TextForm.problem(VR.DT, text).isEmpty());
    }
}
