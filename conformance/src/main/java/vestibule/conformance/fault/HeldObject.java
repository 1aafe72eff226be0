package vestibule.conformance.fault;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.util.Optional;
import vestibule.dicom.data.Bulk;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Element;
import vestibule.dicom.data.Uid;
import vestibule.dicom.data.Value;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.io.DataSetCodec;
import vestibule.dicom.io.TransferSyntax;

/**
 * An object as an archive holds it.
 *
 * @param sopClass its SOP class
 * @param sopInstance its SOP instance, as it was announced
 * @param bytes SHA-256 of its data set as it travelled
 * @param scan the {@link ScanHash} of its picture; empty if it has none
 * @param patientId Patient ID (0010,0020)
 * @param source the object its picture was derived from, if it names one
 * @param header everything but the pixels
 * @param conflicts whether other bytes came under the same SOP Instance UID
 */
public record HeldObject(
        Uid sopClass,
        Uid sopInstance,
        String bytes,
        Optional<String> scan,
        String patientId,
        Optional<Uid> source,
        DataSet header,
        boolean conflicts) {

    private static final long LARGEST_PICTURE = 1L << 30;

    /** Reads an object from what travelled. */
    public static HeldObject of(Uid sopClass, Uid sopInstance, byte[] encoded, TransferSyntax syntax)
            throws IOException {
        DataSet all = DataSetCodec.decode(encoded, syntax);
        Optional<String> scan = Optional.empty();
        DataSet.Builder header = DataSet.builder();
        for (Element element : all) {
            if (element.value() instanceof Value.Fragments fragments) {
                scan = ScanHash.of(joined(fragments));
            } else if (!(element.value() instanceof Value.Binary)) {
                header.put(element);
            }
        }
        return new HeldObject(
                sopClass,
                sopInstance,
                ScanHash.sha256(encoded),
                scan,
                all.text(Attributes.PATIENT_ID).orElse(""),
                all.items(Attributes.SOURCE_IMAGE_SEQUENCE).stream()
                        .findFirst()
                        .flatMap(item -> item.text(Attributes.REFERENCED_SOP_INSTANCE_UID))
                        .flatMap(Uid::parse),
                header.build(),
                false);
    }

    private static byte[] joined(Value.Fragments fragments) throws IOException {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        for (Bulk fragment : fragments.fragments()) {
            bytes.writeBytes(fragment.bytes(LARGEST_PICTURE));
        }
        return bytes.toByteArray();
    }

    HeldObject conflicting() {
        return new HeldObject(sopClass, sopInstance, bytes, scan, patientId, source, header, true);
    }

    /** This one under another patient, as an archive files it that thinks it knows better. */
    HeldObject filedUnder(String otherPatient) {
        DataSet refiled =
                header.toBuilder().put(Attributes.PATIENT_ID, otherPatient).build();
        return new HeldObject(sopClass, sopInstance, bytes, scan, otherPatient, source, refiled, conflicts);
    }
}
