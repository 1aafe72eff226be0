package vestibule.validator;

import static vestibule.validator.Photographs.attribute;
import static vestibule.validator.Photographs.code;

import java.util.List;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Element;
import vestibule.dicom.data.Value;
import vestibule.dicom.dict.Attributes;

/** A good photograph that uses many optional modules and sequences, so that what is required inside them can be taken away too. */
final class RichPhotograph {

    private RichPhotograph() {}

    static DataSet good() {
        DataSet.Builder builder = Photographs.good().toBuilder();
        putPatient(builder);
        putTrial(builder);
        putSeries(builder);
        putCamera(builder);
        putAnatomy(builder);
        putReferences(builder);
        putEquipment(builder);
        return builder.build();
    }

    private static DataSet item(Object... pairs) {
        DataSet.Builder builder = DataSet.builder();
        put(builder, pairs);
        return builder.build();
    }

    private static void put(DataSet.Builder builder, Object... pairs) {
        for (int i = 0; i < pairs.length; i += 2) {
            var attribute = attribute((String) pairs[i]);
            Object value = pairs[i + 1];
            switch (attribute.vr().kind()) {
                case SEQUENCE -> builder.put(attribute, List.of((DataSet) value));
                case TEXT -> builder.put(attribute, value.toString().split("\\\\", -1));
                case INTEGER -> builder.put(attribute, Long.parseLong(value.toString()));
                case REAL ->
                    builder.put(new Element(
                            attribute.tag(),
                            attribute.vr(),
                            new Value.Reals(List.of(Double.parseDouble(value.toString())))));
                case BINARY -> throw new IllegalArgumentException(attribute.toString());
            }
        }
    }

    private static void putPatient(DataSet.Builder builder) {
        put(
                builder,
                "IssuerOfPatientID",
                "PRACTICE",
                "IssuerOfPatientIDQualifiersSequence",
                item("UniversalEntityID", "2.25.77", "UniversalEntityIDType", "ISO"),
                "OtherPatientIDsSequence",
                item("PatientID", "OLD-3", "IssuerOfPatientID", "OLD PRACTICE", "TypeOfPatientID", "TEXT"),
                "PatientAge",
                "038Y",
                "PatientSize",
                "1.72",
                "QualityControlSubject",
                "NO",
                "ResponsiblePerson",
                "Dvořák^Jan",
                "ResponsiblePersonRole",
                "PARENT",
                "PatientIdentityRemoved",
                "NO",
                "SmokingStatus",
                "NO");
    }

    private static void putTrial(DataSet.Builder builder) {
        put(
                builder,
                "ClinicalTrialSponsorName",
                "Invented Sponsor",
                "ClinicalTrialProtocolID",
                "T-1",
                "ClinicalTrialProtocolName",
                "Trial",
                "ClinicalTrialSiteID",
                "1",
                "ClinicalTrialSiteName",
                "Site",
                "ClinicalTrialSubjectID",
                "S-1",
                "ClinicalTrialTimePointID",
                "T0",
                "ClinicalTrialCoordinatingCenterName",
                "Centre");
    }

    private static void putSeries(DataSet.Builder builder) {
        put(
                builder,
                "ProcedureCodeSequence",
                code("99INV", "PHOTO", "Clinical photography"),
                "ReferringPhysicianIdentificationSequence",
                item(
                        "PersonIdentificationCodeSequence",
                        code("99INV", "D1", "Doctor one"),
                        "InstitutionName",
                        "Invented Practice"),
                "RequestAttributesSequence",
                item(
                        "RequestedProcedureID",
                        "RP1",
                        "ScheduledProcedureStepID",
                        "SPS1",
                        "ScheduledProtocolCodeSequence",
                        code("99INV", "SET8", "Eight views")),
                "SeriesDescription",
                "Intraoral photographs",
                "BodyPartExamined",
                "JAW",
                "PatientPosition",
                "HFS",
                "PerformedProcedureStepStartDate",
                "20260303",
                "IssuerOfAccessionNumberSequence",
                item("LocalNamespaceEntityID", "PRACTICE"));
    }

    private static void putCamera(DataSet.Builder builder) {
        put(
                builder,
                "ExposureTimeInSeconds",
                0.004,
                "FNumber",
                22.0,
                "ExposureProgram",
                1L,
                "PhotographicSensitivity",
                200L,
                "SensitivityType",
                2L,
                "MeteringMode",
                5L,
                "LightSource",
                4L,
                "FlashFiringStatus",
                1L,
                "FocalLength",
                100.0,
                "SensingMethod",
                2L,
                "WhiteBalance",
                0L,
                "LensMake",
                "Invented Lenses",
                "LensModel",
                "Macro 100",
                "RecognizableVisualFeatures",
                "NO",
                "QualityControlImage",
                "NO");
    }

    private static void putAnatomy(DataSet.Builder builder) {
        DataSet region = code("SCT", "661005", "Jaw region").toBuilder()
                .put(attribute("AnatomicRegionModifierSequence"), List.of(code("SCT", "24028007", "Right")))
                .build();
        DataSet tooth = code("SCT", "422653006", "Permanent maxillary right central incisor tooth").toBuilder()
                .put(attribute("PrimaryAnatomicStructureModifierSequence"), List.of(code("SCT", "24028007", "Right")))
                .build();
        DataSet context = item(
                "ValueType",
                "CODE",
                "ConceptNameCodeSequence",
                code("DCM", "111013", "Acquisition Device Processing Description"),
                "ConceptCodeSequence",
                code("99INV", "MIRROR", "Intraoral mirror"));
        builder.put(Attributes.ANATOMIC_REGION_SEQUENCE, List.of(region))
                .put(Attributes.PRIMARY_ANATOMIC_STRUCTURE_SEQUENCE, List.of(tooth))
                .put(Attributes.ACQUISITION_CONTEXT_SEQUENCE, List.of(context));
    }

    private static void putReferences(DataSet.Builder builder) {
        builder.put(Attributes.IMAGE_TYPE, "DERIVED", "PRIMARY");
        String photographs = "1.2.840.10008.5.1.4.1.1.77.1.4";
        put(
                builder,
                "SourceImageSequence",
                item(
                        "ReferencedSOPClassUID",
                        photographs,
                        "ReferencedSOPInstanceUID",
                        "2.25.999",
                        "SpatialLocationsPreserved",
                        "REORIENTED_ONLY",
                        "PatientOrientation",
                        "P\\F",
                        "PurposeOfReferenceCodeSequence",
                        code("DCM", "121322", "Source image for image processing operation")),
                "DerivationDescription",
                "mirrored left to right",
                "DerivationCodeSequence",
                code("DCM", "113085", "Spatial resampling"),
                "ReferencedSeriesSequence",
                item(
                        "SeriesInstanceUID",
                        "2.25.1002",
                        "ReferencedInstanceSequence",
                        item("ReferencedSOPClassUID", photographs, "ReferencedSOPInstanceUID", "2.25.999")));
    }

    private static void putEquipment(DataSet.Builder builder) {
        put(
                builder,
                "TimezoneOffsetFromUTC",
                "+0100",
                "ContributingEquipmentSequence",
                item(
                        "PurposeOfReferenceCodeSequence",
                        code("DCM", "109103", "Modifying Equipment"),
                        "Manufacturer",
                        "Vestibule",
                        "ContributionDateTime",
                        "20260303120000"),
                "OriginalAttributesSequence",
                item(
                        "AttributeModificationDateTime",
                        "20260303120000",
                        "ModifyingSystem",
                        "Vestibule",
                        "ReasonForTheAttributeModification",
                        "CORRECT",
                        "SourceOfPreviousValues",
                        "Camera",
                        "ModifiedAttributesSequence",
                        item("PatientOrientation", "P\\F")));
    }
}
