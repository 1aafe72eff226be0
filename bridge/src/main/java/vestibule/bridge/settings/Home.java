package vestibule.bridge.settings;

import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Optional;
import java.util.Set;

/**
 * Where our own data is.
 *
 * @param folder the home
 * @param originals where originals are kept, where that is not in the home
 * @param database the URL of a PostgreSQL database shared by several nodes; else a file in the home
 * @param user who asks the database
 * @param passwordFile a file that holds that user's password
 * @param reserve how many bytes of the disk stay free
 * @param keepCopies how long our copy of a committed original is kept; for ever if empty
 */
public record Home(
        Optional<Path> folder,
        Optional<Path> originals,
        Optional<String> database,
        Optional<String> user,
        Optional<Path> passwordFile,
        long reserve,
        Optional<Duration> keepCopies) {

    /** The shortest time a local copy is kept after commitment: a mistake in an archive is seldom found at once. */
    public static final Duration LEAST_KEPT = Duration.ofDays(30);

    private static final long USUAL_RESERVE = 1_000_000_000;

    static final Set<String> KEYS = Set.of(
            "home.folder",
            "home.originals",
            "home.database",
            "home.database-user",
            "home.database-password-file",
            "home.reserve",
            "home.keep-copies");

    static final Home UNSAID = new Home(
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            USUAL_RESERVE,
            Optional.empty());

    static Home of(SettingsReader reader) {
        return new Home(
                reader.value("home.folder", Home::path, "a folder"),
                reader.value("home.originals", Home::path, "a folder"),
                reader.value(
                        "home.database",
                        url -> url.startsWith("jdbc:postgresql:") ? Optional.of(url) : Optional.empty(),
                        "\"jdbc:postgresql://HOST/DATABASE\""),
                reader.value("home.database-user", Home::notEmpty, "a name"),
                reader.value("home.database-password-file", Home::path, "a file"),
                reader.value("home.reserve", Measures::size, Measures.SIZE).orElse(USUAL_RESERVE),
                reader.value(
                        "home.keep-copies",
                        text -> Measures.duration(text).filter(time -> time.compareTo(LEAST_KEPT) >= 0),
                        "at least \"30 d\""));
    }

    static Optional<String> notEmpty(String text) {
        return text.isBlank() ? Optional.empty() : Optional.of(text);
    }

    static Optional<Path> path(String text) {
        try {
            return text.isBlank() ? Optional.empty() : Optional.of(Path.of(text));
        } catch (InvalidPathException e) {
            return Optional.empty();
        }
    }
}
