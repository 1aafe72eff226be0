package vestibule.bridge.app;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.apache.commons.cli.Options;
import vestibule.bridge.settings.Settings;
import vestibule.bridge.sheet.Card;
import vestibule.bridge.sheet.ContactSheet;
import vestibule.bridge.sheet.Sitting;
import vestibule.dicom.data.Attribute;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.io.DicomFile;
import vestibule.dicom.io.DicomFormatException;

/** Prints a page on which a person checks photographs: one page for the objects of some folders, a part for each sitting. */
final class SheetCommand implements Command {

    @Override
    public String name() {
        return "sheet";
    }

    @Override
    public String syntax() {
        return "PATH… --out PAGE [--title TEXT] [--notes FILE] [--config FILE]";
    }

    @Override
    public String summary() {
        return "a page with the pictures of objects, sides and gaps, for a person to check";
    }

    @Override
    public Options options() {
        return Given.all(
                Given.value("out", "PAGE", "the page to write, HTML; must not be there yet"),
                Given.value("title", "TEXT", "what stands above it; else Contact sheet"),
                Given.value("notes", "FILE", "lines of text for the head of the page"),
                Given.value("config", "FILE", "settings; else vestibule.toml if it is here"));
    }

    @Override
    public Exit run(Arguments arguments, Terminal terminal) throws Failure, IOException {
        if (arguments.words().isEmpty()) {
            throw new Failure(Exit.USAGE, "expected files or folders of objects, found none; see --help.");
        }
        Path out = Arguments.path("--out", arguments.required("out"));
        Settings settings = SettingsFile.of(arguments);
        List<String> notes = new ArrayList<>();
        Optional<Path> lines = arguments.path("notes");
        if (lines.isPresent()) {
            notes.addAll(Files.readAllLines(lines.get(), StandardCharsets.UTF_8));
        }
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
        String page = ContactSheet.html(arguments.text("title").orElse("Contact sheet"), notes, shown);
        Files.writeString(out, page, StandardCharsets.UTF_8, StandardOpenOption.CREATE_NEW);
        terminal.out().println(out);
        return Exit.FINE;
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
