package vestibule.bridge.settings;

import java.io.IOException;
import java.nio.charset.CharacterCodingException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.time.DateTimeException;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.tomlj.Toml;
import org.tomlj.TomlParseResult;
import vestibule.bridge.photo.Inks;
import vestibule.bridge.photo.Keep;
import vestibule.bridge.view.CodingProfile;
import vestibule.bridge.view.Customs;
import vestibule.bridge.view.SetCustoms;
import vestibule.dicom.data.VR;

/**
 * The settings of a practice, from one TOML file. A wrong value stops the start, and all wrong values are told at once.
 *
 * @param practice what every object says of the practice
 * @param callingAe our own application entity title, if the file names one
 * @param patients how it says who is on a photograph
 * @param cameras what it says of its cameras
 * @param views how it photographs and calls its views
 * @param sets which views its sittings should contain
 * @param study how visits become studies
 * @param running what the service needs to run
 * @param tls keys and certificates
 * @param listener the way back of commitment
 */
public record Settings(
        Practice practice,
        Optional<String> callingAe,
        Patients patients,
        Cameras cameras,
        Customs views,
        SetCustoms sets,
        Study study,
        Running running,
        TlsSettings tls,
        ListenerSettings listener) {

    /** The file that is read when none is named. */
    public static final Path DEFAULT_FILE = Path.of("vestibule.toml");

    /** Settings without a file. */
    public static final Settings NONE = new Settings(
            Practice.UNSAID,
            Optional.empty(),
            Patients.UNSAID,
            Cameras.UNSAID,
            Customs.USUAL,
            SetCustoms.USUAL,
            Study.USUAL,
            Running.UNSAID,
            TlsSettings.USUAL,
            ListenerSettings.USUAL);

    private static final long LARGEST_FILE = 1 << 20;

    private static final Set<String> KEYS = Set.of(
            "practice.name",
            "practice.department",
            "practice.station",
            "practice.issuer",
            "practice.zone",
            "practice.coding",
            "pictures.keep-raw",
            "pictures.edge",
            "pictures.inks",
            "keep.place",
            "keep.owner",
            "keep.serials",
            "keep.maker-notes",
            "network.calling-ae",
            "tls.certificate",
            "tls.key",
            "tls.pass-phrase-file",
            "tls.trust",
            "tls.check-name",
            "tls.client-certificate",
            "listener.port",
            "listener.address",
            "listener.callers",
            "listener.tls");

    /**
     * Reads a settings file.
     *
     * @throws SettingsException if it cannot be read, or if anything in it is not understood or not allowed; it names every such place
     */
    public static Settings read(Path file) throws SettingsException {
        TomlParseResult toml = parsed(file);
        List<String> problems = new ArrayList<>();
        toml.errors()
                .forEach(error -> problems.add(
                        "%s line %d: %s".formatted(file, error.position().line(), error.getMessage())));
        SettingsReader reader = new SettingsReader(file, toml, problems);
        reader.refuseUnknownKeys(keys());
        Settings settings = new Settings(
                new Practice(
                        reader.text("practice.name", VR.LO),
                        reader.text("practice.department", VR.LO),
                        reader.text("practice.station", VR.SH),
                        reader.text("practice.issuer", VR.LO),
                        reader.value("practice.zone", Settings::zone, "a zone such as \"Europe/Berlin\" or \"+02:00\""),
                        reader.value("practice.coding", CodingProfile::parse, "\"dental\" or \"ortho\"")
                                .orElse(CodingProfile.DENTAL),
                        pictures(reader)),
                reader.text("network.calling-ae", VR.AE),
                Patients.of(reader),
                Cameras.of(reader),
                Views.of(reader),
                Sets.of(reader),
                Study.of(reader),
                Running.of(reader),
                TlsSettings.read(reader),
                ListenerSettings.read(reader));
        if (!problems.isEmpty()) {
            throw new SettingsException(problems);
        }
        return settings;
    }

    /** Every key; one that ends in {@code .*} stands for all below it. */
    static Set<String> keys() {
        return Stream.of(
                        KEYS,
                        Patients.KEYS,
                        Cameras.KEYS,
                        Set.of(Cameras.CLOCKS + ".*"),
                        Views.keys(),
                        Sets.KEYS,
                        Study.KEYS,
                        Running.KEYS)
                .flatMap(Set::stream)
                .collect(Collectors.toSet());
    }

    private static TomlParseResult parsed(Path file) throws SettingsException {
        if (Files.isDirectory(file)) {
            throw new SettingsException(List.of(file + " is a folder, expected a settings file; name the file in it"));
        }
        try {
            if (Files.size(file) > LARGEST_FILE) {
                throw new SettingsException(List.of(file + " is larger than 1 MB, which no settings file is"));
            }
            return Toml.parse(withoutByteOrderMark(Files.readString(file)));
        } catch (NoSuchFileException e) {
            throw new SettingsException(List.of("there is no settings file " + file + "; name one that is there"));
        } catch (CharacterCodingException e) {
            throw new SettingsException(List.of(file + " is not text in UTF-8; save it in that encoding"));
        } catch (IOException e) {
            throw new SettingsException(
                    List.of("the settings file " + file + " cannot be read; see that it is a file this user may read"));
        }
    }

    /** Some editors write a byte order mark before text in UTF-8, which TOML knows nothing of. */
    private static String withoutByteOrderMark(String text) {
        return text.startsWith("\uFEFF") ? text.substring(1) : text;
    }

    private static Pictures pictures(SettingsReader reader) {
        return new Pictures(
                reader.flag("pictures.keep-raw", Pictures.USUAL.keepRaw()),
                reader.value("pictures.edge", Pictures::edge, "\"trim\" or \"keep\""),
                reader.value("pictures.inks", Inks::parse, "\"refuse\" or \"convert\"")
                        .orElse(Inks.REFUSE),
                new Keep(
                        reader.flag("keep.place", false),
                        reader.flag("keep.owner", false),
                        reader.flag("keep.serials", false),
                        reader.flag("keep.maker-notes", false)));
    }

    private static Optional<ZoneId> zone(String text) {
        try {
            return Optional.of(ZoneId.of(text));
        } catch (DateTimeException unknownZone) {
            return Optional.empty();
        }
    }
}
