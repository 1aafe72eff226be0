package vestibule.bridge.delivery;

import java.io.IOException;
import java.io.InputStream;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import vestibule.dicom.data.Attribute;
import vestibule.dicom.data.Bulk;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Element;
import vestibule.dicom.data.Value;
import vestibule.dicom.dict.Attributes;

/**
 * Whether an object that came back from an archive still says what was sent of whose it is, where it belongs, which side it shows and which way
 * round, and how its picture is to be read. The object came back whole, so a value of ours that is missing there is one that was
 * taken away. What we left empty an archive may fill in, and what it adds or changes elsewhere, such as the names of institutions, is its
 * own affair.
 */
final class Fidelity {

    /** What is compared together, and how a difference in it is told. */
    private record Matter(String told, List<Attribute> attributes) {}

    private static final List<Matter> MATTERS = List.of(
            new Matter(
                    "it is kept in another study or series",
                    List.of(Attributes.STUDY_INSTANCE_UID, Attributes.SERIES_INSTANCE_UID)),
            new Matter(
                    "it is kept with another side, direction or region",
                    List.of(
                            Attributes.PATIENT_ORIENTATION,
                            Attributes.IMAGE_LATERALITY,
                            Attributes.LATERALITY,
                            Attributes.ANATOMIC_REGION_SEQUENCE,
                            Attributes.PRIMARY_ANATOMIC_STRUCTURE_SEQUENCE)),
            new Matter(
                    "it says something else of how it was taken and put right",
                    List.of(
                            Attributes.IMAGE_TYPE,
                            Attributes.ACQUISITION_CONTEXT_DESCRIPTION,
                            Attributes.DERIVATION_DESCRIPTION,
                            Attributes.SOURCE_IMAGE_SEQUENCE)),
            new Matter(
                    "it says something else of its picture's form and colours",
                    List.of(
                            Attributes.SAMPLES_PER_PIXEL,
                            Attributes.PHOTOMETRIC_INTERPRETATION,
                            Attributes.PLANAR_CONFIGURATION,
                            Attributes.ROWS,
                            Attributes.COLUMNS,
                            Attributes.BITS_ALLOCATED,
                            Attributes.BITS_STORED,
                            Attributes.HIGH_BIT,
                            Attributes.PIXEL_REPRESENTATION,
                            Attributes.ICC_PROFILE)),
            new Matter(
                    "it refers to other objects than it did",
                    List.of(
                            Attributes.CONCEPT_NAME_CODE_SEQUENCE,
                            Attributes.CURRENT_REQUESTED_PROCEDURE_EVIDENCE_SEQUENCE,
                            Attributes.CONTENT_SEQUENCE)));

    private Fidelity() {}

    /** What differs, with the names of attributes and without any value; empty if nothing does. */
    static Optional<String> difference(DataSet ours, DataSet theirs) throws IOException {
        List<String> identity = Identity.changedOrGone(ours, theirs);
        if (!identity.isEmpty()) {
            return Optional.of(told("it is kept under another patient's data", identity));
        }
        for (Matter matter : MATTERS) {
            List<String> changed = new ArrayList<>();
            for (Attribute attribute : matter.attributes()) {
                if (!isKept(ours, theirs, attribute)) {
                    changed.add(attribute.toString());
                }
            }
            if (!changed.isEmpty()) {
                return Optional.of(told(matter.told(), changed));
            }
        }
        return Optional.empty();
    }

    private static String told(String what, List<String> attributes) {
        return "%s (%s)".formatted(what, String.join(", ", attributes));
    }

    private static boolean isKept(DataSet ours, DataSet theirs, Attribute attribute) throws IOException {
        Optional<Element> here = ours.find(attribute).filter(element -> !element.isEmpty());
        Optional<Value> there = theirs.find(attribute).map(Element::value);
        return here.isEmpty() || (there.isPresent() && isSame(here.get().value(), there.get()));
    }

    private static boolean isSame(Value here, Value there) throws IOException {
        if (here instanceof Value.Texts ours && there instanceof Value.Texts theirs) {
            // Spaces at the ends have no meaning (PS3.5 6.2)
            return stripped(ours).equals(stripped(theirs));
        }
        if (here instanceof Value.Items ours && there instanceof Value.Items theirs) {
            return holdsAll(ours.all(), theirs.all());
        }
        if (here instanceof Value.Binary ours && there instanceof Value.Binary theirs) {
            return sameBytes(List.of(ours.bulk()), List.of(theirs.bulk()));
        }
        return here.equals(there);
    }

    private static List<String> stripped(Value.Texts texts) {
        return texts.all().stream().map(String::strip).toList();
    }

    /** Item by item, in their order, everything that ours say; theirs may say more. */
    private static boolean holdsAll(List<DataSet> ours, List<DataSet> theirs) throws IOException {
        if (ours.size() != theirs.size()) {
            return false;
        }
        for (int i = 0; i < ours.size(); i++) {
            for (Element element : ours.get(i)) {
                Optional<Value> there = theirs.get(i).find(element.tag()).map(Element::value);
                if (!element.isEmpty() && (there.isEmpty() || !isSame(element.value(), there.get()))) {
                    return false;
                }
            }
        }
        return true;
    }

    /** Whether bytes are the same but for the zero byte that a value of odd length gets behind it (PS3.5 A.4). */
    static boolean sameBytes(List<Bulk> here, List<Bulk> there) throws IOException {
        try (InputStream left = Bulk.concat(here).open();
                InputStream right = Bulk.concat(there).open()) {
            return sameBytes(left, right);
        }
    }

    private static boolean sameBytes(InputStream left, InputStream right) throws IOException {
        byte[] ours = new byte[1 << 16];
        byte[] theirs = new byte[1 << 16];
        while (true) {
            int a = left.readNBytes(ours, 0, ours.length);
            int b = right.readNBytes(theirs, 0, theirs.length);
            if (a < ours.length || b < theirs.length) {
                boolean padded = b == a + 1 && theirs[a] == 0;
                return Arrays.equals(ours, 0, a, theirs, 0, Math.min(a, b)) && (a == b || padded) && right.read() < 0;
            }
            if (!Arrays.equals(ours, theirs)) {
                return false;
            }
        }
    }
}
