package vestibule.dicom.net.tls;

import javax.net.ssl.SSLException;
import org.jspecify.annotations.Nullable;

/** A connection that could not be secured, or no longer; the message says why and what to change, without naming the peer. */
public final class TlsException extends SSLException {

    private static final long serialVersionUID = 1L;

    /** What stood in the way. */
    public enum Mistake {
        EXPIRED,
        NOT_YET_VALID,
        /** The certificate is for other names than the one it was called by. */
        OTHER_NAME,
        /** The certificate was made by itself, and is not trusted. */
        SELF_SIGNED,
        /** The authority behind the certificate is not trusted. */
        UNKNOWN_ISSUER,
        /** The certificate that links it to an authority was not sent, or its authority is not trusted. */
        ISSUER_NOT_SENT,
        /** Key or signature are shorter or older than the profile allows (PS3.15 B.13). */
        WEAK,
        /** The certificate is broken, or not meant for this use. */
        UNSUITABLE,
        /** The peer wants a certificate of ours, and there is none. */
        OUR_CERTIFICATE_WANTED,
        /** The peer does not take our certificate. */
        OUR_CERTIFICATE_REFUSED,
        /** The caller showed no certificate. */
        NO_CERTIFICATE,
        /** The peer does not take the certificate that it was shown, or the name it was called by. */
        REFUSED_BY_PEER,
        /** There is no protocol version or cipher suite that both sides allow. */
        VERSION_OR_CIPHER,
        /** The other side does not speak TLS. */
        NOT_TLS,
        /** The handshake was broken off without a word. */
        CLOSED,
        /** The handshake did not end in time. */
        NO_ANSWER,
        /** Something else, in the words of the JDK. */
        OTHER
    }

    private final Mistake mistake;

    /**
     * @param mistake what stood in the way
     * @param sentence why, and what to change; it follows the peer's name and a colon
     * @param cause what the JDK said
     */
    public TlsException(Mistake mistake, String sentence, @Nullable Throwable cause) {
        super(sentence, cause);
        this.mistake = mistake;
    }

    /** What stood in the way. */
    public Mistake mistake() {
        return mistake;
    }
}
