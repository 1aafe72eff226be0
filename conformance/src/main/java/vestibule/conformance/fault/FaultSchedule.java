package vestibule.conformance.fault;

import java.io.ByteArrayOutputStream;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import vestibule.conformance.fault.LinkFault.Direction;

/** What the faults of one direction make of a stream of bytes; knows no socket. */
final class FaultSchedule {

    private static final long SECOND = 1_000_000_000L;

    /** What follows a piece. */
    enum Then {
        GO_ON,
        CUT,
        RESET,
        STALL
    }

    /** Bytes that go together, the wait before them and what comes after. */
    static final class Piece {
        private final byte[] bytes;
        private final long holdNanos;
        private final Then then;

        Piece(byte[] bytes, long holdNanos, Then then) {
            this.bytes = bytes;
            this.holdNanos = holdNanos;
            this.then = then;
        }

        byte[] bytes() {
            return bytes;
        }

        long holdNanos() {
            return holdNanos;
        }

        Then then() {
            return then;
        }
    }

    private final List<LinkFault> faults;
    private final ByteArrayOutputStream pdu = new ByteArrayOutputStream();
    private final BitSet eaten = new BitSet();
    private final BitSet doubled = new BitSet();

    FaultSchedule(Direction direction, List<LinkFault> faults) {
        this.faults =
                faults.stream().filter(fault -> fault.direction() == direction).toList();
        for (LinkFault fault : this.faults) {
            if (fault instanceof LinkFault.EatAnswer eat) {
                eaten.set(eat.pdu());
            }
            if (fault instanceof LinkFault.Duplicate twice) {
                doubled.set(twice.pdu());
            }
        }
    }

    /** What is to happen at this place of the stream. */
    Then due(PduEdges edges) {
        for (LinkFault fault : faults) {
            if (fault instanceof LinkFault.Cut cut && cut.at() == edges.position()) {
                return Then.CUT;
            }
            if (fault instanceof LinkFault.Reset reset && reset.at() == edges.position()) {
                return Then.RESET;
            }
            if (fault instanceof LinkFault.Stall stall && stall.at() == edges.position()) {
                return Then.STALL;
            }
            if (fault instanceof LinkFault.StallInPdu stall
                    && stall.pdu() == edges.whole()
                    && stall.bytes() == edges.intoPdu()) {
                return Then.STALL;
            }
            if (fault instanceof LinkFault.EatAnswer eat && eat.pdu() == edges.whole() - 1) {
                return Then.CUT;
            }
        }
        return Then.GO_ON;
    }

    /** Cuts a portion into what is passed on, with the pauses between; after a piece that ends the stream nothing follows. */
    List<Piece> pieces(byte[] portion, int count, PduEdges edges) {
        List<Piece> pieces = new ArrayList<>();
        ByteArrayOutputStream piece = new ByteArrayOutputStream();
        for (int i = 0; i < count; i++) {
            take(portion[i], edges, piece);
            Then then = due(edges);
            if (then != Then.GO_ON || piece.size() >= sliceSize()) {
                pieces.add(piece(piece, then));
            }
            if (then != Then.GO_ON) {
                return pieces;
            }
        }
        if (piece.size() > 0) {
            pieces.add(piece(piece, Then.GO_ON));
        }
        return pieces;
    }

    private void take(byte value, PduEdges edges, ByteArrayOutputStream piece) {
        if (!eaten.get(edges.whole())) {
            piece.write(value);
        }
        if (!doubled.isEmpty()) {
            pdu.write(value);
        }
        if (edges.passed(value)) {
            if (doubled.get(edges.whole() - 1)) {
                piece.writeBytes(pdu.toByteArray());
            }
            pdu.reset();
        }
    }

    private int sliceSize() {
        int size = Integer.MAX_VALUE;
        for (LinkFault fault : faults) {
            if (fault instanceof LinkFault.Slice slice) {
                size = Math.min(size, slice.size());
            }
            if (fault instanceof LinkFault.Slow slow) {
                // Ten portions a second, so that a slow line is slow and not merely late
                size = Math.min(size, Math.max(1, slow.bytesPerSecond() / 10));
            }
        }
        return size;
    }

    private Piece piece(ByteArrayOutputStream bytes, Then then) {
        long hold = 0;
        for (LinkFault fault : faults) {
            if (fault instanceof LinkFault.Delay delay) {
                hold += delay.by().toNanos();
            }
            if (fault instanceof LinkFault.Slow slow) {
                hold += bytes.size() * SECOND / slow.bytesPerSecond();
            }
        }
        Piece piece = new Piece(bytes.toByteArray(), hold, then);
        bytes.reset();
        return piece;
    }
}
