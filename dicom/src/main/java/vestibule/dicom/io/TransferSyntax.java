package vestibule.dicom.io;

import java.nio.ByteOrder;
import java.util.Optional;
import vestibule.dicom.data.Uid;
import vestibule.dicom.dict.Dictionary;
import vestibule.dicom.dict.Uids;

/**
 * How a data set is written as bytes (PS3.5 10, A).
 *
 * @param uid its identifier
 * @param explicit whether each element names its representation
 * @param byteOrder the order of bytes in numbers
 * @param deflated whether the bytes of the data set are deflated (PS3.5 A.5)
 * @param encapsulated whether pixel data is a sequence of fragments (PS3.5 A.4)
 */
public record TransferSyntax(Uid uid, boolean explicit, ByteOrder byteOrder, boolean deflated, boolean encapsulated) {

    /** The default transfer syntax of the network (PS3.5 10.1, A.1). */
    public static final TransferSyntax IMPLICIT_VR_LITTLE_ENDIAN = plain(Uids.IMPLICIT_VR_LITTLE_ENDIAN, false);
    /** Explicit VR Little Endian with native pixel data (PS3.5 A.2). */
    public static final TransferSyntax EXPLICIT_VR_LITTLE_ENDIAN = plain(Uids.EXPLICIT_VR_LITTLE_ENDIAN, true);
    /** Retired (PS3.5 2016b A.3); read, never written. */
    public static final TransferSyntax EXPLICIT_VR_BIG_ENDIAN =
            new TransferSyntax(Uids.EXPLICIT_VR_BIG_ENDIAN, true, ByteOrder.BIG_ENDIAN, false, false);
    /** Deflated Explicit VR Little Endian (PS3.5 A.5); read, never written. */
    public static final TransferSyntax DEFLATED_EXPLICIT_VR_LITTLE_ENDIAN =
            new TransferSyntax(Uids.DEFLATED_EXPLICIT_VR_LITTLE_ENDIAN, true, ByteOrder.LITTLE_ENDIAN, true, false);
    /** JPEG Baseline, Process 1: how a camera's photograph travels (PS3.5 A.4.1). */
    public static final TransferSyntax JPEG_BASELINE = encapsulated(Uids.JPEG_BASELINE8_BIT);

    private static TransferSyntax plain(Uid uid, boolean explicit) {
        return new TransferSyntax(uid, explicit, ByteOrder.LITTLE_ENDIAN, false, false);
    }

    private static TransferSyntax encapsulated(Uid uid) {
        return new TransferSyntax(uid, true, ByteOrder.LITTLE_ENDIAN, false, true);
    }

    /** The transfer syntax of that identifier, if the standard has it; every one not named here is encapsulated (PS3.5 A.4). */
    public static Optional<TransferSyntax> of(Uid uid) {
        for (TransferSyntax native_ : new TransferSyntax[] {
            IMPLICIT_VR_LITTLE_ENDIAN,
            EXPLICIT_VR_LITTLE_ENDIAN,
            EXPLICIT_VR_BIG_ENDIAN,
            DEFLATED_EXPLICIT_VR_LITTLE_ENDIAN
        }) {
            if (native_.uid.equals(uid)) {
                return Optional.of(native_);
            }
        }
        return Dictionary.standard()
                .find(uid)
                .filter(entry -> entry.type().equals("Transfer Syntax"))
                .map(entry -> encapsulated(uid));
    }

    /** The name the standard gives it, else the identifier. */
    public String name() {
        return Dictionary.standard().find(uid).map(Dictionary.UidEntry::name).orElse(uid.value());
    }
}
