package vestibule.dicom.net;

import java.io.IOException;
import java.time.Duration;
import org.jspecify.annotations.Nullable;
import vestibule.dicom.net.tls.TlsException;

/** Why there is no association, or no longer one; the message says what to do where that is known. */
public abstract sealed class AssociationException extends IOException {

    private static final long serialVersionUID = 1L;

    private AssociationException(String message, @Nullable Throwable cause) {
        super(message, cause);
    }

    /** No transport connection came about. */
    public static final class NotReachable extends AssociationException {
        private static final long serialVersionUID = 1L;

        /** What stood in the way. */
        public enum Obstacle {
            /** The host's name has no address. */
            NAME_NOT_FOUND,
            /** The name server did not answer in time. */
            NAME_NOT_ANSWERED,
            /** The host answers, but nothing listens on the port. */
            REFUSED,
            /** No way leads to the host. */
            NO_ROUTE,
            /** Nothing answered in time. */
            TIMED_OUT,
            /** Something the system describes in its own words. */
            OTHER
        }

        private final Obstacle obstacle;

        NotReachable(Obstacle obstacle, String message, @Nullable Throwable cause) {
            super(message, cause);
            this.obstacle = obstacle;
        }

        /** What stood in the way. */
        public Obstacle obstacle() {
            return obstacle;
        }
    }

    /** The transport connection could not be secured by TLS, or is no longer secure. */
    public static final class NotSecured extends AssociationException {
        private static final long serialVersionUID = 1L;

        private final TlsException.Mistake mistake;

        NotSecured(String peer, TlsException cause) {
            super("%s: %s".formatted(peer, cause.getMessage()), cause);
            this.mistake = cause.mistake();
        }

        /** What stood in the way. */
        public TlsException.Mistake mistake() {
            return mistake;
        }
    }

    /** The association request was rejected. */
    public static final class Rejected extends AssociationException {
        private static final long serialVersionUID = 1L;

        private final transient Rejection rejection;

        Rejected(String peer, Rejection rejection) {
            super("%s rejected the association %s".formatted(peer, rejection.words()), null);
            this.rejection = rejection;
        }

        /** Result, source and reason. */
        public Rejection rejection() {
            return rejection;
        }
    }

    /** We rejected the association request of a caller. */
    public static final class TurnedAway extends AssociationException {
        private static final long serialVersionUID = 1L;

        private final transient Rejection rejection;

        TurnedAway(String peer, String calling, String called, Rejection rejection) {
            super(
                    "%s called as “%s” for “%s” and was turned away: %s"
                            .formatted(peer, calling, called, rejection.reason().words()),
                    null);
            this.rejection = rejection;
        }

        /** Result, source and reason. */
        public Rejection rejection() {
            return rejection;
        }
    }

    /** The peer aborted the association. */
    public static final class Aborted extends AssociationException {
        private static final long serialVersionUID = 1L;

        private final AbortReason reason;

        Aborted(String peer, AbortReason reason) {
            super("%s aborted the association %s".formatted(peer, reason.words()), null);
            this.reason = reason;
        }

        /** Who aborted and why. */
        public AbortReason reason() {
            return reason;
        }
    }

    /** Something was waited for as long as was allowed; the association has been given up. */
    public static final class DeadlinePassed extends AssociationException {
        private static final long serialVersionUID = 1L;

        DeadlinePassed(String peer, String awaited, Duration allowed, @Nullable Throwable cause) {
            super(
                    "%s: %s did not come within %s; check the peer and the network between, or allow more time"
                            .formatted(peer, awaited, words(allowed)),
                    cause);
        }

        private static String words(Duration allowed) {
            return allowed.toMillis() % 1000 == 0 ? allowed.toSeconds() + " s" : allowed.toMillis() + " ms";
        }
    }

    /** The peer sent something the protocol does not allow; the association has been aborted. */
    public static final class ProtocolViolation extends AssociationException {
        private static final long serialVersionUID = 1L;

        ProtocolViolation(String peer, String found, @Nullable Throwable cause) {
            super("%s: %s".formatted(peer, found), cause);
        }
    }

    /** The transport connection is gone, or the peer released the association while we still needed it. */
    public static final class ConnectionLost extends AssociationException {
        private static final long serialVersionUID = 1L;

        ConnectionLost(String peer, String what, @Nullable Throwable cause) {
            super("%s: %s".formatted(peer, what), cause);
        }
    }

    /** A file that was to be sent went away or became shorter meanwhile; the peer got no whole message, and the association was given up. */
    public static final class SourceLost extends AssociationException {
        private static final long serialVersionUID = 1L;

        SourceLost(String peer, IOException cause) {
            super(
                    "%s: we gave the association up, because what we sent could not be read: %s"
                            .formatted(peer, cause.getMessage()),
                    cause);
        }
    }
}
