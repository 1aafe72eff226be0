package vestibule.bridge.settings;

import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/**
 * The archive that photographs go to.
 *
 * @param url {@code dicom://HOST:PORT/CALLED_AE}
 * @param proof what “committed” rests on
 * @param deadline how long a commitment report may take before it is asked for again
 * @param associations how many associations are used at a time
 */
public record Archive(Optional<String> url, Proof proof, Duration deadline, int associations) {

    private static final int MOST_ASSOCIATIONS = 8;

    static final Set<String> KEYS =
            Set.of("archive.url", "archive.proof", "archive.commitment-deadline", "archive.associations");

    static final Archive UNSAID = new Archive(Optional.empty(), Proof.COMMITMENT, Duration.ofHours(1), 1);

    /** What “committed” rests on. */
    public enum Proof {
        /** The archive takes responsibility by storage commitment (PS3.4 J). */
        COMMITMENT("commitment"),
        /** Everything is fetched back and compared; for archives without storage commitment. */
        READ_BACK("read-back");

        private final String word;

        Proof(String word) {
            this.word = word;
        }

        static Optional<Proof> parse(String text) {
            return List.of(values()).stream()
                    .filter(proof -> proof.word.equals(text))
                    .findFirst();
        }
    }

    static Archive of(SettingsReader reader) {
        return new Archive(
                reader.value("archive.url", Home::notEmpty, "\"dicom://HOST:PORT/CALLED_AE\""),
                reader.value("archive.proof", Proof::parse, "\"commitment\" or \"read-back\"")
                        .orElse(Proof.COMMITMENT),
                Intake.duration(reader, "archive.commitment-deadline", UNSAID.deadline),
                reader.number("archive.associations", 1, MOST_ASSOCIATIONS).orElse(UNSAID.associations));
    }
}
