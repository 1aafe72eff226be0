package vestibule.dicom.net;

import java.time.Duration;

/**
 * How long each kind of wait may last. PS3.8 9.1.5 leaves the values of its ARTIM timer to the implementation; here it is
 * {@code negotiation} while a request is awaited and {@code close} while the transport connection is to close.
 *
 * @param connect to find the peer's address and open a transport connection
 * @param negotiation for the association request or the answer to it, whole
 * @param response from the last byte of a request to the answer, and between two answers to one request
 * @param stall while a message travels, in either direction, without a byte moving
 * @param transfer for one message as a whole
 * @param idle for the next message while an association is open
 * @param close for the answer to a release, and for the peer to close the transport connection
 */
public record Deadlines(
        Duration connect,
        Duration negotiation,
        Duration response,
        Duration stall,
        Duration transfer,
        Duration idle,
        Duration close) {

    /** For a practice's own network. */
    public static final Deadlines DEFAULT = new Deadlines(
            Duration.ofSeconds(10),
            Duration.ofSeconds(30),
            Duration.ofSeconds(60),
            Duration.ofSeconds(30),
            Duration.ofMinutes(10),
            Duration.ofSeconds(60),
            Duration.ofSeconds(5));

    public Deadlines {
        for (Duration each : new Duration[] {connect, negotiation, response, stall, transfer, idle, close}) {
            if (each.isNegative() || each.isZero()) {
                throw new IllegalArgumentException("a deadline of " + each + " leaves no time at all");
            }
        }
    }

    /** The same duration for everything. */
    public static Deadlines all(Duration each) {
        return new Deadlines(each, each, each, each, each, each, each);
    }

    /** These with another duration for answers. */
    public Deadlines withResponse(Duration other) {
        return new Deadlines(connect, negotiation, other, stall, transfer, idle, close);
    }

    /** These with another duration for the next message. */
    public Deadlines withIdle(Duration other) {
        return new Deadlines(connect, negotiation, response, stall, transfer, other, close);
    }
}
