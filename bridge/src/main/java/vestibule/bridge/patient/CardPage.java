package vestibule.bridge.patient;

import com.google.zxing.EncodeHintType;
import com.google.zxing.WriterException;
import com.google.zxing.qrcode.decoder.ErrorCorrectionLevel;
import com.google.zxing.qrcode.encoder.ByteMatrix;
import com.google.zxing.qrcode.encoder.Encoder;
import com.google.zxing.qrcode.encoder.QRCode;
import java.util.Map;

/** Patient cards to print: pages that need nothing from anywhere, each card with its code and with the words for people to compare. */
public final class CardPage {

    private static final int QUIET_ZONE = 4;

    private CardPage() {}

    /** The card of a patient as a picture: black squares on white, in SVG. */
    public static String svg(Patient patient) {
        ByteMatrix code = code(patient);
        int edge = code.getWidth() + 2 * QUIET_ZONE;
        StringBuilder path = new StringBuilder();
        for (int y = 0; y < code.getHeight(); y++) {
            for (int x = 0; x < code.getWidth(); x++) {
                if (code.get(x, y) == 1) {
                    path.append("M%d %dh1v1h-1z".formatted(x + QUIET_ZONE, y + QUIET_ZONE));
                }
            }
        }
        return """
                <svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %1$d %1$d" width="70mm" height="70mm" \
                shape-rendering="crispEdges"><rect width="%1$d" height="%1$d" fill="#fff"/><path d="%2$s"/></svg>""".formatted(edge, path);
    }

    /** A page with the card of a patient. */
    public static String html(Patient patient) {
        return """
                <!DOCTYPE html>
                <html lang="en"><head><meta charset="utf-8"><title>Patient card</title>
                <style>
                body{font:14pt sans-serif;margin:10mm;background:#fff;color:#000}
                .card{border:0.5mm solid #000;width:90mm;padding:6mm;text-align:center;page-break-inside:avoid}
                .card p{margin:1mm 0}
                </style></head><body><div class="card">
                %s
                <p><strong>%s</strong></p>
                <p>born %s</p>
                <p>%s%s</p>
                <p><small>Photograph this card first, straight on, before the first picture.</small></p>
                </div></body></html>
                """.formatted(
                svg(patient),
                escaped(patient.name().toString()),
                patient.birthDate().map(Object::toString).orElse("(not known)"),
                escaped(patient.id()),
                patient.issuer().map(issuer -> " (" + escaped(issuer) + ")").orElse(""));
    }

    /** One byte a square, 1 for black. */
    static ByteMatrix code(Patient patient) {
        try {
            QRCode code = Encoder.encode(
                    CardText.write(patient), ErrorCorrectionLevel.M, Map.of(EncodeHintType.CHARACTER_SET, "UTF-8"));
            return code.getMatrix();
        } catch (WriterException tooLong) {
            throw new IllegalArgumentException("a name and an id within the limits of DICOM fit any code", tooLong);
        }
    }

    private static String escaped(String text) {
        return text.replace("&", "&amp;")
                .replace("<", "&lt;")
                .replace(">", "&gt;")
                .replace("\"", "&quot;");
    }
}
