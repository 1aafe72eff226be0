package vestibule.dicom.net;

import java.nio.charset.StandardCharsets;
import java.util.Optional;

/** Other protocols, known by their first bytes, so that a wrong port or a wrong scheme has a name. */
enum ForeignProtocol {
    /** A handshake or an alert of TLS (RFC 8446 5.1). */
    TLS("it speaks TLS, and plain DICOM came; call it as dicoms://", "it speaks TLS"),
    /** Any PDU (PS3.8 9.3.1). */
    DICOM(
            "it speaks DICOM",
            "it answered in plain DICOM, without TLS; call it as dicom://, or have TLS switched on there"),
    /** An answer or a request (RFC 9112). */
    HTTP(
            "a web server answered; name the port of the DICOM service, not that of its web page",
            "a web server without TLS answered; name the port of the DICOM service, not that of its web page"),
    /** RFC 4253 4.2. */
    SSH(
            "an SSH server answered; name the port of the DICOM service",
            "an SSH server answered; name the port of the DICOM service"),
    /** No protocol that has a name here. */
    OTHER("check that the port belongs to a DICOM service", "it does not speak TLS; check the port");

    private static final int ENOUGH = 2;

    private final String insteadOfDicom;
    private final String insteadOfTls;

    ForeignProtocol(String insteadOfDicom, String insteadOfTls) {
        this.insteadOfDicom = insteadOfDicom;
        this.insteadOfTls = insteadOfTls;
    }

    /** What those first bytes belong to; empty if they are too few. */
    static Optional<ForeignProtocol> of(byte[] bytes, int count) {
        if (count < ENOUGH) {
            return Optional.empty();
        }
        String text = new String(bytes, 0, count, StandardCharsets.ISO_8859_1);
        int first = bytes[0] & 0xFF;
        if (first >= 0x14 && first <= 0x18 && bytes[1] == 3) {
            return Optional.of(TLS);
        }
        if (first >= 1 && first <= 7 && bytes[1] == 0) {
            return Optional.of(DICOM);
        }
        if (text.startsWith("HT") || text.startsWith("GE") || text.startsWith("PO") || text.startsWith("<")) {
            return Optional.of(HTTP);
        }
        return Optional.of(text.startsWith("SS") ? SSH : OTHER);
    }

    boolean isTls() {
        return this == TLS;
    }

    /** What to do about bytes that came where a PDU was expected. */
    String insteadOfDicom() {
        return insteadOfDicom;
    }

    /** What to do about bytes that came where a TLS record was expected. */
    String insteadOfTls() {
        return insteadOfTls;
    }
}
