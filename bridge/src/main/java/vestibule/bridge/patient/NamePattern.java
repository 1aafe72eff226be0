package vestibule.bridge.patient;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.util.HashSet;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import vestibule.dicom.data.PersonName;
import vestibule.dicom.data.TextForm;
import vestibule.dicom.data.VR;

/**
 * How a practice writes patients into names of folders and files, or into a text of the camera: words in braces among other characters,
 * as {@code {id}_{family}_{given}_{birth}/**}. The words are {@code id}, {@code issuer}, {@code family}, {@code given} and {@code birth}
 * (YYYY-MM-DD or YYYYMMDD); {@code *} is any run of characters without a slash, {@code **} with them. The whole name has to match.
 */
public final class NamePattern {

    private static final int LONGEST_PATTERN = 200;
    private static final int LONGEST_NAME = 1_000;
    private static final Pattern PART = Pattern.compile("\\{([a-z]+)}|\\*\\*|\\*|[^{}*]+");
    private static final String NAME_CHARACTERS = "[\\p{L}\\p{M}'’ -]{1,64}";

    private final String text;
    private final Pattern form;
    private final Set<String> words;

    private NamePattern(String text, Pattern form, Set<String> words) {
        this.text = text;
        this.form = form;
        this.words = words;
    }

    /** The pattern that a text of the settings is; empty if it is none, or names nobody. */
    public static Optional<NamePattern> parse(String text) {
        if (text.length() > LONGEST_PATTERN) {
            return Optional.empty();
        }
        StringBuilder form = new StringBuilder();
        Set<String> words = new HashSet<>();
        Matcher parts = PART.matcher(text);
        int end = 0;
        while (parts.find() && parts.start() == end) {
            end = parts.end();
            Optional<String> piece = piece(parts);
            if (piece.isEmpty() || (parts.group(1) != null && !words.add(parts.group(1)))) {
                return Optional.empty();
            }
            form.append(piece.get());
        }
        boolean someone = words.contains("id") || (words.contains("family") && words.contains("birth"));
        return end == text.length() && someone
                ? Optional.of(new NamePattern(text, Pattern.compile(form.toString()), Set.copyOf(words)))
                : Optional.empty();
    }

    private static Optional<String> piece(Matcher part) {
        String word = part.group(1);
        if (word != null) {
            return switch (word) {
                case "id", "issuer" ->
                    Optional.of("(?<" + word + ">[\\p{L}\\p{N}](?:[\\p{L}\\p{N}.-]{0,62}[\\p{L}\\p{N}])?)");
                case "family", "given" -> Optional.of("(?<" + word + ">" + NAME_CHARACTERS + ")");
                case "birth" -> Optional.of("(?<birth>[0-9]{4}-?[0-9]{2}-?[0-9]{2})");
                default -> Optional.empty();
            };
        }
        return Optional.of(
                switch (part.group()) {
                    case "**" -> ".*";
                    case "*" -> "[^/]*";
                    default -> Pattern.quote(part.group());
                });
    }

    /** Who a name says it is; empty if the name is not of the pattern. */
    public Optional<Identity> read(String name) {
        if (name.length() > LONGEST_NAME) {
            return Optional.empty();
        }
        Matcher match = form.matcher(name);
        if (!match.matches()) {
            return Optional.empty();
        }
        Optional<LocalDate> birth = word(match, "birth").flatMap(NamePattern::day);
        if (words.contains("birth") && birth.isEmpty()) {
            return Optional.empty();
        }
        Optional<String> id = word(match, "id");
        if (id.isPresent() && TextForm.problem(VR.LO, id.get()).isPresent()) {
            return Optional.empty();
        }
        Optional<PersonName> person = word(match, "family")
                .map(family -> PersonName.of(family, word(match, "given").orElse("")));
        return Optional.of(new Identity(id, word(match, "issuer"), person, birth, Optional.empty()));
    }

    private Optional<String> word(Matcher match, String word) {
        return words.contains(word) ? Optional.of(match.group(word).strip()) : Optional.empty();
    }

    private static Optional<LocalDate> day(String text) {
        try {
            return Optional.of(LocalDate.parse(text.replace("-", ""), DateTimeFormatter.BASIC_ISO_DATE));
        } catch (DateTimeException noDay) {
            return Optional.empty();
        }
    }

    /** The pattern as it stands in the settings. */
    @Override
    public String toString() {
        return text;
    }
}
