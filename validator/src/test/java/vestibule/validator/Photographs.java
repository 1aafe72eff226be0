package vestibule.validator;

import java.util.List;
import vestibule.dicom.data.Attribute;
import vestibule.dicom.data.Bulk;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Element;
import vestibule.dicom.data.VR;
import vestibule.dicom.data.Value;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.dict.Dictionary;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.io.TransferSyntax;

/** Good VL Photographic Images of an invented patient, made by hand from the module tables (PS3.3 A.32.4). */
public final class Photographs {

    public static final TransferSyntax SYNTAX = TransferSyntax.JPEG_BASELINE;

    private Photographs() {}

    public static Attribute attribute(String keyword) {
        return Dictionary.standard().find(keyword).orElseThrow().attribute();
    }

    /** A right buccal view of an invented patient, in colour, JPEG Baseline. */
    public static DataSet good() {
        DataSet.Builder builder = DataSet.builder();
        putPatientAndStudy(builder);
        putSeriesAndEquipment(builder);
        putImage(builder);
        putPixels(builder, TinyJpeg.colour());
        return builder.build();
    }

    /** The same in grey. */
    static DataSet grey() {
        return withPixels(good(), TinyJpeg.grey()).toBuilder()
                .put(Attributes.SAMPLES_PER_PIXEL, 1)
                .put(Attributes.PHOTOMETRIC_INTERPRETATION, "MONOCHROME2")
                .remove(Attributes.PLANAR_CONFIGURATION)
                .put(Attributes.ROWS, 8)
                .put(Attributes.COLUMNS, 8)
                .build();
    }

    static DataSet withPixels(DataSet dataSet, byte[] stream) {
        DataSet.Builder builder = dataSet.toBuilder();
        putPixels(builder, stream);
        return builder.build();
    }

    private static void putPatientAndStudy(DataSet.Builder builder) {
        builder.put(Attributes.SPECIFIC_CHARACTER_SET, "ISO_IR 192")
                .put(Attributes.PATIENT_NAME, "Dvořák^Žofie")
                .put(Attributes.PATIENT_ID, "P-1001")
                .put(Attributes.PATIENT_BIRTH_DATE, "19870412")
                .put(Attributes.PATIENT_SEX, "F")
                .put(Attributes.STUDY_INSTANCE_UID, "2.25.1001")
                .put(Attributes.STUDY_DATE, "20260303")
                .put(Attributes.STUDY_TIME, "101500")
                .putEmpty(Attributes.REFERRING_PHYSICIAN_NAME)
                .put(Attributes.STUDY_ID, "S1")
                .put(Attributes.ACCESSION_NUMBER, "A-17");
    }

    private static void putSeriesAndEquipment(DataSet.Builder builder) {
        builder.put(Attributes.MODALITY, "XC")
                .put(Attributes.SERIES_INSTANCE_UID, "2.25.1002")
                .put(Attributes.SERIES_NUMBER, "1")
                .put(Attributes.MANUFACTURER, "Invented Cameras")
                .put(attribute("ManufacturerModelName"), "IC-1");
    }

    private static void putImage(DataSet.Builder builder) {
        builder.put(Attributes.SOP_CLASS_UID, Uids.VL_PHOTOGRAPHIC_IMAGE_STORAGE.value())
                .put(Attributes.SOP_INSTANCE_UID, "2.25.1003")
                .put(Attributes.INSTANCE_NUMBER, "1")
                .put(Attributes.IMAGE_TYPE, "ORIGINAL", "PRIMARY")
                .put(Attributes.PATIENT_ORIENTATION, "A", "F")
                .put(Attributes.IMAGE_LATERALITY, "R")
                .put(Attributes.CONTENT_DATE, "20260303")
                .put(Attributes.CONTENT_TIME, "101612")
                .put(attribute("AcquisitionDateTime"), "20260303101612.000000+0100")
                .put(Attributes.BURNED_IN_ANNOTATION, "NO")
                .put(Attributes.LOSSY_IMAGE_COMPRESSION, "01")
                .put(Attributes.LOSSY_IMAGE_COMPRESSION_METHOD, "ISO_10918_1")
                .put(Attributes.LOSSY_IMAGE_COMPRESSION_RATIO, "7.2")
                .put(Attributes.ACQUISITION_CONTEXT_SEQUENCE, List.of())
                // Jaw region (PS3.16 CID 4016)
                .put(Attributes.ANATOMIC_REGION_SEQUENCE, List.of(code("SCT", "661005", "Jaw region")));
    }

    private static void putPixels(DataSet.Builder builder, byte[] stream) {
        builder.put(Attributes.SAMPLES_PER_PIXEL, 3)
                .put(Attributes.PHOTOMETRIC_INTERPRETATION, "YBR_FULL_422")
                .put(Attributes.PLANAR_CONFIGURATION, 0)
                .put(Attributes.ROWS, 16)
                .put(Attributes.COLUMNS, 16)
                .put(Attributes.BITS_ALLOCATED, 8)
                .put(Attributes.BITS_STORED, 8)
                .put(Attributes.HIGH_BIT, 7)
                .put(Attributes.PIXEL_REPRESENTATION, 0)
                .put(new Element(
                        Attributes.PIXEL_DATA.tag(), VR.OB, new Value.Fragments(List.of(), List.of(Bulk.of(stream)))));
    }

    public static DataSet code(String scheme, String value, String meaning) {
        return DataSet.builder()
                .put(Attributes.CODE_VALUE, value)
                .put(Attributes.CODING_SCHEME_DESIGNATOR, scheme)
                .put(Attributes.CODE_MEANING, meaning)
                .build();
    }
}
