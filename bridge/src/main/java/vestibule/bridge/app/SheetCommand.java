package vestibule.bridge.app;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.Clock;
import java.time.DateTimeException;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.apache.commons.cli.Options;
import vestibule.bridge.delivery.Destination;
import vestibule.bridge.delivery.PhotographSearch;
import vestibule.bridge.outbox.Outbox;
import vestibule.bridge.settings.Settings;
import vestibule.bridge.sheet.Card;
import vestibule.bridge.sheet.ContactSheet;
import vestibule.bridge.sheet.Sitting;
import vestibule.bridge.view.ViewRules;
import vestibule.dicom.data.Attribute;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.io.DicomFile;
import vestibule.dicom.io.DicomFormatException;
import vestibule.dicom.net.Deadlines;

/**
 * Prints a page on which a person checks photographs, a part for each sitting: those that were taken in lately, before anything of them need
 * be sent, or the objects in some folders.
 */
final class SheetCommand implements Command {

    /** A day's work, as the status shows it. */
    private static final Duration LATELY = Duration.ofHours(12);

    private final Clock clock;

    SheetCommand(Clock clock) {
        this.clock = clock;
    }

    @Override
    public String name() {
        return "sheet";
    }

    @Override
    public String syntax() {
        return "[PATH…] --out PAGE [--sitting PHOTO] [--since DAY] [--title TEXT] [--notes FILE] [--home DIR] [--config FILE]";
    }

    @Override
    public String summary() {
        return "a page with the pictures, sides and gaps of each sitting, for a person to check";
    }

    @Override
    public Options options() {
        Options options = Homes.with(new Options());
        options.addOption(Given.value("out", "PAGE", "the page to write, HTML; must not be there yet"));
        options.addOption(Given.value("title", "TEXT", "what stands above it; else Contact sheet"));
        options.addOption(Given.value("notes", "FILE", "lines of text for the head of the page"));
        options.addOption(Given.value(
                "sitting",
                "PHOTO",
                "only the sitting of this photograph, by the beginning of its hash or by its name"));
        options.addOption(Given.value(
                "since", "DAY", "sittings taken in since that day, YYYY-MM-DD; else those of the last 12 hours"));
        return options;
    }

    @Override
    public Exit run(Arguments arguments, Terminal terminal) throws Failure, IOException {
        Path out = Arguments.path("--out", arguments.required("out"));
        WrapCommand.checkTarget("--out", out);
        Settings settings = SettingsFile.of(arguments);
        List<String> notes = new ArrayList<>();
        Optional<Path> lines = arguments.path("notes");
        if (lines.isPresent()) {
            notes.addAll(Files.readAllLines(lines.get(), StandardCharsets.UTF_8));
        }
        List<Sitting> shown = arguments.words().isEmpty()
                ? ofOutbox(arguments, settings, notes)
                : ofObjects(arguments, settings, notes);
        String page = ContactSheet.html(arguments.text("title").orElse("Contact sheet"), notes, shown);
        Files.writeString(out, page, StandardCharsets.UTF_8, StandardOpenOption.CREATE_NEW);
        terminal.out().println(out);
        return Exit.FINE;
    }

    private List<Sitting> ofOutbox(Arguments arguments, Settings settings, List<String> notes)
            throws Failure, IOException {
        Optional<Destination> archive = Archives.ofSettings(settings);
        String title = settings.callingAe().orElse(Archives.OUR_TITLE);
        try (Keeping keeping = Keeping.openExisting(Keeping.folder(arguments, settings), settings, clock)) {
            OutboxSheet sheet = new OutboxSheet(
                    keeping.outbox(),
                    keeping.originals(),
                    ViewRules.of(
                            settings.views(),
                            settings.sets(),
                            settings.practice().coding(),
                            Optional.empty()),
                    archive.map(to -> new PhotographSearch(to, title, Deadlines.DEFAULT)));
            List<Sitting> shown = new ArrayList<>();
            for (SittingState state : wanted(arguments, settings, keeping.outbox())) {
                shown.add(sheet.sitting(state));
            }
            notes.addAll(sheet.notes());
            return shown;
        }
    }

    private List<SittingState> wanted(Arguments arguments, Settings settings, Outbox outbox)
            throws Failure, IOException {
        ZoneId zone = settings.practice().zone().orElse(clock.getZone());
        Optional<String> day = arguments.text("since");
        Optional<String> word = arguments.text("sitting");
        Instant since = word.isPresent() ? Instant.EPOCH : clock.instant().minus(LATELY);
        if (day.isPresent()) {
            since = start(day.get(), zone);
        }
        List<SittingState> states = SittingState.since(outbox, since);
        if (word.isPresent()) {
            String photo = PhotographWord.any(outbox.overview(), word.get()).photo();
            states = states.stream()
                    .filter(state -> state.photos().contains(photo))
                    .toList();
        }
        if (states.isEmpty()) {
            throw new Failure(
                    Exit.FINDINGS,
                    "there is no sitting to show; name photographs with --sitting, or a day with --since.");
        }
        return states;
    }

    private static Instant start(String day, ZoneId zone) throws Failure {
        try {
            return LocalDate.parse(day).atStartOfDay(zone).toInstant();
        } catch (DateTimeException e) {
            throw new Failure(Exit.USAGE, "--since %s: expected a day as 2026-03-12.".formatted(day));
        }
    }

    private static List<Sitting> ofObjects(Arguments arguments, Settings settings, List<String> notes)
            throws Failure, IOException {
        Map<String, List<DicomFile>> sittings = new TreeMap<>();
        for (String word : arguments.words()) {
            for (Path path : files(Arguments.path("PATH", word))) {
                take(path, sittings, notes);
            }
        }
        if (sittings.isEmpty()) {
            throw new Failure(Exit.FINDINGS, "there is no photograph's object in what was named.");
        }
        List<Sitting> shown = new ArrayList<>();
        for (List<DicomFile> files : sittings.values()) {
            shown.add(sitting(files, settings));
        }
        return shown;
    }

    private static List<Path> files(Path path) throws IOException {
        if (Files.isRegularFile(path)) {
            return List.of(path);
        }
        try (Stream<Path> files = Files.walk(path)) {
            return files.filter(file -> file.toString().endsWith(".dcm"))
                    .sorted()
                    .toList();
        } catch (UncheckedIOException e) {
            throw e.getCause();
        }
    }

    private static void take(Path path, Map<String, List<DicomFile>> sittings, List<String> notes) throws IOException {
        try {
            DicomFile file = DicomFile.read(path);
            DataSet object = file.dataSet();
            if (object.text(Attributes.SOP_CLASS_UID)
                    .filter(Uids.VL_PHOTOGRAPHIC_IMAGE_STORAGE.value()::equals)
                    .isPresent()) {
                String key = String.join(
                        "\n",
                        text(object, Attributes.PATIENT_ID),
                        text(object, Attributes.STUDY_DATE),
                        text(object, Attributes.STUDY_INSTANCE_UID),
                        text(object, Attributes.SERIES_INSTANCE_UID));
                sittings.computeIfAbsent(key, sitting -> new ArrayList<>()).add(file);
            }
        } catch (DicomFormatException e) {
            notes.add("%s: %s.".formatted(path.getFileName(), e.getMessage()));
        }
    }

    private static Sitting sitting(List<DicomFile> files, Settings settings) throws IOException {
        List<DicomFile> ordered = new ArrayList<>(files);
        ordered.sort(Comparator.comparing(SheetCommand::number)
                .thenComparing(file -> text(file.dataSet(), Attributes.ACQUISITION_DATE_TIME)));
        List<Card> cards = new ArrayList<>();
        for (DicomFile file : ordered) {
            cards.add(ObjectCard.of(file, settings.views().notation()));
        }
        DataSet first = ordered.get(0).dataSet();
        List<String> identifiers = new ArrayList<>();
        String issuer = text(first, Attributes.ISSUER_OF_PATIENT_ID);
        identifiers.add("ID " + text(first, Attributes.PATIENT_ID) + (issuer.isEmpty() ? "" : " (" + issuer + ")"));
        String born = text(first, Attributes.PATIENT_BIRTH_DATE);
        identifiers.add(born.isEmpty() ? "birth date not known" : "born " + day(born));
        List<String> heading = new ArrayList<>();
        add(heading, "", day(text(first, Attributes.STUDY_DATE)));
        add(heading, "", text(first, Attributes.STUDY_DESCRIPTION));
        add(heading, "", text(first, Attributes.PROTOCOL_NAME));
        add(heading, "accession ", text(first, Attributes.ACCESSION_NUMBER));
        add(heading, "", text(first, Attributes.SERIES_DESCRIPTION));
        return new Sitting(
                Optional.of(ObjectCard.name(text(first, Attributes.PATIENT_NAME))),
                identifiers,
                heading,
                List.of(),
                List.of(),
                cards);
    }

    /** Objects without a number stand where the photograph of theirs that has one stands by time: behind all numbers. */
    private static int number(DicomFile file) {
        String number = text(file.dataSet(), Attributes.INSTANCE_NUMBER);
        return number.matches("[0-9]{1,9}") ? Integer.parseInt(number) : Integer.MAX_VALUE;
    }

    private static void add(List<String> heading, String before, String text) {
        if (!text.isEmpty()) {
            heading.add(before + text);
        }
    }

    private static String text(DataSet object, Attribute attribute) {
        return object.text(attribute).map(String::strip).orElse("");
    }

    private static String day(String date) {
        return date.length() == 8 ? date.substring(0, 4) + "-" + date.substring(4, 6) + "-" + date.substring(6) : date;
    }
}
