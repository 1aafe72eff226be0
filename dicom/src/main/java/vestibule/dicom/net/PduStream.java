package vestibule.dicom.net;

import java.io.EOFException;
import java.io.IOException;
import java.net.SocketTimeoutException;
import java.nio.ByteBuffer;
import java.time.Duration;
import org.jspecify.annotations.Nullable;
import vestibule.dicom.io.DicomFormatException;
import vestibule.dicom.net.pdu.Pdu;
import vestibule.dicom.net.pdu.PduCodec;

/** Cuts the bytes of a transport into PDUs. The buffer grows with bytes that have come, never with a length that is only declared. */
final class PduStream {

    /** A PDU of a type that does not exist. */
    static final class UnrecognizedPduException extends IOException {
        private static final long serialVersionUID = 1L;

        UnrecognizedPduException(int type, ForeignProtocol foreign) {
            super("it sent bytes that start no PDU (type %02X); %s".formatted(type, foreign.insteadOfDicom()));
        }
    }

    private static final int SMALLEST_BUFFER = 1 << 16;

    private final Transport transport;
    private final Deadlines deadlines;
    private final int maximumData;
    private ByteBuffer in;
    private boolean begun;
    private boolean torn;

    /**
     * @param maximumData the longest variable field of P-DATA-TF we take
     */
    PduStream(Transport transport, Deadlines deadlines, int maximumData) {
        this.transport = transport;
        this.deadlines = deadlines;
        this.maximumData = maximumData;
        this.in = ByteBuffer.allocateDirect(Math.max(SMALLEST_BUFFER, 2 * (maximumData + Pdu.HEADER_LENGTH)))
                .limit(0);
    }

    Transport transport() {
        return transport;
    }

    /** Whether the PDU whose reading failed had begun to arrive. */
    boolean hasBegun() {
        return begun;
    }

    /** Whether a PDU was written in part only, so that nothing can be said any more. */
    boolean isTorn() {
        return torn;
    }

    /**
     * Reads the next PDU; fragments of data are views that are good until the next call.
     *
     * @param first when its first byte must have come
     * @param whole when all of it must have come, beside the deadlines for a stall and for a message; null where a new message is awaited
     * @throws DicomFormatException if it is not made as the standard says
     */
    Pdu read(Deadline first, @Nullable Deadline whole) throws IOException {
        begun = in.hasRemaining();
        if (!begun) {
            fill(1, first, whole == null);
            begun = true;
        }
        Deadline message = Deadline.after(deadlines.transfer());
        Deadline end = whole == null ? message : whole.earlier(message);
        fill(Pdu.HEADER_LENGTH, end, false);
        int start = in.position();
        int type = in.get(start) & 0xFF;
        if (!PduCodec.isKnown(type)) {
            throw new UnrecognizedPduException(type, foreign(start));
        }
        long length = in.getInt(start + 2) & 0xFFFF_FFFFL;
        long longest = PduCodec.longest(type, maximumData);
        if (length > longest) {
            throw new DicomFormatException(
                    2, "a PDU of type %02X with %d bytes".formatted(type, length), "at most " + longest);
        }
        fill(Pdu.HEADER_LENGTH + (int) length, end, false);
        ByteBuffer body = in.slice(in.position() + Pdu.HEADER_LENGTH, (int) length);
        in.position(in.position() + Pdu.HEADER_LENGTH + (int) length);
        return PduCodec.read(type, body);
    }

    private ForeignProtocol foreign(int start) {
        byte[] head = new byte[Pdu.HEADER_LENGTH];
        in.get(start, head);
        return ForeignProtocol.of(head, head.length).orElse(ForeignProtocol.OTHER);
    }

    /** Whether something of a next PDU is here, without waiting. */
    boolean hasMore() throws IOException {
        if (in.hasRemaining()) {
            return true;
        }
        makeRoom(1);
        int end = in.limit();
        in.limit(in.capacity());
        int position = in.position();
        in.position(end);
        int count = transport.readNow(in);
        in.limit(in.position()).position(position);
        return count != 0;
    }

    /** Waits until something of a next PDU is here; false if the deadline passes first, which changes nothing. */
    boolean awaitMore(Deadline deadline) throws IOException {
        begun = false;
        try {
            fill(1, deadline, true);
            return true;
        } catch (SocketTimeoutException e) {
            return false;
        }
    }

    private void fill(int wanted, Deadline deadline, boolean idle) throws IOException {
        while (in.remaining() < wanted) {
            makeRoom(wanted);
            int start = in.position();
            in.position(in.limit()).limit(in.capacity());
            try {
                Deadline stall = idle ? deadline : deadline.earlier(Deadline.after(deadlines.stall()));
                if (transport.read(in, stall, idle) < 0) {
                    throw new EOFException(
                            begun ? "it closed the connection in the middle of a PDU" : "it closed the connection");
                }
            } finally {
                in.limit(in.position()).position(start);
            }
        }
    }

    /** Makes room for at least one more byte on the way to {@code wanted}. */
    private void makeRoom(int wanted) {
        if (!in.hasRemaining()) {
            in.position(0).limit(0);
        }
        boolean full = in.limit() == in.capacity();
        if (!full && in.position() + wanted <= in.capacity()) {
            return;
        }
        if (in.position() > 0) {
            in.compact().flip();
        } else if (full) {
            ByteBuffer larger = ByteBuffer.allocateDirect(2 * in.capacity());
            in = larger.put(in).flip();
        }
    }

    /** Writes a PDU other than data. */
    void write(Pdu pdu, Deadline deadline) throws IOException {
        write(PduCodec.write(pdu), deadline);
    }

    /** Writes bytes that make up whole PDUs. */
    void write(ByteBuffer bytes, Deadline deadline) throws IOException {
        torn = true;
        transport.write(bytes, deadline, deadlines.stall());
        torn = false;
    }

    /** Marks that from now on a PDU is half written, or no longer. */
    void torn(boolean half) {
        torn = half;
    }

    Duration stall() {
        return deadlines.stall();
    }
}
