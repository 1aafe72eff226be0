package vestibule.bridge.settings;

import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import vestibule.dicom.data.TextForm;
import vestibule.dicom.data.VR;

/**
 * The archive that photographs go to.
 *
 * @param url {@code dicom://HOST:PORT/CALLED_AE}
 * @param proof what “committed” rests on
 * @param deadline how long a commitment report may take before it is asked for again
 * @param listen the port on which commitment reports are taken that come on associations of the archive; none if empty
 * @param address the address it is opened on; the loopback address unless said
 * @param reporters AE titles that may report; the archive's own if empty
 * @param associations how many associations are used at a time
 */
public record Archive(
        Optional<String> url,
        Proof proof,
        Duration deadline,
        Optional<Integer> listen,
        String address,
        List<String> reporters,
        int associations) {

    private static final int MOST_ASSOCIATIONS = 8;

    static final Set<String> KEYS = Set.of(
            "archive.url",
            "archive.proof",
            "archive.commitment-deadline",
            "archive.listen-port",
            "archive.listen-address",
            "archive.reporters",
            "archive.associations");

    static final Archive UNSAID = new Archive(
            Optional.empty(), Proof.COMMITMENT, Duration.ofHours(1), Optional.empty(), "127.0.0.1", List.of(), 1);

    public Archive {
        reporters = List.copyOf(reporters);
    }

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
                reader.number("archive.listen-port", 1, 65_535),
                reader.value("archive.listen-address", Home::notEmpty, "a host name or an address")
                        .orElse(UNSAID.address),
                reader.values(
                        "archive.reporters",
                        title -> TextForm.problem(VR.AE, title).isEmpty() ? Optional.of(title) : Optional.empty(),
                        "an AE title of 1 to 16 characters"),
                reader.number("archive.associations", 1, MOST_ASSOCIATIONS).orElse(UNSAID.associations));
    }
}
