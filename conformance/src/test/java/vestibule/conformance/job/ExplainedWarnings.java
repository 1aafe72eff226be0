package vestibule.conformance.job;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Objects;
import java.util.regex.Pattern;

/** The table of dciodvfy's warnings that have a reason; errors never have one. */
final class ExplainedWarnings {

    private static final List<Pattern> PATTERNS = read();

    private ExplainedWarnings() {}

    static boolean explains(String finding) {
        return finding.startsWith("Warning")
                && PATTERNS.stream()
                        .anyMatch(pattern -> pattern.matcher(finding).find());
    }

    private static List<Pattern> read() {
        try (InputStream in = ExplainedWarnings.class.getResourceAsStream("explained-warnings.tsv")) {
            String text = new String(Objects.requireNonNull(in).readAllBytes(), StandardCharsets.UTF_8);
            return text.lines()
                    .filter(line -> !line.startsWith("#"))
                    .map(line -> Pattern.compile(line.substring(0, line.indexOf('\t'))))
                    .toList();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
