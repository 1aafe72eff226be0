package vestibule.dicom.net;

import java.io.BufferedInputStream;
import java.io.DataInputStream;
import java.io.EOFException;
import java.io.IOException;
import java.net.Socket;
import java.net.SocketException;
import java.nio.ByteBuffer;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.io.DataSetCodec;
import vestibule.dicom.io.TransferSyntax;
import vestibule.dicom.net.pdu.Pdu;
import vestibule.dicom.net.pdu.PduCodec;
import vestibule.dicom.net.pdu.UserInformation;

/** The far end of a connection in a test: says and hears PDUs, or bytes that are none. */
public final class Wire implements AutoCloseable {

    private static final int PATIENCE_MILLIS = 20_000;

    private final Socket socket;
    private final DataInputStream in;

    Wire(Socket socket) throws IOException {
        this.socket = socket;
        socket.setSoTimeout(PATIENCE_MILLIS);
        this.in = new DataInputStream(new BufferedInputStream(socket.getInputStream()));
    }

    /** The next PDU. */
    public Pdu read() throws IOException {
        int type = in.readUnsignedByte();
        in.readByte();
        byte[] body = new byte[in.readInt()];
        in.readFully(body);
        return PduCodec.read(type, ByteBuffer.wrap(body));
    }

    /** Hears the association request and accepts each context with its first transfer syntax. */
    public Pdu.AssociateRq accept() throws IOException {
        return accept(16_384);
    }

    public Pdu.AssociateRq accept(long maximumLength) throws IOException {
        Pdu.AssociateRq request = (Pdu.AssociateRq) read();
        write(acceptance(request, maximumLength));
        return request;
    }

    static Pdu.AssociateAc acceptance(Pdu.AssociateRq request, long maximumLength) {
        return new Pdu.AssociateAc(
                1,
                request.calledAe(),
                request.callingAe(),
                request.reserved(),
                request.applicationContext(),
                request.contexts().stream()
                        .map(context -> new Pdu.ResultItem(
                                context.id(), 0, context.transferSyntaxes().get(0)))
                        .toList(),
                UserInformation.of(maximumLength, "1.2.3", "SCRIPTED"));
    }

    /** Reads P-DATA until the last fragment of a command set, and returns it. */
    public DataSet readCommand() throws IOException {
        java.io.ByteArrayOutputStream bytes = new java.io.ByteArrayOutputStream();
        while (true) {
            Pdu.PData data = (Pdu.PData) read();
            for (Pdu.Pdv value : data.values()) {
                byte[] fragment = new byte[value.fragment().remaining()];
                value.fragment().get(fragment);
                if (value.command()) {
                    bytes.writeBytes(fragment);
                }
                if (value.command() && value.last()) {
                    return DataSetCodec.decode(bytes.toByteArray(), TransferSyntax.IMPLICIT_VR_LITTLE_ENDIAN);
                }
            }
        }
    }

    /** Hears a command set that no data set follows, and answers it. */
    public void answer(int contextId, int status) throws IOException {
        Command request = new Command(readCommand());
        write(data(contextId, true, true, encoded(request.response(status, false))));
    }

    /** Says a message; an empty data set stands for none. */
    public void message(int contextId, Command command, DataSet dataSet) throws IOException {
        write(data(contextId, true, true, encoded(command)));
        if (!dataSet.isEmpty()) {
            byte[] bytes = DataSetCodec.encode(
                    dataSet, TransferSyntax.IMPLICIT_VR_LITTLE_ENDIAN, DataSetCodec.Strictness.OBJECT);
            write(data(contextId, false, true, bytes));
        }
    }

    static byte[] encoded(Command command) throws IOException {
        return DataSetCodec.encode(
                command.elements(), TransferSyntax.IMPLICIT_VR_LITTLE_ENDIAN, DataSetCodec.Strictness.OBJECT);
    }

    static Pdu.PData data(int contextId, boolean command, boolean last, byte[] fragment) {
        return new Pdu.PData(List.of(new Pdu.Pdv(contextId, command, last, ByteBuffer.wrap(fragment))));
    }

    public void write(Pdu pdu) throws IOException {
        bytes(PduCodec.write(pdu).array());
    }

    /** Only the first bytes of a PDU. */
    void writePart(Pdu pdu, int count) throws IOException {
        byte[] all = PduCodec.write(pdu).array();
        bytes(java.util.Arrays.copyOf(all, count));
    }

    void bytes(byte[] bytes) throws IOException {
        socket.getOutputStream().write(bytes);
        socket.getOutputStream().flush();
    }

    /** Bytes in hexadecimal, blanks between. */
    void hex(String bytes) throws IOException {
        bytes(HexFormat.of().parseHex(bytes.replaceAll("\\s", "")));
    }

    /** Waits until the other side aborts or closes; whatever comes before is read over. The abort, if there was one. */
    Optional<Pdu.Abort> untilClosed() throws IOException {
        try {
            while (true) {
                if (read() instanceof Pdu.Abort some) {
                    return Optional.of(some);
                }
            }
        } catch (EOFException | SocketException e) {
            return Optional.empty();
        }
    }

    @Override
    public void close() throws IOException {
        socket.close();
    }
}
