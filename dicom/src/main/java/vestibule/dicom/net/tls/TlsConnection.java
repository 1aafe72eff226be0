package vestibule.dicom.net.tls;

import java.security.cert.Certificate;
import java.security.cert.X509Certificate;
import java.util.Optional;
import javax.net.ssl.SSLEngine;
import javax.net.ssl.SSLException;
import javax.net.ssl.SSLPeerUnverifiedException;
import javax.net.ssl.SSLSession;
import org.jspecify.annotations.Nullable;
import vestibule.dicom.net.tls.TlsException.Mistake;

/** The JDK's engine for one connection, and what it says in words. */
public final class TlsConnection {

    private static final String ALERT = "Received fatal alert: ";

    private final SSLEngine engine;
    private final PeerCheck check;
    private final OwnKeys keys;

    TlsConnection(SSLEngine engine, PeerCheck check, OwnKeys keys) {
        this.engine = engine;
        this.check = check;
        this.keys = keys;
    }

    /** What turns bytes into TLS records and back. */
    public SSLEngine engine() {
        return engine;
    }

    /** What the handshake agreed on. */
    public TlsFacts facts() {
        SSLSession session = engine.getSession();
        return new TlsFacts(session.getProtocol(), session.getCipherSuite(), peerCertificate(session));
    }

    private static Optional<X509Certificate> peerCertificate(SSLSession session) {
        try {
            Certificate first = session.getPeerCertificates()[0];
            return first instanceof X509Certificate certificate ? Optional.of(certificate) : Optional.empty();
        } catch (SSLPeerUnverifiedException noCertificateShown) {
            return Optional.empty();
        }
    }

    /** Whether the peer asked for a certificate of ours in vain, which explains much of what it does next. */
    public boolean owesCertificate() {
        return keys.wasAsked() && keys.isEmpty();
    }

    /** The words for a peer that ends the connection where it should go on. */
    public TlsException closed(@Nullable Throwable cause) {
        if (owesCertificate()) {
            return certificateWanted(cause);
        }
        String may = engine.getUseClientMode()
                ? "it may not speak TLS on that port (then call it as dicom://), or not take our certificate"
                : "it may not trust our certificate, or not speak TLS";
        return new TlsException(Mistake.CLOSED, "it broke off the TLS handshake without a word; " + may, cause);
    }

    private static TlsException certificateWanted(@Nullable Throwable cause) {
        return new TlsException(
                Mistake.OUR_CERTIFICATE_WANTED,
                "it wants a certificate of ours, and we have none; name one in tls.certificate and its key in tls.key, and have its authority made known to the peer",
                cause);
    }

    /** The words for what the engine threw. */
    public TlsException explain(SSLException e) {
        if (e instanceof TlsException already) {
            return already;
        }
        if (check.problem().isPresent()) {
            TlsException problem = check.problem().get();
            return new TlsException(problem.mistake(), String.valueOf(problem.getMessage()), e);
        }
        String message = String.valueOf(e.getMessage());
        int alert = message.indexOf(ALERT);
        return alert < 0
                ? ours(message, e)
                : alert(message.substring(alert + ALERT.length()).strip(), e);
    }

    private TlsException ours(String message, SSLException e) {
        if (message.contains("mpty client certificate chain")) {
            return new TlsException(
                    Mistake.NO_CERTIFICATE,
                    "it showed no certificate, and only callers with one are served; have a certificate of its own set there",
                    e);
        }
        if (message.contains("protocol version")
                || message.contains("protocol is disabled")
                || message.contains("no cipher suites in common")
                || message.contains("ciphersuite")
                || message.contains("o appropriate protocol")
                || message.contains("not accepted by client preferences")
                || message.contains("lient requested protocol")) {
            return versionOrCipher(e);
        }
        return new TlsException(Mistake.OTHER, "TLS failed: " + message, e);
    }

    private static TlsException versionOrCipher(SSLException e) {
        return new TlsException(
                Mistake.VERSION_OR_CIPHER,
                ("it shares no protocol version or cipher suite with us (%s); allow there TLS 1.2 or 1.3 with ECDHE and AES-GCM"
                                + " (PS3.15 B.12), and a certificate with a key of RSA or an elliptic curve")
                        .formatted(e.getMessage()),
                e);
    }

    /** The alerts of RFC 8446 6.2. */
    private TlsException alert(String name, SSLException e) {
        return switch (name) {
            case "certificate_required" -> certificateWanted(e);
            case "protocol_version", "insufficient_security", "inappropriate_fallback" -> versionOrCipher(e);
            case "handshake_failure" -> owesCertificate() ? certificateWanted(e) : versionOrCipher(e);
            case "bad_certificate",
                    "unsupported_certificate",
                    "certificate_revoked",
                    "certificate_expired",
                    "certificate_unknown",
                    "unknown_ca",
                    "access_denied" -> owesCertificate() ? certificateWanted(e) : ourCertificateRefused(name, e);
            case "unrecognized_name" ->
                new TlsException(
                        Mistake.REFUSED_BY_PEER,
                        "it does not go by the name it was called by; use the host name its certificate has",
                        e);
            default -> new TlsException(Mistake.OTHER, "it ended TLS with the alert " + name, e);
        };
    }

    private TlsException ourCertificateRefused(String alert, SSLException e) {
        String why = switch (alert) {
            case "certificate_expired" -> "it takes it for expired; renew it, and check the clocks of both computers";
            case "certificate_revoked" -> "it takes it for revoked; have a new one made";
            case "unknown_ca" -> "it does not know the authority behind it; have that certificate entered at the peer";
            default -> "have it, or the authority behind it, entered at the peer, and look into the peer's log";
        };
        return new TlsException(
                Mistake.OUR_CERTIFICATE_REFUSED, "it does not take our certificate (%s): %s".formatted(alert, why), e);
    }
}
