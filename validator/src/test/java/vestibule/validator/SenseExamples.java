package vestibule.validator;

import static vestibule.validator.Photographs.attribute;
import static vestibule.validator.Photographs.code;

import java.util.List;
import java.util.Map;
import vestibule.dicom.data.Attribute;
import vestibule.dicom.data.Bulk;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Element;
import vestibule.dicom.data.VR;
import vestibule.dicom.data.Value;
import vestibule.dicom.dict.Attributes;

/** For each rule of codes, sides and sense, a file that breaks it. */
final class SenseExamples {

    private SenseExamples() {}

    static void addTo(Map<String, Example> all) {
        addCodes(all);
        addSides(all);
        addSense(all);
        addMoments(all);
        addDirections(all);
        addPrivacy(all);
        addViews(all);
    }

    private static Example region(DataSet code) {
        return Example.of(Photographs.good().toBuilder()
                .put(Attributes.ANATOMIC_REGION_SEQUENCE, List.of(code))
                .build());
    }

    private static Example structure(DataSet code) {
        return Example.of(Photographs.good().toBuilder()
                .put(Attributes.PRIMARY_ANATOMIC_STRUCTURE_SEQUENCE, List.of(code))
                .build());
    }

    private static DataSet with(Attribute attribute, String... values) {
        return Photographs.good().toBuilder().put(attribute, values).build();
    }

    private static void addCodes(Map<String, Example> all) {
        all.put("COD-001", region(code("SRT", "T-D1213", "Jaw region")));
        all.put("COD-002", region(code("SCT", "661005", "Mouth")));
        all.put("COD-003", region(code("SCT", "661005", "Kieferregion")));
        all.put("COD-004", region(code("SCT", "661006", "Jaw region")));
        all.put("COD-005", structure(code("SCT", "22120004", "Maxillary right central incisor tooth")));
        all.put(
                "COD-006",
                region(code("SCT", "661005", "Jaw region").toBuilder()
                        .put(attribute("ContextIdentifier"), "4018")
                        .put(attribute("MappingResource"), "DCMR")
                        .put(attribute("ContextGroupVersion"), "20190118")
                        .build()));
        all.put("COD-007", region(code("99INV", "JAW", "Jaw region")));
    }

    private static void addSides(Map<String, Example> all) {
        DataSet left = code("SCT", "661005", "Jaw region").toBuilder()
                .put(attribute("AnatomicRegionModifierSequence"), List.of(code("SCT", "7771000", "Left")))
                .build();
        all.put("COD-010", region(left));
        // tooth 21
        all.put("COD-011", structure(code("SCT", "424399000", "Permanent maxillary left central incisor tooth")));
        all.put(
                "COD-015",
                Example.of(Photographs.good().toBuilder()
                        .remove(Attributes.IMAGE_LATERALITY)
                        .put(Attributes.ANATOMIC_REGION_SEQUENCE, List.of(left))
                        .put(
                                Attributes.PRIMARY_ANATOMIC_STRUCTURE_SEQUENCE,
                                List.of(code("SCT", "422653006", "Permanent maxillary right central incisor tooth")))
                        .build()));
        all.put("COD-012", Example.of(with(Attributes.BODY_PART_EXAMINED, "TEETH")));
        all.put("COD-013", Example.of(with(Attributes.BODY_PART_EXAMINED, "MOUTH")));
    }

    private static void addSense(Map<String, Example> all) {
        all.put(
                "COD-014",
                Example.of(Photographs.good().toBuilder()
                        .put(Attributes.ANATOMIC_REGION_SEQUENCE, List.of(code("SCT", "91609006", "Mandible")))
                        .put(
                                Attributes.PRIMARY_ANATOMIC_STRUCTURE_SEQUENCE,
                                List.of(code("SCT", "422653006", "Permanent maxillary right central incisor tooth")))
                        .build()));
        all.put("PHO-004", Example.of(with(Attributes.PATIENT_BIRTH_DATE, "20270101")));
        all.put("PHO-005", Example.of(with(attribute("AcquisitionDateTime"), "20250303101612")));
        all.put("PHO-006", Example.of(with(Attributes.IMAGE_TYPE, "DERIVED", "PRIMARY")));
        DataSet itself = DataSet.builder()
                .put(attribute("ReferencedSOPClassUID"), "1.2.840.10008.5.1.4.1.1.77.1.4")
                .put(attribute("ReferencedSOPInstanceUID"), "2.25.1003")
                .put(
                        attribute("PurposeOfReferenceCodeSequence"),
                        List.of(code("DCM", "121322", "Source image for image processing operation")))
                .build();
        all.put(
                "PHO-007",
                Example.of(Photographs.good().toBuilder()
                        .put(Attributes.SOURCE_IMAGE_SEQUENCE, List.of(itself))
                        .build()));
        all.put("PHO-008", region(code("SCT", "89545001", "Face")));
        all.put(
                "PHO-009",
                Example.of(Photographs.good().toBuilder()
                        .putEmpty(Attributes.PATIENT_ORIENTATION)
                        .build()));
        all.put(
                "PHO-010",
                Example.of(Photographs.good().toBuilder()
                        .remove(Attributes.ANATOMIC_REGION_SEQUENCE)
                        .build()));
        all.put(
                "PHO-011",
                Example.of(Photographs.good().toBuilder()
                        .putEmpty(Attributes.PATIENT_ID)
                        .build()));
        all.put("PHO-012", Example.of(with(attribute("GPSMapDatum"), "WGS-84")));
    }

    private static void addMoments(Map<String, Example> all) {
        all.put("PHO-013", Example.of(with(Attributes.STUDY_DATE, "29990101")));
        all.put("PHO-014", Example.of(with(attribute("AcquisitionDateTime"), "20000101101612")));
        all.put("PHO-015", Example.of(with(attribute("AcquisitionDateTime"), "20260303081612")));
        all.put("PHO-016", Example.of(with(attribute("PatientAge"), "012Y")));
    }

    private static void addDirections(Map<String, Example> all) {
        all.put(
                "PHO-017",
                Example.of(face().toBuilder()
                        .put(Attributes.RECOGNIZABLE_VISUAL_FEATURES, "NO")
                        .build()));
        all.put("PHO-018", Example.of(with(Attributes.PATIENT_ORIENTATION, "P", "F")));
        all.put(
                "PHO-019",
                Example.of(Photographs.good().toBuilder()
                        .put(Attributes.ANATOMIC_REGION_SEQUENCE, List.of(code("SCT", "70925003", "Maxilla")))
                        .put(Attributes.PATIENT_ORIENTATION, "L", "A")
                        .put(Attributes.IMAGE_LATERALITY, "B")
                        .build()));
        all.put(
                "PHO-020",
                Example.of(face().toBuilder()
                        .put(Attributes.PATIENT_ORIENTATION, "R", "F")
                        .build()));
        DataSet source =
                RichPhotograph.good().items(Attributes.SOURCE_IMAGE_SEQUENCE).get(0);
        all.put(
                "PHO-021",
                Example.of(RichPhotograph.good().toBuilder()
                        .put(
                                Attributes.SOURCE_IMAGE_SEQUENCE,
                                List.of(source.toBuilder()
                                        .put(Attributes.PATIENT_ORIENTATION, "L", "F")
                                        .build()))
                        .build()));
    }

    /** A mirror picture from the front, mirrored back top to bottom. */
    private static Example flipped(String rows, String columns) {
        DataSet source =
                RichPhotograph.good().items(Attributes.SOURCE_IMAGE_SEQUENCE).get(0);
        return Example.of(RichPhotograph.good().toBuilder()
                .put(
                        Attributes.ACQUISITION_CONTEXT_DESCRIPTION,
                        "view=occlusal-maxillary-mirror; capture=mirror-front; picture=corrected; correction=flip-vertical")
                .put(Attributes.PATIENT_ORIENTATION, rows, columns)
                .put(
                        Attributes.SOURCE_IMAGE_SEQUENCE,
                        List.of(source.toBuilder()
                                .put(Attributes.PATIENT_ORIENTATION, "L", "A")
                                .build()))
                .build());
    }

    private static Example taken(String words, String rows, String columns, String side) {
        return Example.of(Photographs.good().toBuilder()
                .put(Attributes.ACQUISITION_CONTEXT_DESCRIPTION, words)
                .put(Attributes.PATIENT_ORIENTATION, rows, columns)
                .put(Attributes.IMAGE_LATERALITY, side)
                .build());
    }

    private static void addViews(Map<String, Example> all) {
        all.put("PHO-026", flipped("R", "A"));
        String occlusal = "view=occlusal-maxillary-mirror; capture=mirror-front; picture=corrected; correction=";
        all.put("PHO-022", taken(occlusal + "flip-vertical", "L", "A", "B"));
        all.put("PHO-023", taken("view=teeth-buccal-right-direct; capture=direct", "P", "H", "R"));
        all.put("PHO-024", taken(occlusal + "turn-180", "L", "P", "B"));
        all.put("PHO-025", taken("view=teeth-buccal-left-direct; capture=direct", "A", "F", "R"));
    }

    private static DataSet face() {
        return Photographs.good().toBuilder()
                .put(Attributes.ANATOMIC_REGION_SEQUENCE, List.of(code("SCT", "89545001", "Face")))
                .put(Attributes.RECOGNIZABLE_VISUAL_FEATURES, "YES")
                .put(Attributes.IMAGE_LATERALITY, "U")
                .build();
    }

    private static void addPrivacy(Map<String, Example> all) {
        all.put("VAL-022", Example.of(with(Attributes.SERIES_INSTANCE_UID, "2.25.1001")));
        DataSet icon = DataSet.builder()
                .put(Attributes.SAMPLES_PER_PIXEL, 1)
                .put(Attributes.PHOTOMETRIC_INTERPRETATION, "MONOCHROME2")
                .put(Attributes.ROWS, 2)
                .put(Attributes.COLUMNS, 2)
                .put(Attributes.BITS_ALLOCATED, 8)
                .put(Attributes.BITS_STORED, 8)
                .put(Attributes.HIGH_BIT, 7)
                .put(Attributes.PIXEL_REPRESENTATION, 0)
                .put(new Element(
                        Attributes.PIXEL_DATA.tag(), VR.OB, new Value.Binary(Bulk.of(new byte[] {1, 2, 3, 4}))))
                .build();
        all.put(
                "PRV-009",
                Example.of(Photographs.good().toBuilder()
                        .put(attribute("IconImageSequence"), List.of(icon))
                        .build()));
        all.put("PRV-010", Example.of(with(attribute("DeviceSerialNumber"), "0815")));
        all.put(
                "PRV-011",
                Example.of(Photographs.good().toBuilder()
                        .put(new Element(
                                attribute("MakerNote").tag(), VR.OB, new Value.Binary(Bulk.of(new byte[] {1, 2}))))
                        .build()));
        all.put(
                "PRV-012",
                Example.of(Photographs.good().toBuilder()
                        .remove(Attributes.BURNED_IN_ANNOTATION)
                        .build()));
    }
}
