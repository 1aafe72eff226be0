package vestibule.conformance.fault;

import java.time.Duration;

/** What goes wrong on one connection through a {@link FaultProxy}. */
public sealed interface LinkFault {

    /** Which way bytes travel. */
    enum Direction {
        /** From the one who connected to the one who listens. */
        THERE,
        /** Back from the one who listens. */
        BACK
    }

    /** The bytes it is about. */
    Direction direction();

    /**
     * Both connections are closed in an orderly way once so many bytes went through.
     *
     * @param at how many bytes are let through in this direction
     */
    record Cut(Direction direction, long at) implements LinkFault {}

    /**
     * Both connections are reset, as by a firewall that lost its memory.
     *
     * @param at how many bytes are let through in this direction
     */
    record Reset(Direction direction, long at) implements LinkFault {}

    /**
     * Nothing more goes through, and nobody is told; the connections stay open until the proxy is closed or a side gives up.
     *
     * @param at how many bytes are let through in this direction
     */
    record Stall(Direction direction, long at) implements LinkFault {}

    /**
     * The same at a place that is told by PDUs (PS3.8 9.3.1) and not by bytes, which differ from one photograph to the next.
     *
     * @param pdu how many PDUs are let through whole in this direction
     * @param bytes how much of the next one goes through as well
     */
    record StallInPdu(Direction direction, int pdu, int bytes) implements LinkFault {}

    /**
     * Bytes go on in small pieces, each in a packet of its own.
     *
     * @param size of a piece, in bytes
     */
    record Slice(Direction direction, int size) implements LinkFault {
        /** A piece has at least one byte. */
        public Slice {
            if (size < 1) {
                throw new IllegalArgumentException("slice: found %d, expected at least 1 byte".formatted(size));
            }
        }
    }

    /**
     * Everything arrives late.
     *
     * @param by how long each portion is held back
     */
    record Delay(Direction direction, Duration by) implements LinkFault {}

    /**
     * The line is thin.
     *
     * @param bytesPerSecond how much goes through
     */
    record Slow(Direction direction, int bytesPerSecond) implements LinkFault {
        /** A line carries at least one byte a second. */
        public Slow {
            if (bytesPerSecond < 1) {
                throw new IllegalArgumentException(
                        "slow: found %d, expected at least 1 byte per second".formatted(bytesPerSecond));
            }
        }
    }

    /**
     * One PDU (PS3.8 9.3.1) of the listening side is swallowed whole and the connection closed: the work was done, and nobody learns of it.
     *
     * @param pdu which one, counted from 0; 0 is the answer to the association request
     */
    record EatAnswer(int pdu) implements LinkFault {
        @Override
        public Direction direction() {
            return Direction.BACK;
        }
    }

    /**
     * One PDU goes through twice.
     *
     * @param pdu which one, counted from 0
     */
    record Duplicate(Direction direction, int pdu) implements LinkFault {}
}
