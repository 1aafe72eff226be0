package vestibule.conformance.fault;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.Optional;

/**
 * What makes a picture that picture, whatever was taken out around it: the SHA-256 of its entropy-coded data, from the first start of scan
 * to the end of image (ISO/IEC 10918-1 B.1.1.3). Written apart from the JPEG reader of the toolkit, for it judges what that one made.
 */
public final class ScanHash {

    private static final int MARKER = 0xFF;
    private static final int START_OF_SCAN = 0xDA;
    private static final int END_OF_IMAGE = 0xD9;

    private ScanHash() {}

    /** The hash; empty if this is no whole JPEG stream. */
    public static Optional<String> of(byte[] jpeg) {
        int start = startOfScan(jpeg);
        if (start < 0) {
            return Optional.empty();
        }
        int end = endOfImage(jpeg, start);
        return end < 0 ? Optional.empty() : Optional.of(sha256(jpeg, start, end - start));
    }

    private static int startOfScan(byte[] jpeg) {
        int at = 2;
        while (at + 4 <= jpeg.length && (jpeg[at] & 0xFF) == MARKER) {
            int code = jpeg[at + 1] & 0xFF;
            if (code == START_OF_SCAN) {
                return at;
            }
            boolean filler = code == MARKER;
            at += filler ? 1 : 2 + ((jpeg[at + 2] & 0xFF) << 8 | (jpeg[at + 3] & 0xFF));
        }
        return -1;
    }

    /** In entropy-coded data a marker byte is followed by zero or by a restart marker, never by this code. */
    private static int endOfImage(byte[] jpeg, int from) {
        for (int at = from; at + 1 < jpeg.length; at++) {
            if ((jpeg[at] & 0xFF) == MARKER && (jpeg[at + 1] & 0xFF) == END_OF_IMAGE) {
                return at + 2;
            }
        }
        return -1;
    }

    /** SHA-256 of bytes, in hexadecimal. */
    public static String sha256(byte[] bytes) {
        return sha256(bytes, 0, bytes.length);
    }

    /** SHA-256 of a text. */
    static String sha256(String text) {
        return sha256(text.getBytes(StandardCharsets.UTF_8));
    }

    private static String sha256(byte[] bytes, int offset, int length) {
        try {
            MessageDigest digest = MessageDigest.getInstance("SHA-256");
            digest.update(bytes, offset, length);
            return HexFormat.of().formatHex(digest.digest());
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java runtime has SHA-256", e);
        }
    }
}
