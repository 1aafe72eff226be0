package vestibule.dicom.io;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.util.HexFormat;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Bytes from commented text: hexadecimal pairs, and quoted ASCII; a hash starts a comment. */
final class HexText {

    private static final Pattern WORD = Pattern.compile("\"([^\"]*)\"|([0-9A-Fa-f]{2})+|#.*");

    private HexText() {}

    static byte[] bytes(String text) {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        text.lines().forEach(line -> {
            Matcher word = WORD.matcher(line);
            while (word.find() && !word.group().startsWith("#")) {
                bytes.writeBytes(
                        word.group(1) == null
                                ? HexFormat.of().parseHex(word.group())
                                : word.group(1).getBytes(StandardCharsets.US_ASCII));
            }
        });
        return bytes.toByteArray();
    }

    /** Preamble, prefix, and what follows. */
    static byte[] file(String afterPrefix) {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        bytes.writeBytes(new byte[128]);
        bytes.writeBytes("DICM".getBytes(StandardCharsets.US_ASCII));
        bytes.writeBytes(bytes(afterPrefix));
        return bytes.toByteArray();
    }
}
