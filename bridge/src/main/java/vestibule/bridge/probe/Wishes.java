package vestibule.bridge.probe;

import java.net.InetSocketAddress;
import java.time.Duration;
import java.util.Optional;
import java.util.Set;
import vestibule.dicom.net.AeTitle;
import vestibule.dicom.net.tls.Tls;

/**
 * What a probe is to try, and how long.
 *
 * @param testObject whether an object that is marked as a test may be stored
 * @param listener where archives deliver commitment reports on an association of their own; empty not to listen
 * @param whole how long all of it may take
 * @param each how long one wait may last
 * @param report how long a commitment report is waited for
 */
public record Wishes(boolean testObject, Optional<Listener> listener, Duration whole, Duration each, Duration report) {

    /**
     * The way back.
     *
     * @param address where to listen
     * @param archives the titles that archives call from
     * @param tls with what to secure it; empty for plain TCP
     */
    public record Listener(InetSocketAddress address, Set<AeTitle> archives, Optional<Tls> tls) {
        public Listener {
            archives = Set.copyOf(archives);
        }
    }

    /** No test object and no listener, at most half a minute. */
    public static final Wishes USUAL =
            new Wishes(false, Optional.empty(), Duration.ofSeconds(30), Duration.ofSeconds(8), Duration.ofSeconds(8));

    /** These, with a test object stored or not. */
    public Wishes withTestObject(boolean stored) {
        return new Wishes(stored, listener, whole, each, report);
    }

    /** These, listening there. */
    public Wishes withListener(Listener other) {
        return new Wishes(testObject, Optional.of(other), whole, each, report);
    }

    /** These, with other times. */
    public Wishes within(Duration wholly, Duration eachWait, Duration forReport) {
        return new Wishes(testObject, listener, wholly, eachWait, forReport);
    }
}
