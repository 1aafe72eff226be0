package vestibule.validator;

import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileSystems;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import vestibule.validator.rules.ViewTable;

/** Reads the validator's settings file: UTF-8, one statement a line, {@code #} starts a line that says nothing. */
final class SettingsReader {

    private static final int LONGEST = 1 << 20;
    private static final int LONGEST_SHOWN = 80;
    private static final Pattern PROFILE = Pattern.compile("profile\\s+(\\S+)");
    private static final Pattern COUNT = Pattern.compile("count\\s+(\\S+)\\s+as\\s+(\\S+)\\s+because\\s+(\\S.*)");
    private static final Pattern WAIVE =
            Pattern.compile("waive\\s+(\\S+)(?:\\s+in\\s+(\\S.*?))?\\s+until\\s+(\\S+)\\s+because\\s+(\\S.*)");
    private static final Pattern SET = Pattern.compile("set\\s+(\\S+)\\s+has\\s+(\\S.*)");
    private static final String FORMS = "profile NAME, count RULE as SEVERITY because REASON,"
            + " waive RULE [in PATTERN] until YYYY-MM-DD because REASON, or set NAME has VIEW, VIEW…";

    private final List<String> problems = new ArrayList<>();
    private final List<Relevelling> relevellings = new ArrayList<>();
    private final List<Waiver> waivers = new ArrayList<>();
    private final List<ViewSet> sets = new ArrayList<>();
    private final Set<RuleId> levelled = new HashSet<>();
    private Optional<Profile> profile = Optional.empty();
    private int number;

    private SettingsReader() {}

    static Settings read(Path file) throws SettingsException {
        SettingsReader reader = new SettingsReader();
        for (String line : text(file).lines().toList()) {
            reader.number++;
            String statement = line.strip();
            if (!statement.isEmpty() && !statement.startsWith("#")) {
                reader.statement(statement);
            }
        }
        if (!reader.problems.isEmpty()) {
            throw new SettingsException(file + ": " + String.join("; ", reader.problems));
        }
        return new Settings(reader.profile.orElse(Profile.STANDARD), reader.relevellings, reader.waivers, reader.sets);
    }

    private static String text(Path file) throws SettingsException {
        if (Files.isDirectory(file)) {
            throw new SettingsException(file + " is a folder, expected a settings file; name the file in it");
        }
        try (InputStream in = Files.newInputStream(file)) {
            byte[] bytes = in.readNBytes(LONGEST + 1);
            if (bytes.length > LONGEST) {
                throw new SettingsException(
                        "%s has more than %d bytes, the most that settings take; name the right file"
                                .formatted(file, LONGEST));
            }
            String text = StandardCharsets.UTF_8
                    .newDecoder()
                    .decode(ByteBuffer.wrap(bytes))
                    .toString();
            return text.startsWith("\uFEFF") ? text.substring(1) : text;
        } catch (CharacterCodingException e) {
            throw new SettingsException(file + " is not text in UTF-8; save it in that encoding");
        } catch (NoSuchFileException e) {
            throw new SettingsException("there is no settings file " + file + "; name one that is there");
        } catch (IOException e) {
            throw new SettingsException(
                    "the settings file " + file + " cannot be read; see that it is a file this user may read");
        }
    }

    private void statement(String statement) {
        Matcher matcher = PROFILE.matcher(statement);
        if (matcher.matches()) {
            profile(matcher.group(1));
            return;
        }
        matcher = COUNT.matcher(statement);
        if (matcher.matches()) {
            count(matcher.group(1), matcher.group(2), matcher.group(3));
            return;
        }
        matcher = WAIVE.matcher(statement);
        if (matcher.matches()) {
            waive(
                    matcher.group(1),
                    Optional.ofNullable(matcher.group(2)).orElse("**"),
                    matcher.group(3),
                    matcher.group(4));
            return;
        }
        matcher = SET.matcher(statement);
        if (matcher.matches()) {
            set(matcher.group(1), matcher.group(2));
            return;
        }
        problem("the statement \"%s\" was not understood; write %s".formatted(start(statement), FORMS));
    }

    /** Enough of a statement or a word of it to find it by. */
    private static String start(String text) {
        return text.length() > LONGEST_SHOWN
                ? Printable.of(text.substring(0, LONGEST_SHOWN)) + "…"
                : Printable.of(text);
    }

    private void problem(String sentence) {
        problems.add("line " + number + ": " + sentence);
    }

    private void profile(String name) {
        Optional<Profile> named = Profile.named(name);
        if (named.isEmpty()) {
            problem("the profile is \"%s\", and there are standard and practice; use one of them"
                    .formatted(start(name)));
        } else if (profile.isPresent()) {
            problem("a second profile is named; keep one of the two");
        }
        profile = named;
    }

    private Optional<RuleId> rule(String text) {
        Optional<RuleId> known = Validator.rules().stream()
                .map(Rule::id)
                .filter(id -> id.toString().equals(text))
                .findFirst();
        if (known.isEmpty()) {
            problem("there is no rule \"%s\"; take an id from docs/rules".formatted(start(text)));
        }
        return known;
    }

    private void count(String id, String word, String reason) {
        Optional<RuleId> rule = rule(id);
        Optional<Severity> severity = Arrays.stream(Severity.values())
                .filter(one -> one.word().equals(word))
                .findFirst();
        if (severity.isEmpty()) {
            problem("the severity is \"%s\", and there are error, warning and note; to set findings aside use waive"
                    .formatted(start(word.toLowerCase(Locale.ROOT))));
        }
        if (rule.isPresent() && severity.isPresent()) {
            if (!levelled.add(rule.get())) {
                problem(id + " is counted a second time; keep one of the two lines");
            }
            relevellings.add(new Relevelling(rule.get(), severity.get(), Printable.of(reason)));
        }
    }

    private void waive(String id, String place, String day, String reason) {
        Optional<RuleId> rule = rule(id);
        Optional<LocalDate> until = Optional.empty();
        try {
            until = Optional.of(LocalDate.parse(day));
        } catch (DateTimeParseException e) {
            problem("the day is \"%s\", and YYYY-MM-DD was expected, as 2026-12-31".formatted(start(day)));
        }
        boolean pattern = true;
        try {
            FileSystems.getDefault().getPathMatcher("glob:" + place);
        } catch (IllegalArgumentException e) {
            pattern = false;
            problem("\"%s\" is no pattern of names; write it with *, ** and ? only".formatted(start(place)));
        }
        if (rule.isPresent() && until.isPresent() && pattern) {
            waivers.add(new Waiver(rule.get(), place, until.get(), Printable.of(reason)));
        }
    }

    private void set(String name, String list) {
        List<String> views = Arrays.stream(list.split("[,\\s]+", -1))
                .filter(view -> !view.isEmpty())
                .distinct()
                .toList();
        if (sets.stream().anyMatch(set -> set.name().equals(name))) {
            problem("the set %s is there a second time; keep one of the two".formatted(start(name)));
        }
        if (views.isEmpty()) {
            problem("the set %s names no view; name one or more".formatted(start(name)));
        }
        views.stream()
                .filter(view -> !ViewTable.standard().knows(view))
                .forEach(view ->
                        problem("the set %s names the view \"%s\", which there is not; vestibule views lists all"
                                .formatted(start(name), start(view))));
        sets.add(new ViewSet(Printable.of(name), views));
    }
}
