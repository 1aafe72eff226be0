package vestibule.dicom.net.tls;

import java.util.List;

/**
 * What we offer and take (PS3.15 B.12, B.13; RFC 8996, RFC 9325). Every suite stands in B.13's own list, so one choice serves both
 * profiles: as a client in full, as a server B.12 in full and B.13 but for the CCM suites, which the JDK does not have.
 */
final class TlsProfile {

    static final List<String> PROTOCOLS = List.of("TLSv1.3", "TLSv1.2");

    /** In the order of preference. */
    static final List<String> CIPHER_SUITES = List.of(
            "TLS_AES_256_GCM_SHA384",
            "TLS_CHACHA20_POLY1305_SHA256",
            "TLS_AES_128_GCM_SHA256",
            "TLS_ECDHE_ECDSA_WITH_AES_256_GCM_SHA384",
            "TLS_ECDHE_RSA_WITH_AES_256_GCM_SHA384",
            "TLS_ECDHE_ECDSA_WITH_CHACHA20_POLY1305_SHA256",
            "TLS_ECDHE_RSA_WITH_CHACHA20_POLY1305_SHA256",
            "TLS_ECDHE_ECDSA_WITH_AES_128_GCM_SHA256",
            "TLS_ECDHE_RSA_WITH_AES_128_GCM_SHA256");

    static final int LEAST_RSA_BITS = 2048;
    static final int LEAST_EC_BITS = 256;

    private TlsProfile() {}
}
