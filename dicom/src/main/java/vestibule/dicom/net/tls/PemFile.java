package vestibule.dicom.net.tls;

import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** The blocks of a PEM file (RFC 7468), in their order. */
final class PemFile {

    private static final Pattern BLOCK =
            Pattern.compile("-----BEGIN ([A-Z0-9 ]+)-----([^-]*)-----END \\1-----", Pattern.DOTALL);

    /**
     * One block.
     *
     * @param label what stands behind BEGIN
     * @param base64 what stands between BEGIN and END
     */
    record Block(String label, String base64) {
        byte[] bytes() {
            return Base64.getMimeDecoder().decode(base64);
        }
    }

    private PemFile() {}

    /** @throws IllegalArgumentException if a block is no base64 */
    static List<Block> blocks(String text) {
        List<Block> blocks = new ArrayList<>();
        Matcher matcher = BLOCK.matcher(text);
        while (matcher.find()) {
            Block block = new Block(matcher.group(1), withoutHeaders(matcher.group(2)));
            if (block.bytes().length == 0) {
                throw new IllegalArgumentException("a block without bytes");
            }
            blocks.add(block);
        }
        return blocks;
    }

    /** Keys of older forms carry lines as {@code DEK-Info: …} before their bytes. */
    private static String withoutHeaders(String body) {
        StringBuilder rest = new StringBuilder();
        body.lines().filter(line -> line.indexOf(':') < 0).forEach(rest::append);
        return rest.toString();
    }
}
