package vestibule.validator;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Element;
import vestibule.dicom.data.VR;
import vestibule.dicom.data.Value;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.dict.Dictionary;

/** Good objects with one known defect each: what was done, and the rule that must find it. */
final class LabelledSet {

    /**
     * One object.
     *
     * @param what the defect, in words
     * @param rule the rule that must find it, and no other
     * @param base the good object
     * @param broken the same with the defect
     */
    record Labelled(String what, String rule, DataSet base, DataSet broken) {}

    /** Closed lists of values (PS3.3 C.7.1.1, C.7.6.1, C.8.12.1, C.7.6.1.1.5, C.7.6.23). */
    private static final Set<String> CLOSED = Set.of(
            "PatientSex", "BurnedInAnnotation", "ImageLaterality", "RecognizableVisualFeatures", "QualityControlImage");
    /** Type 1 in every photograph (PS3.3 C.7.2.1, C.7.3.1, C.8.12.10, C.7.6.1, C.12.1, C.7.6.3). */
    private static final List<String> TYPE_1 = List.of("StudyInstanceUID", "SeriesInstanceUID", "Rows", "Columns");
    /** Type 2 in every photograph (PS3.3 C.7.1.1, C.7.2.1, C.7.3.1, C.7.5.1, C.7.6.1). */
    private static final List<String> TYPE_2 = List.of(
            "PatientBirthDate",
            "PatientSex",
            "StudyDate",
            "StudyTime",
            "ReferringPhysicianName",
            "StudyID",
            "AccessionNumber",
            "SeriesNumber",
            "InstanceNumber",
            "Manufacturer");
    /** What names the object itself stands in the meta information too, and what others are worked out from breaks more than one rule. */
    private static final Set<String> TIED = Set.of(
            "SpecificCharacterSet",
            "SOPClassUID",
            "SOPInstanceUID",
            "LossyImageCompressionMethod",
            "LossyImageCompressionRatio",
            "LossyImageCompression",
            "PhotometricInterpretation",
            "ImageType",
            "PatientOrientation",
            "Modality");

    private LabelledSet() {}

    /** The good objects: colour, grey, one with nearly all attributes, other sides and other views. */
    static Map<String, DataSet> bases() {
        Map<String, DataSet> bases = new LinkedHashMap<>();
        bases.put("colour", Photographs.good());
        bases.put("grey", Photographs.grey());
        bases.put("rich", RichPhotograph.good());
        bases.put(
                "left",
                Photographs.good().toBuilder()
                        .put(Attributes.PATIENT_ORIENTATION, "P", "F")
                        .put(Attributes.IMAGE_LATERALITY, "L")
                        .build());
        bases.put(
                "face",
                Photographs.good().toBuilder()
                        .put(Attributes.PATIENT_ORIENTATION, "L", "F")
                        .put(Attributes.IMAGE_LATERALITY, "U")
                        .put(Attributes.RECOGNIZABLE_VISUAL_FEATURES, "YES")
                        .put(Attributes.ANATOMIC_REGION_SEQUENCE, List.of(Photographs.code("SCT", "89545001", "Face")))
                        .build());
        return bases;
    }

    static List<Labelled> all() {
        List<Labelled> all = new ArrayList<>();
        bases().forEach((name, base) -> {
            for (Element element : base) {
                String keyword = Dictionary.standard()
                        .find(element.tag())
                        .map(entry -> entry.attribute().keyword())
                        .orElse("");
                if (element.value() instanceof Value.Texts texts && !TIED.contains(keyword)) {
                    addText(all, name + ": " + keyword, keyword, base, element, texts.all());
                }
            }
            TYPE_1.forEach(keyword -> all.add(
                    new Labelled(name + ": " + keyword + " taken out", "MOD-001", base, without(base, keyword))));
            TYPE_2.forEach(keyword -> all.add(
                    new Labelled(name + ": " + keyword + " taken out", "MOD-005", base, without(base, keyword))));
        });
        return all;
    }

    private static void addText(
            List<Labelled> all, String what, String keyword, DataSet base, Element element, List<String> values) {
        VR other = element.vr() == VR.LO ? VR.LT : VR.LO;
        all.add(new Labelled(
                what + " written as " + other,
                "VAL-010",
                base,
                base.toBuilder()
                        .put(new Element(element.tag(), other, element.value()))
                        .build()));
        if (values.size() == 1 && onlyOne(element)) {
            all.add(new Labelled(
                    what + " with two values", "VAL-012", base, with(base, element, values.get(0), values.get(0))));
        }
        illFormed(element.vr())
                .filter(text -> !values.isEmpty())
                .ifPresent(text ->
                        all.add(new Labelled(what + " is " + text, "VAL-020", base, with(base, element, text))));
        if (CLOSED.contains(keyword)) {
            all.add(new Labelled(what + " is XYZZY", "MOD-008", base, with(base, element, "XYZZY")));
        }
    }

    private static boolean onlyOne(Element element) {
        return Set.of(VR.SH, VR.LO, VR.CS, VR.DA, VR.TM, VR.DT, VR.IS, VR.DS, VR.UI, VR.PN)
                        .contains(element.vr())
                && Dictionary.standard()
                        .find(element.tag())
                        .filter(entry ->
                                entry.attribute().multiplicity().toString().equals("1"))
                        .isPresent();
    }

    private static Optional<String> illFormed(VR vr) {
        return switch (vr) {
            case DA -> Optional.of("2026-3-3");
            case TM -> Optional.of("25:61:00");
            case DT -> Optional.of("20261301");
            case IS -> Optional.of("one");
            case DS -> Optional.of("seven");
            case UI -> Optional.of("1..2");
            case SH -> Optional.of("x".repeat(17));
            case LO -> Optional.of("x".repeat(65));
            default -> Optional.empty();
        };
    }

    private static DataSet with(DataSet base, Element element, String... values) {
        return base.toBuilder()
                .put(new Element(element.tag(), element.vr(), new Value.Texts(List.of(values))))
                .build();
    }

    private static DataSet without(DataSet base, String keyword) {
        return base.toBuilder().remove(Photographs.attribute(keyword)).build();
    }
}
