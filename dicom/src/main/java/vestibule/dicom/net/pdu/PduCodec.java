package vestibule.dicom.net.pdu;

import java.nio.ByteBuffer;
import java.util.ArrayList;
import java.util.List;
import vestibule.dicom.io.DicomFormatException;

/** The bytes of protocol data units (PS3.8 9.3.1): big endian, a header of six bytes, a variable field. */
public final class PduCodec {

    /** The longest A-ASSOCIATE-RQ or -AC we take: 128 contexts with 60 transfer syntaxes each fit twice. */
    public static final int LONGEST_ASSOCIATE = 1 << 20;

    private static final int SHORT_PDU = 4;

    private PduCodec() {}

    /** Whether a PDU of that type exists (PS3.8 9.3.1). */
    public static boolean isKnown(int type) {
        return type >= Pdu.AssociateRq.TYPE && type <= Pdu.Abort.TYPE;
    }

    /**
     * The longest variable field we take from a PDU of that type.
     *
     * @param type one that {@linkplain #isKnown exists}
     * @param maximumData our maximum length for P-DATA-TF
     */
    public static long longest(int type, int maximumData) {
        return switch (type) {
            case Pdu.AssociateRq.TYPE, Pdu.AssociateAc.TYPE -> LONGEST_ASSOCIATE;
            case Pdu.PData.TYPE -> maximumData;
            default -> SHORT_PDU;
        };
    }

    /**
     * Reads the variable field of a PDU. Bytes the standard reserves are not tested; items of unknown type are skipped (PS3.8 9.3.1).
     *
     * @param type one that {@linkplain #isKnown exists}
     * @param body the whole variable field and nothing else; consumed
     * @throws DicomFormatException if a length reaches beyond what is there or a value is not what the standard says
     */
    public static Pdu read(int type, ByteBuffer body) throws DicomFormatException {
        return switch (type) {
            case Pdu.AssociateRq.TYPE -> AssociateReader.request(body);
            case Pdu.AssociateAc.TYPE -> AssociateReader.accept(body);
            case Pdu.PData.TYPE -> new Pdu.PData(values(body));
            case Pdu.AssociateRj.TYPE -> {
                byte[] four = four(body);
                yield new Pdu.AssociateRj(four[1] & 0xFF, four[2] & 0xFF, four[3] & 0xFF);
            }
            case Pdu.ReleaseRq.TYPE -> {
                four(body);
                yield new Pdu.ReleaseRq();
            }
            case Pdu.ReleaseRp.TYPE -> {
                four(body);
                yield new Pdu.ReleaseRp();
            }
            case Pdu.Abort.TYPE -> {
                byte[] four = four(body);
                yield new Pdu.Abort(four[2] & 0xFF, four[3] & 0xFF);
            }
            default -> throw new DicomFormatException(0, "a PDU of type %02X".formatted(type), "types 01 to 07");
        };
    }

    private static byte[] four(ByteBuffer body) throws DicomFormatException {
        if (body.remaining() != SHORT_PDU) {
            throw new DicomFormatException(2, "a PDU length of " + body.remaining(), "4");
        }
        byte[] four = new byte[SHORT_PDU];
        body.get(four);
        return four;
    }

    private static List<Pdu.Pdv> values(ByteBuffer body) throws DicomFormatException {
        List<Pdu.Pdv> values = new ArrayList<>(1);
        while (body.hasRemaining()) {
            long at = body.position();
            if (body.remaining() < Pdu.Pdv.HEADER_LENGTH) {
                throw new DicomFormatException(at, body.remaining() + " bytes", "a presentation data value");
            }
            long length = body.getInt() & 0xFFFF_FFFFL;
            if (length < 2 || length > body.remaining()) {
                throw new DicomFormatException(
                        at,
                        "a presentation data value of %d bytes".formatted(length),
                        "2 to %d".formatted(body.remaining()));
            }
            int contextId = body.get() & 0xFF;
            int control = body.get();
            int size = (int) length - 2;
            ByteBuffer fragment = body.slice(body.position(), size);
            body.position(body.position() + size);
            values.add(new Pdu.Pdv(contextId, (control & 1) != 0, (control & 2) != 0, fragment));
        }
        if (values.isEmpty()) {
            throw new DicomFormatException(2, "a P-DATA-TF without content", "at least one presentation data value");
        }
        return values;
    }

    /** The bytes of a PDU, header included, ready to be sent. Fragments are copied; large ones travel by another way. */
    public static ByteBuffer write(Pdu pdu) {
        PduBytes bytes = new PduBytes();
        bytes.one(pdu.type()).one(0);
        bytes.counted(4, () -> variableField(bytes, pdu));
        return bytes.toBuffer();
    }

    private static void variableField(PduBytes bytes, Pdu pdu) {
        if (pdu instanceof Pdu.AssociateRq request) {
            AssociateWriter.write(bytes, request);
        } else if (pdu instanceof Pdu.AssociateAc accept) {
            AssociateWriter.write(bytes, accept);
        } else if (pdu instanceof Pdu.AssociateRj reject) {
            bytes.one(0).one(reject.result()).one(reject.source()).one(reject.reason());
        } else if (pdu instanceof Pdu.PData data) {
            data.values()
                    .forEach(value -> bytes.counted(
                            4,
                            () -> bytes.one(value.contextId())
                                    .one(value.control())
                                    .bytes(value.fragment())));
        } else if (pdu instanceof Pdu.Abort abort) {
            bytes.one(0).one(0).one(abort.source()).one(abort.reason());
        } else {
            bytes.one(0).one(0).one(0).one(0);
        }
    }
}
