package vestibule.conformance.tables;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;

/**
 * A file of facts that a table is made from.
 *
 * @param name its name without folders, as the header of the table gives it
 * @param text its text
 * @param sha256 the hash of its bytes
 */
record SourceFile(String name, String text, String sha256) {

    static SourceFile read(Path file) throws IOException {
        byte[] bytes = Files.readAllBytes(file);
        try {
            String hash = HexFormat.of()
                    .formatHex(MessageDigest.getInstance("SHA-256").digest(bytes));
            return new SourceFile(
                    String.valueOf(file.getFileName()),
                    new String(bytes, java.nio.charset.StandardCharsets.UTF_8),
                    hash);
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java platform has SHA-256", e);
        }
    }

    /** The lines below the header row, each cut at its tabs. */
    List<String[]> rows() {
        List<String[]> rows = new ArrayList<>();
        text.lines().skip(1).forEach(line -> rows.add(line.split("\t", -1)));
        return rows;
    }

    /** The comment lines every table starts with. */
    List<String> header(String what, String edition, String columns) {
        return List.of(
                "# " + what,
                "# edition: " + edition,
                "# source: " + name + " sha256:" + sha256,
                "# generator: vestibule.conformance.tables.TableExtraction; do not edit",
                "# columns: " + columns);
    }
}
