package vestibule.dicom.net.tls;

import java.security.cert.X509Certificate;
import java.util.Optional;

/**
 * What a handshake agreed on.
 *
 * @param protocol the protocol version, as {@code TLSv1.3}
 * @param cipherSuite the cipher suite, by the name that IANA keeps
 * @param peer the certificate the peer showed
 */
public record TlsFacts(String protocol, String cipherSuite, Optional<X509Certificate> peer) {}
