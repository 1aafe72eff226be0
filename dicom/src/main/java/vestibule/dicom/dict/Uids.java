package vestibule.dicom.dict;

import vestibule.dicom.data.Uid;

/** The unique identifiers that code names, each compared with its row of the table by a test (PS3.6 A). */
public final class Uids {

    public static final Uid VERIFICATION = new Uid("1.2.840.10008.1.1");
    public static final Uid IMPLICIT_VR_LITTLE_ENDIAN = new Uid("1.2.840.10008.1.2");
    public static final Uid EXPLICIT_VR_LITTLE_ENDIAN = new Uid("1.2.840.10008.1.2.1");
    public static final Uid DEFLATED_EXPLICIT_VR_LITTLE_ENDIAN = new Uid("1.2.840.10008.1.2.1.99");
    public static final Uid EXPLICIT_VR_BIG_ENDIAN = new Uid("1.2.840.10008.1.2.2");
    public static final Uid JPEG_BASELINE8_BIT = new Uid("1.2.840.10008.1.2.4.50");
    public static final Uid JPEG_EXTENDED12_BIT = new Uid("1.2.840.10008.1.2.4.51");
    public static final Uid JPEG_LOSSLESS = new Uid("1.2.840.10008.1.2.4.57");
    public static final Uid JPEG_LOSSLESS_SV1 = new Uid("1.2.840.10008.1.2.4.70");
    public static final Uid RLE_LOSSLESS = new Uid("1.2.840.10008.1.2.5");
    public static final Uid VL_PHOTOGRAPHIC_IMAGE_STORAGE = new Uid("1.2.840.10008.5.1.4.1.1.77.1.4");
    public static final Uid KEY_OBJECT_SELECTION_DOCUMENT_STORAGE = new Uid("1.2.840.10008.5.1.4.1.1.88.59");
    public static final Uid STORAGE_COMMITMENT_PUSH_MODEL = new Uid("1.2.840.10008.1.20.1");
    public static final Uid PATIENT_ROOT_QUERY_RETRIEVE_INFORMATION_MODEL_FIND = new Uid("1.2.840.10008.5.1.4.1.2.1.1");
    public static final Uid STUDY_ROOT_QUERY_RETRIEVE_INFORMATION_MODEL_FIND = new Uid("1.2.840.10008.5.1.4.1.2.2.1");
    public static final Uid PATIENT_ROOT_QUERY_RETRIEVE_INFORMATION_MODEL_GET = new Uid("1.2.840.10008.5.1.4.1.2.1.3");
    public static final Uid STUDY_ROOT_QUERY_RETRIEVE_INFORMATION_MODEL_GET = new Uid("1.2.840.10008.5.1.4.1.2.2.3");
    public static final Uid PATIENT_ROOT_QUERY_RETRIEVE_INFORMATION_MODEL_MOVE = new Uid("1.2.840.10008.5.1.4.1.2.1.2");
    public static final Uid STUDY_ROOT_QUERY_RETRIEVE_INFORMATION_MODEL_MOVE = new Uid("1.2.840.10008.5.1.4.1.2.2.2");
    public static final Uid MODALITY_WORKLIST_INFORMATION_MODEL_FIND = new Uid("1.2.840.10008.5.1.4.31");
    public static final Uid SECONDARY_CAPTURE_IMAGE_STORAGE = new Uid("1.2.840.10008.5.1.4.1.1.7");
    public static final Uid DICOM_APPLICATION_CONTEXT = new Uid("1.2.840.10008.3.1.1.1");
    public static final Uid STORAGE_COMMITMENT_PUSH_MODEL_INSTANCE = new Uid("1.2.840.10008.1.20.1.1");
    public static final Uid MODALITY_PERFORMED_PROCEDURE_STEP = new Uid("1.2.840.10008.3.1.2.3.3");
    public static final Uid DIGITAL_INTRA_ORAL_X_RAY_IMAGE_STORAGE_FOR_PRESENTATION =
            new Uid("1.2.840.10008.5.1.4.1.1.1.3");

    private Uids() {}
}
