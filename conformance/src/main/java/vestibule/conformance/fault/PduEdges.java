package vestibule.conformance.fault;

import java.util.ArrayList;
import java.util.List;

/** Follows a stream of PDUs (PS3.8 9.3.1: type, reserved byte, four bytes of length) and keeps where each one ends. */
final class PduEdges {

    private static final int HEADER = 6;

    private final List<Long> ends = new ArrayList<>();
    private long position;
    private long next;
    private long length;
    private int headerBytes;

    /** Where each PDU that came whole ends, in bytes from the start of the stream. */
    synchronized List<Long> ends() {
        return List.copyOf(ends);
    }

    /** How many PDUs came whole. */
    synchronized int whole() {
        return ends.size();
    }

    /** How many bytes passed. */
    synchronized long position() {
        return position;
    }

    /** How many bytes of the PDU that is under way passed. */
    synchronized long intoPdu() {
        return position - (ends.isEmpty() ? 0 : ends.get(ends.size() - 1));
    }

    /** Takes the next byte; says whether a PDU ended with it. */
    synchronized boolean passed(int value) {
        position++;
        if (headerBytes < HEADER) {
            if (headerBytes >= 2) {
                length = (length << 8) | (value & 0xFF);
            }
            headerBytes++;
            next = position + length;
        }
        if (headerBytes == HEADER && position >= next) {
            ends.add(position);
            headerBytes = 0;
            length = 0;
            return true;
        }
        return false;
    }
}
