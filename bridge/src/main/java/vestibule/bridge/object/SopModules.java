package vestibule.bridge.object;

import java.io.IOException;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.List;
import vestibule.bridge.photo.Picture;
import vestibule.dicom.data.Code;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Uid;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.io.DataSetCodec;
import vestibule.dicom.io.Implementation;
import vestibule.dicom.io.TransferSyntax;

/** SOP Common (PS3.3 C.12.1): what the object is, its identity, and that this program made it. */
final class SopModules {

    private static final Code IMPORTER = new Code("MEDIM", "DCM", "Portable Media Importer Equipment");

    private SopModules() {}

    static void put(DataSet.Builder object, PhotographicObject.Material material) {
        object.put(Attributes.SOP_CLASS_UID, Uids.VL_PHOTOGRAPHIC_IMAGE_STORAGE.value());
        DataSet.Builder program = DataSet.builder()
                .put(
                        Attributes.PURPOSE_OF_REFERENCE_CODE_SEQUENCE,
                        List.of(ImageModules.item(IMPORTER).build()))
                .put(Attributes.MANUFACTURER, "Vestibule")
                .put(Attributes.MANUFACTURER_MODEL_NAME, "Vestibule")
                .put(Attributes.SOFTWARE_VERSIONS, Implementation.VERSION_NAME)
                .put(Attributes.CONTRIBUTION_DESCRIPTION, contribution(material.picture()));
        object.put(Attributes.CONTRIBUTING_EQUIPMENT_SEQUENCE, List.of(program.build()));
    }

    private static String contribution(Picture picture) {
        return picture.changes().any()
                ? "JPEG photograph put into the form of this object; camera metadata left out of the stream"
                : "JPEG photograph wrapped as it came; camera metadata left out of the stream";
    }

    /**
     * The SOP Instance UID is worked out from everything else in the object: the same object has the same one every time, and another
     * content never travels under it (PS3.5 9.1). One that was taken back is not used again, even where the same content is right after all.
     */
    static void putInstance(DataSet.Builder object, PhotographicObject.Material material) throws IOException {
        DataSet rest = object.build().toBuilder().remove(Attributes.PIXEL_DATA).build();
        byte[] encoded =
                DataSetCodec.encode(rest, TransferSyntax.EXPLICIT_VR_LITTLE_ENDIAN, DataSetCodec.Strictness.OBJECT);
        String name = String.join(
                "\n",
                "instance",
                sha256(encoded),
                material.photo().sha256(),
                Long.toString(material.picture().stream().length())
                        + (material.edition() == 0 ? "" : "\nedition " + material.edition()));
        object.put(
                Attributes.SOP_INSTANCE_UID,
                Uid.ofName(Implementation.CLASS_UID, name).value());
    }

    private static String sha256(byte[] bytes) {
        try {
            return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(bytes));
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java platform has SHA-256", e);
        }
    }
}
