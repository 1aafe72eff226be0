package vestibule.dicom.net.tls;

import java.net.Socket;
import java.security.cert.CertificateException;
import java.security.cert.CertificateExpiredException;
import java.security.cert.CertificateNotYetValidException;
import java.security.cert.X509Certificate;
import java.security.interfaces.ECKey;
import java.security.interfaces.RSAKey;
import java.util.Locale;
import java.util.Optional;
import javax.net.ssl.SSLEngine;
import javax.net.ssl.X509ExtendedTrustManager;
import vestibule.dicom.net.tls.TlsException.Mistake;

/** Has the JDK check a peer's certificates, and finds the words for what it finds. It never takes what the JDK does not take. */
final class PeerCheck extends X509ExtendedTrustManager {

    private final X509ExtendedTrustManager jdk;
    private final String trusted;
    private Optional<TlsException> problem = Optional.empty();

    /**
     * @param trusted what is trusted, in words
     */
    PeerCheck(X509ExtendedTrustManager jdk, String trusted) {
        this.jdk = jdk;
        this.trusted = trusted;
    }

    /** What was wrong with the peer's certificates, if anything was. */
    Optional<TlsException> problem() {
        return problem;
    }

    private interface Check {
        void check() throws CertificateException;
    }

    private void checked(X509Certificate[] chain, Check whole, Check withoutName, String host)
            throws CertificateException {
        Optional<TlsException> weak = weakness(chain);
        if (weak.isPresent()) {
            problem = weak;
            throw new CertificateException("a certificate is weaker than the profile allows");
        }
        try {
            whole.check();
        } catch (CertificateException e) {
            problem = Optional.of(diagnosis(chain, e, withoutName, host));
            throw e;
        }
    }

    /** PS3.15 B.13; what a trusted root says of itself is not looked at. */
    private static Optional<TlsException> weakness(X509Certificate[] chain) {
        for (X509Certificate certificate : chain) {
            int least = TlsProfile.LEAST_RSA_BITS;
            int bits = least;
            if (certificate.getPublicKey() instanceof RSAKey rsa) {
                bits = rsa.getModulus().bitLength();
            } else if (certificate.getPublicKey() instanceof ECKey curve) {
                least = TlsProfile.LEAST_EC_BITS;
                bits = curve.getParams().getOrder().bitLength();
            }
            if (bits < least) {
                return weak(certificate, "a key of %d bits, at least %d are needed".formatted(bits, least));
            }
            String signature = certificate.getSigAlgName().toUpperCase(Locale.ROOT);
            boolean old = signature.startsWith("SHA1") || signature.startsWith("MD");
            if (old && !isSelfIssued(certificate)) {
                return weak(certificate, "the signature %s, SHA-256 or stronger is needed".formatted(signature));
            }
        }
        return Optional.empty();
    }

    private static Optional<TlsException> weak(X509Certificate certificate, String what) {
        return Optional.of(new TlsException(
                Mistake.WEAK,
                "its certificate %s has %s (PS3.15 B.13); have it made anew"
                        .formatted(CertificateWords.subject(certificate), what),
                null));
    }

    private TlsException diagnosis(X509Certificate[] chain, CertificateException e, Check withoutName, String host) {
        for (X509Certificate certificate : chain) {
            Optional<TlsException> outdated = outdated(certificate, e);
            if (outdated.isPresent()) {
                return outdated.get();
            }
        }
        try {
            withoutName.check();
            return new TlsException(
                    Mistake.OTHER_NAME,
                    ("its certificate is for %s and not for %s; call it by a name the certificate has, or have one made for this name"
                                    + " (in a network you trust, tls.check-name = false leaves the name unchecked)")
                            .formatted(CertificateWords.hosts(chain[0]), host),
                    e);
        } catch (CertificateException notTheName) {
            return untrusted(chain, notTheName);
        }
    }

    private static Optional<TlsException> outdated(X509Certificate certificate, CertificateException e) {
        try {
            certificate.checkValidity();
            return Optional.empty();
        } catch (CertificateExpiredException expired) {
            return Optional.of(new TlsException(
                    Mistake.EXPIRED,
                    "its certificate %s ran out on %s; have it renewed, and check the clocks of both computers"
                            .formatted(
                                    CertificateWords.subject(certificate),
                                    CertificateWords.day(certificate.getNotAfter())),
                    e));
        } catch (CertificateNotYetValidException early) {
            return Optional.of(new TlsException(
                    Mistake.NOT_YET_VALID,
                    "its certificate %s is valid from %s on, which has not come yet here; check the clocks of both computers"
                            .formatted(
                                    CertificateWords.subject(certificate),
                                    CertificateWords.day(certificate.getNotBefore())),
                    e));
        }
    }

    private TlsException untrusted(X509Certificate[] chain, CertificateException e) {
        X509Certificate last = chain[chain.length - 1];
        boolean noPath = String.valueOf(e.getMessage()).contains("unable to find valid certification path")
                || String.valueOf(e.getMessage()).contains("Path does not chain with any of the trust anchors");
        if (!noPath) {
            return new TlsException(
                    Mistake.UNSUITABLE,
                    "its certificate %s is not taken (%s); have it made anew"
                            .formatted(CertificateWords.subject(chain[0]), e.getMessage()),
                    e);
        }
        if (chain.length == 1 && isSelfIssued(last)) {
            return new TlsException(
                    Mistake.SELF_SIGNED,
                    "its certificate %s is signed by itself and is not among %s; compare its fingerprint with the peer's administrator and add it to the file in tls.trust"
                            .formatted(CertificateWords.subject(last), trusted),
                    e);
        }
        if (isSelfIssued(last)) {
            return new TlsException(
                    Mistake.UNKNOWN_ISSUER,
                    "its certificate comes from the authority %s, which is not among %s; if it is the one you expect, add its certificate to the file in tls.trust"
                            .formatted(CertificateWords.subject(last), trusted),
                    e);
        }
        return new TlsException(
                Mistake.ISSUER_NOT_SENT,
                "its certificate was issued by %s, whose certificate it did not send and which is not among %s; have the peer send its intermediate certificates too, or, if that is an authority of its own, add its certificate to the file in tls.trust"
                        .formatted(CertificateWords.issuer(last), trusted),
                e);
    }

    private static boolean isSelfIssued(X509Certificate certificate) {
        return certificate.getSubjectX500Principal().equals(certificate.getIssuerX500Principal());
    }

    @Override
    public void checkServerTrusted(X509Certificate[] chain, String type, SSLEngine engine) throws CertificateException {
        checked(
                chain,
                () -> jdk.checkServerTrusted(chain, type, engine),
                () -> jdk.checkServerTrusted(chain, type),
                String.valueOf(engine.getPeerHost()));
    }

    @Override
    public void checkClientTrusted(X509Certificate[] chain, String type, SSLEngine engine) throws CertificateException {
        checked(
                chain,
                () -> jdk.checkClientTrusted(chain, type, engine),
                () -> jdk.checkClientTrusted(chain, type),
                "its address");
    }

    @Override
    public void checkServerTrusted(X509Certificate[] chain, String type) throws CertificateException {
        jdk.checkServerTrusted(chain, type);
    }

    @Override
    public void checkClientTrusted(X509Certificate[] chain, String type) throws CertificateException {
        jdk.checkClientTrusted(chain, type);
    }

    @Override
    public void checkServerTrusted(X509Certificate[] chain, String type, Socket socket) throws CertificateException {
        jdk.checkServerTrusted(chain, type, socket);
    }

    @Override
    public void checkClientTrusted(X509Certificate[] chain, String type, Socket socket) throws CertificateException {
        jdk.checkClientTrusted(chain, type, socket);
    }

    @Override
    public X509Certificate[] getAcceptedIssuers() {
        return jdk.getAcceptedIssuers();
    }
}
