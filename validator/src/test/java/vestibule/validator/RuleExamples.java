package vestibule.validator;

import static vestibule.validator.Photographs.attribute;
import static vestibule.validator.Photographs.code;

import java.nio.file.Files;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import vestibule.dicom.data.Attribute;
import vestibule.dicom.data.Bulk;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Element;
import vestibule.dicom.data.Tag;
import vestibule.dicom.data.VR;
import vestibule.dicom.data.Value;
import vestibule.dicom.dict.Attributes;

/** For each rule of file, encoding and object definition, a file that breaks it. */
final class RuleExamples {

    private RuleExamples() {}

    static Map<String, Example> all() {
        Map<String, Example> all = new TreeMap<>();
        addFile(all);
        addTrailing(all);
        addEncoding(all);
        addValues(all);
        addModules(all);
        addImage(all);
        StreamExamples.addTo(all);
        SenseExamples.addTo(all);
        return all;
    }

    private static DataSet with(Attribute attribute, String... values) {
        return Photographs.good().toBuilder().put(attribute, values).build();
    }

    private static DataSet with(Element element) {
        return Photographs.good().toBuilder().put(element).build();
    }

    private static DataSet without(Attribute attribute) {
        return Photographs.good().toBuilder().remove(attribute).build();
    }

    private static Element text(Tag tag, VR vr, String... values) {
        return new Element(tag, vr, new Value.Texts(List.of(values)));
    }

    private static void addFile(Map<String, Example> all) {
        DataSet meta = Example.goodMeta();
        all.put("FIL-001", file -> Files.write(file, RawWriter.encode(Photographs.good())));
        all.put("FIL-002", Example.preamble("kept for ourselves"));
        all.put("FIL-003", Example.preamble("MZ"));
        all.put(
                "FIL-004",
                Example.meta(meta.toBuilder()
                        .remove(Attributes.IMPLEMENTATION_CLASS_UID)
                        .build()));
        all.put(
                "FIL-005",
                Example.meta(meta.toBuilder()
                        .put(Attributes.FILE_META_INFORMATION_VERSION, Bulk.of(new byte[] {1, 0}))
                        .build()));
        all.put("FIL-006", Example.patched("02000000554c0400", "02000000554c0400ff00000002000000554c0400"));
        all.put(
                "FIL-007",
                Example.meta(meta.toBuilder()
                        .put(Attributes.MEDIA_STORAGE_SOP_CLASS_UID, "1.2.840.10008.5.1.4.1.1.7")
                        .build()));
        all.put(
                "FIL-008",
                Example.meta(meta.toBuilder()
                        .put(Attributes.MEDIA_STORAGE_SOP_INSTANCE_UID, "2.25.4")
                        .build()));
        all.put(
                "FIL-009",
                Example.meta(meta.toBuilder()
                        .put(Attributes.TRANSFER_SYNTAX_UID, "2.25.5")
                        .build()));
        // JPEG Full Progression, retired
        all.put(
                "FIL-010",
                Example.meta(meta.toBuilder()
                        .put(Attributes.TRANSFER_SYNTAX_UID, "1.2.840.10008.1.2.4.55")
                        .build()));
        all.put(
                "FIL-011",
                Example.meta(meta.toBuilder()
                        .put(Attributes.TRANSFER_SYNTAX_UID, "1.2.840.10008.1.2")
                        .build()));
        all.put(
                "FIL-012",
                Example.meta(meta.toBuilder()
                        .put(text(Tag.of(2, 0x0099), VR.LO, "x"))
                        .build()));
        all.put(
                "FIL-013",
                Example.meta(meta.toBuilder()
                        .put(attribute("PrivateInformationCreatorUID"), "2.25.6")
                        .build()));
        all.put("FIL-014", Example.of(with(text(Tag.of(0, 0x0002), VR.UI, "1.2.840.10008.1.1"))));
    }

    private static void addTrailing(Map<String, Example> all) {
        all.put(
                "FIL-015",
                Example.of(with(new Element(Tag.of(0xFFFC, 0xFFFC), VR.OB, new Value.Binary(Bulk.of(new byte[16]))))));
    }

    private static void addEncoding(Map<String, Example> all) {
        // (0008,0060) Modality "XC" with length 1; (0010,0040) PatientSex "F " with length 2 and the bytes of
        // (0010,0030) after it
        all.put(
                "VAL-001",
                Example.patched("080060004353020058 43".replace(" ", ""), "08006000435301 0058".replace(" ", "")));
        all.put("VAL-002", Example.patched("20001000534802005331", "20001600534802005331"));
        all.put("VAL-003", Example.patched("200011004953020031 20".replace(" ", ""), "20001000534802003120"));
        all.put("VAL-004", Example.patched("20001000534802005331", "2000100058580000020000005331"));
        all.put(
                "VAL-005",
                Example.patched(
                        "2800020055530200 0300".replace(" ", ""),
                        "28000200555304000300 0300 28000300555301 0000".replace(" ", "")));
        all.put("VAL-006", Example.patched("100040004353020046 20".replace(" ", ""), "10004000435302004600"));
        all.put("VAL-007", Example.of(with(new Element(Tag.of(8, 0), VR.UL, new Value.Integers(List.of(4L))))));
    }

    private static void addValues(Map<String, Example> all) {
        all.put("VAL-010", Example.of(with(text(Attributes.STUDY_ID.tag(), VR.LO, "S1"))));
        all.put(
                "VAL-011",
                Example.of(with(new Element(
                        Attributes.STUDY_ID.tag(), VR.UN, new Value.Binary(Bulk.of(new byte[] {'S', '1'}))))));
        all.put("VAL-012", Example.of(with(Attributes.STUDY_ID, "S1", "S2")));
        all.put("VAL-013", Example.of(with(text(Tag.of(8, 0x0099), VR.LO, "x"))));
        all.put("VAL-014", Example.of(with(attribute("StudyComments"), "x")));
        all.put("VAL-020", Example.of(with(Attributes.STUDY_DATE, "2026-03-03")));
        all.put("VAL-021", Example.of(with(Attributes.STUDY_ID, " ")));
        all.put("VAL-030", Example.of(with(Attributes.SPECIFIC_CHARACTER_SET, "LATIN")));
        all.put("VAL-031", Example.of(with(Attributes.SPECIFIC_CHARACTER_SET, "ISO_IR 192", "ISO 2022 IR 100")));
        all.put("VAL-032", Example.of(without(Attributes.SPECIFIC_CHARACTER_SET)));
        all.put("VAL-040", Example.of(with(text(Tag.of(0x0009, 0x1001), VR.LO, "x"))));
        all.put("VAL-041", Example.of(with(text(Tag.of(0x0009, 0x0001), VR.LO, "x"))));
        all.put(
                "MOD-013",
                Example.of(with(text(Tag.of(0x0009, 0x0010), VR.LO, "INVENTED")).toBuilder()
                        .put(text(Tag.of(0x0009, 0x1001), VR.LO, "x"))
                        .build()));
    }

    private static void addModules(Map<String, Example> all) {
        all.put("MOD-001", Example.of(without(Attributes.STUDY_INSTANCE_UID)));
        all.put("MOD-002", Example.of(with(Attributes.MODALITY)));
        all.put("MOD-003", Example.of(without(Attributes.PLANAR_CONFIGURATION)));
        all.put(
                "MOD-004",
                Example.of(Photographs.good().toBuilder()
                        .putEmpty(Attributes.PLANAR_CONFIGURATION)
                        .build()));
        all.put("MOD-005", Example.of(without(Attributes.PATIENT_ID)));
        all.put("MOD-006", Example.of(without(Attributes.PATIENT_ORIENTATION)));
        all.put(
                "MOD-007",
                Example.of(Photographs.grey().toBuilder()
                        .put(Attributes.PLANAR_CONFIGURATION, 0)
                        .build()));
        all.put("MOD-008", Example.of(with(Attributes.PATIENT_SEX, "W")));
        all.put("MOD-009", Example.of(with(attribute("TypeOfPatientID"), "CHIP")));
        all.put(
                "MOD-010",
                Example.of(Photographs.good().toBuilder()
                        .put(
                                Attributes.ANATOMIC_REGION_SEQUENCE,
                                List.of(code("SCT", "661005", "Jaw region"), code("SCT", "123851003", "Mouth")))
                        .build()));
        all.put("MOD-011", Example.of(Photographs.good()));
        all.put("MOD-012", Example.of(with(attribute("KVP"), "70")));
        all.put("MOD-014", Example.of(with(Attributes.SOP_CLASS_UID, "1.2.840.10008.5.1.4.1.1.7")));
        all.put(
                "MOD-015",
                Example.of(Photographs.good().toBuilder()
                        .put(attribute("ProcedureCodeSequence"), List.of())
                        .build()));
    }

    private static void addImage(Map<String, Example> all) {
        all.put("MOD-020", Example.of(with(Attributes.IMAGE_TYPE, "ORIGINAL", "BUCCAL")));
        all.put("MOD-021", Example.of(with(Attributes.IMAGE_TYPE, "ORIGINAL", "PRIMARY", "BUCCAL")));
        all.put("MOD-022", Example.of(with(Attributes.PHOTOMETRIC_INTERPRETATION, "RGB")));
        all.put("MOD-023", Example.of(with(Attributes.PHOTOMETRIC_INTERPRETATION, "MONOCHROME2")));
        all.put("MOD-024", Example.of(with(Attributes.NUMBER_OF_FRAMES, "2")));
        all.put("MOD-025", Example.of(with(Attributes.NUMBER_OF_FRAMES, "1")));
        all.put("MOD-026", Example.of(with(Attributes.LOSSY_IMAGE_COMPRESSION, "00")));
        all.put("MOD-027", Example.of(without(Attributes.LOSSY_IMAGE_COMPRESSION_METHOD)));
        all.put("PHO-001", Example.of(with(Attributes.PATIENT_ORIENTATION, "LEFT", "FOOT")));
        all.put("PHO-002", Example.of(with(Attributes.PATIENT_ORIENTATION, "A", "P")));
        all.put("PHO-003", Example.of(with(Attributes.LATERALITY, "R")));
    }
}
