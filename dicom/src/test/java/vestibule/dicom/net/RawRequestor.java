package vestibule.dicom.net;

import java.io.IOException;
import java.net.InetAddress;
import java.net.Socket;
import java.util.HexFormat;
import java.util.List;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Uid;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.io.DataSetCodec;
import vestibule.dicom.io.TransferSyntax;
import vestibule.dicom.net.pdu.Pdu;
import vestibule.dicom.net.pdu.UserInformation;

/** Asks a provider of ours with command sets that a test assembles byte by byte, on one context in Implicit VR Little Endian. */
public final class RawRequestor implements AutoCloseable {

    private static final int CONTEXT = 1;

    private final Wire wire;

    private RawRequestor(Wire wire) {
        this.wire = wire;
    }

    public static RawRequestor open(ApplicationEntity peer, Uid sopClass) throws IOException {
        Wire wire = new Wire(new Socket(InetAddress.getLoopbackAddress(), peer.port()));
        wire.write(new Pdu.AssociateRq(
                1,
                peer.title().value(),
                "VESTIBULE",
                "",
                Uids.DICOM_APPLICATION_CONTEXT.value(),
                List.of(new Pdu.ProposedItem(
                        CONTEXT, sopClass.value(), List.of(Uids.IMPLICIT_VR_LITTLE_ENDIAN.value()))),
                UserInformation.of(16_384, "1.2.3", "RAW")));
        if (!(wire.read() instanceof Pdu.AssociateAc)) {
            wire.close();
            throw new IOException("the association was not accepted");
        }
        return new RawRequestor(wire);
    }

    /**
     * Sends a message and hears the command set of the answer.
     *
     * @param elements the elements of group 0000 but for the group length, in hexadecimal
     * @param dataSet what follows; an empty one stands for none
     */
    public Command exchange(String elements, DataSet dataSet) throws IOException {
        wire.write(Wire.data(CONTEXT, true, true, HexFormat.of().parseHex(elements)));
        if (!dataSet.isEmpty()) {
            byte[] bytes = DataSetCodec.encode(
                    dataSet, TransferSyntax.IMPLICIT_VR_LITTLE_ENDIAN, DataSetCodec.Strictness.QUERY);
            wire.write(Wire.data(CONTEXT, false, true, bytes));
        }
        return Command.received(wire.readCommand());
    }

    @Override
    public void close() throws IOException {
        wire.close();
    }
}
