package vestibule.dicom.net;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.time.Duration;
import vestibule.dicom.data.Bulk;
import vestibule.dicom.net.pdu.Pdu;

/**
 * Cuts messages into fragments the peer takes, and sends them as P-DATA-TF PDUs of one presentation data value each (PS3.8 9.3.5, E.2;
 * PS3.7 6.3.1). They are read from the file behind their headers into one buffer outside the heap, and many leave by one system call. Letting
 * the kernel move pages from file to socket costs less here and more at the receiver, which then meets bytes that no cache holds: DCMTK's
 * spends two thirds of its processor time when we copy (measured over loopback), and it is the receiver for whom a sender waits.
 */
final class MessageWriter {

    private static final int BUFFER = 1 << 18;
    private static final int HEADERS = Pdu.HEADER_LENGTH + Pdu.Pdv.HEADER_LENGTH;
    private static final int DATA_TYPE = 0x04;

    /** Where the peer sets no limit, we still want its answer to an abort to be near. */
    private static final int LONGEST_FIELD = 1 << 18;

    private final PduStream stream;
    private final int fragment;
    private final ByteBuffer out = ByteBuffer.allocateDirect(BUFFER);

    /**
     * @param peerMaximum the longest variable field the peer takes; 0 for no limit
     */
    MessageWriter(PduStream stream, long peerMaximum) {
        this.stream = stream;
        long field = peerMaximum == 0 ? LONGEST_FIELD : Math.min(peerMaximum, LONGEST_FIELD);
        this.fragment = (int) (field - Pdu.Pdv.HEADER_LENGTH) & ~1;
    }

    /** Whether a peer with that maximum takes any fragment at all. */
    static boolean canServe(long peerMaximum) {
        return peerMaximum == 0 || peerMaximum >= Pdu.Pdv.HEADER_LENGTH + 2;
    }

    /** Sends a command set without a data set. */
    void write(int contextId, byte[] command, Deadline deadline) throws IOException {
        out.clear();
        set(contextId, Bulk.of(command), true, deadline);
        flush(deadline);
    }

    /** Sends a command set and the data set that belongs to it. */
    void write(int contextId, byte[] command, Bulk dataSet, Deadline deadline) throws IOException {
        out.clear();
        set(contextId, Bulk.of(command), true, deadline);
        set(contextId, dataSet, false, deadline);
        flush(deadline);
    }

    private void set(int contextId, Bulk bytes, boolean command, Deadline deadline) throws IOException {
        try (Bulk.Portions portions = bytes.portions()) {
            do {
                int size = (int) Math.min(fragment, portions.remaining());
                if (out.remaining() < HEADERS) {
                    flush(deadline);
                }
                boolean last = size == portions.remaining();
                header(new Pdu.Pdv(contextId, command, last, ByteBuffer.allocate(0)), size);
                stream.torn(true);
                body(portions, size, deadline);
            } while (portions.remaining() > 0);
        }
    }

    private void header(Pdu.Pdv value, int size) {
        out.put((byte) DATA_TYPE)
                .put((byte) 0)
                .putInt(Pdu.Pdv.HEADER_LENGTH + size)
                .putInt(size + 2)
                .put((byte) value.contextId())
                .put(value.control());
    }

    private void body(Bulk.Portions portions, int size, Deadline deadline) throws IOException {
        int left = size;
        while (left > 0) {
            if (!out.hasRemaining()) {
                flushHalf(deadline);
            }
            int now = Math.min(left, out.remaining());
            out.limit(out.position() + now);
            portions.read(out);
            out.limit(out.capacity());
            left -= now;
        }
    }

    private Duration stall() {
        return stream.stall();
    }

    private void flush(Deadline deadline) throws IOException {
        flushHalf(deadline);
        stream.torn(false);
    }

    private void flushHalf(Deadline deadline) throws IOException {
        out.flip();
        stream.transport().write(out, deadline, stall());
        out.clear();
    }
}
