package vestibule.dicom.net.tls;

import java.io.IOException;
import java.security.GeneralSecurityException;
import java.security.KeyStore;
import java.security.cert.X509Certificate;
import java.util.List;
import java.util.Optional;
import javax.net.ssl.KeyManager;
import javax.net.ssl.SSLContext;
import javax.net.ssl.SSLEngine;
import javax.net.ssl.SSLParameters;
import javax.net.ssl.TrustManager;
import javax.net.ssl.TrustManagerFactory;
import javax.net.ssl.X509ExtendedTrustManager;
import vestibule.dicom.net.tls.CredentialsException.Mistake;

/** Our certificate and whom we trust, read once and used for any number of connections (PS3.15 B.12). */
public final class Tls {

    private final TlsFiles files;
    private final Optional<OwnIdentity> identity;
    private final X509ExtendedTrustManager trust;

    private Tls(TlsFiles files, Optional<OwnIdentity> identity, X509ExtendedTrustManager trust) {
        this.files = files;
        this.identity = identity;
        this.trust = trust;
    }

    /**
     * Reads what the files have.
     *
     * @throws CredentialsException if something in them cannot be used; the message names the file and says what to do
     * @throws IOException if a file cannot be read
     */
    public static Tls of(TlsFiles files) throws CredentialsException, IOException {
        Optional<OwnIdentity> identity = OwnIdentity.read(files);
        try {
            return new Tls(files, identity, trust(files));
        } catch (GeneralSecurityException e) {
            throw new IllegalStateException("this Java has no trust managers", e);
        }
    }

    /** No certificate of ours, and the authorities that Java trusts. */
    public static Tls usual() {
        try {
            return of(TlsFiles.NONE);
        } catch (CredentialsException | IOException e) {
            throw new IllegalStateException("no file is read for this", e);
        }
    }

    private static X509ExtendedTrustManager trust(TlsFiles files)
            throws GeneralSecurityException, IOException, CredentialsException {
        KeyStore store = null;
        if (files.trust().isPresent()) {
            store = KeyStore.getInstance("PKCS12");
            store.load(null, null);
            List<X509Certificate> certificates =
                    CredentialFile.read(files.trust().get()).certificates(OwnIdentity.passPhrase(files));
            for (int i = 0; i < certificates.size(); i++) {
                store.setCertificateEntry("trusted-" + i, certificates.get(i));
            }
        }
        TrustManagerFactory factory = TrustManagerFactory.getInstance("PKIX");
        factory.init(store);
        for (TrustManager manager : factory.getTrustManagers()) {
            if (manager instanceof X509ExtendedTrustManager extended) {
                return extended;
            }
        }
        throw new GeneralSecurityException("no trust manager for X.509");
    }

    /** These, fit to be called by others: there must be a certificate to show. */
    public Tls forServer() throws CredentialsException {
        if (identity.isEmpty()) {
            throw new CredentialsException(
                    Mistake.INCOMPLETE,
                    "to be called by TLS we need a certificate of our own; name it in tls.certificate, and its key in tls.key",
                    null);
        }
        return this;
    }

    /** Starts the side that calls a host by that name. */
    public TlsConnection client(String host, int port) {
        return connection(host, port, true);
    }

    /** Starts the side that is called. */
    public TlsConnection server() {
        return connection("", 0, false);
    }

    private TlsConnection connection(String host, int port, boolean client) {
        OwnKeys keys = new OwnKeys(identity);
        PeerCheck check = new PeerCheck(
                trust,
                files.trust().map(path -> "those in " + path).orElse("those that Java trusts (tls.trust is not set)"));
        try {
            SSLContext context = SSLContext.getInstance("TLS");
            context.init(new KeyManager[] {keys}, new TrustManager[] {check}, null);
            SSLEngine engine = client ? context.createSSLEngine(host, port) : context.createSSLEngine();
            engine.setUseClientMode(client);
            engine.setSSLParameters(parameters(client));
            return new TlsConnection(engine, check, keys);
        } catch (GeneralSecurityException e) {
            throw new IllegalStateException("this Java has no TLS", e);
        }
    }

    private SSLParameters parameters(boolean client) {
        SSLParameters parameters = new SSLParameters(
                TlsProfile.CIPHER_SUITES.toArray(String[]::new), TlsProfile.PROTOCOLS.toArray(String[]::new));
        parameters.setUseCipherSuitesOrder(true);
        if (client && files.checkName()) {
            parameters.setEndpointIdentificationAlgorithm("HTTPS");
        }
        if (!client && files.clientCertificate()) {
            parameters.setNeedClientAuth(true);
        }
        return parameters;
    }
}
