package vestibule.bridge.patient;

import java.io.IOException;
import java.io.StringReader;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import vestibule.dicom.data.PersonName;
import vestibule.dicom.data.TextForm;
import vestibule.dicom.data.Uid;
import vestibule.dicom.data.VR;

/**
 * The list of a day's patients that a practice system writes: comma-separated text in UTF-8, with a header. Columns, in any order:
 * {@code patient-id} and {@code name} (needed), {@code issuer}, {@code birth-date} (YYYY-MM-DD), {@code sex} (M, F, O), {@code start}
 * (YYYY-MM-DDTHH:MM), {@code accession}, {@code study-uid}, {@code description}.
 */
public final class DayList implements Directory {

    private static final long LARGEST_FILE = 1 << 20;
    private static final int MOST_ROWS = 5_000;
    private static final Set<String> COLUMNS = Set.of(
            "patient-id", "name", "issuer", "birth-date", "sex", "start", "accession", "study-uid", "description");

    private final List<Known> all;

    private DayList(List<Known> all) {
        this.all = List.copyOf(all);
    }

    /**
     * Reads a list.
     *
     * @throws DayListException if anything in it is not understood; the message names the line and nobody on it
     * @throws IOException if it cannot be read
     */
    public static DayList read(Path file) throws IOException, DayListException {
        if (Files.size(file) > LARGEST_FILE) {
            throw new DayListException("%s: is larger than 1 MB, which no day's list is".formatted(file));
        }
        // Before the text: where the file is written meanwhile, the older of the two times asks rather than decides
        Instant written = Files.getLastModifiedTime(file).toInstant();
        String text = text(file);
        List<Known> all = new ArrayList<>();
        try (CSVParser rows = CSVFormat.RFC4180
                .builder()
                .setHeader()
                .setSkipHeaderRecord(true)
                .setIgnoreEmptyLines(true)
                .get()
                .parse(new StringReader(text))) {
            checkHeader(file, rows.getHeaderNames());
            for (CSVRecord row : rows) {
                if (all.size() == MOST_ROWS) {
                    throw new DayListException(
                            "%s: has more than %d rows, which no day's list has".formatted(file, MOST_ROWS));
                }
                all.add(new Row(file, row, written).known());
            }
        } catch (UncheckedIOException | IllegalArgumentException | IllegalStateException notRfc4180) {
            throw new DayListException(
                    "%s: is no comma-separated text with one header line and closed quotes (RFC 4180)".formatted(file));
        }
        return new DayList(all);
    }

    private static String text(Path file) throws IOException, DayListException {
        try {
            String text = StandardCharsets.UTF_8
                    .newDecoder()
                    .decode(ByteBuffer.wrap(Files.readAllBytes(file)))
                    .toString();
            return text.startsWith("\uFEFF") ? text.substring(1) : text;
        } catch (CharacterCodingException notUtf8) {
            throw new DayListException("%s: is not in UTF-8; write it in UTF-8".formatted(file));
        }
    }

    private static void checkHeader(Path file, List<String> header) throws DayListException {
        List<String> unknown =
                header.stream().filter(column -> !COLUMNS.contains(column)).toList();
        if (!unknown.isEmpty() || !header.containsAll(List.of("patient-id", "name"))) {
            throw new DayListException(
                    "%s line 1: %d columns are not known or one is missing; expected patient-id and name, and may be %s"
                            .formatted(
                                    file,
                                    unknown.size(),
                                    COLUMNS.stream().sorted().toList()));
        }
    }

    /** Everybody on the list. */
    public List<Known> all() {
        return all;
    }

    @Override
    public List<Known> withId(String id) {
        return all.stream().filter(one -> one.patient().id().equals(id)).toList();
    }

    @Override
    public List<Known> named(PersonName name, LocalDate birthDate) {
        return all.stream()
                .filter(one -> one.patient().birthDate().equals(Optional.of(birthDate)))
                .toList();
    }

    private record Row(Path file, CSVRecord row, Instant written) {

        Known known() throws DayListException {
            if (!row.isConsistent()) {
                throw wrong("the number of its fields", "as many as the header has");
            }
            return new Known(
                    new Patient(
                            needed("patient-id", text -> text(text, VR.LO), "1 to 64 characters"),
                            value("issuer", text -> text(text, VR.LO), "1 to 64 characters"),
                            needed(
                                    "name",
                                    text -> PersonName.parse(text).filter(name -> !name.isEmpty()),
                                    "FAMILY^GIVEN"),
                            value("birth-date", text -> Optional.of(LocalDate.parse(text)), "YYYY-MM-DD"),
                            value(
                                    "sex",
                                    text -> text.matches("[MFO]") ? Optional.of(text) : Optional.empty(),
                                    "M, F or O")),
                    Evidence.Source.DAY_LIST,
                    Optional.of(new Known.Appointment(
                            value("start", text -> Optional.of(LocalDateTime.parse(text)), "YYYY-MM-DDTHH:MM"),
                            value("accession", text -> text(text, VR.SH), "1 to 16 characters"),
                            value("study-uid", text -> Uid.parse(text).map(Uid::value), "a unique identifier"),
                            value("description", text -> text(text, VR.LO), "1 to 64 characters"),
                            Optional.empty(),
                            Optional.of(written))));
        }

        private <T> T needed(String column, Function<String, Optional<T>> form, String expected)
                throws DayListException {
            return value(column, form, expected).orElseThrow(() -> wrong(column, expected));
        }

        private <T> Optional<T> value(String column, Function<String, Optional<T>> form, String expected)
                throws DayListException {
            String text = row.isMapped(column) ? row.get(column).strip() : "";
            if (text.isEmpty()) {
                return Optional.empty();
            }
            try {
                return Optional.of(form.apply(text).orElseThrow(() -> wrong(column, expected)));
            } catch (DateTimeException otherForm) {
                throw wrong(column, expected);
            }
        }

        private static Optional<String> text(String text, VR vr) {
            return TextForm.problem(vr, text).isPresent() ? Optional.empty() : Optional.of(text);
        }

        private DayListException wrong(String column, String expected) {
            return new DayListException("%s row %d: %s is something else than expected, which is %s"
                    .formatted(file, row.getRecordNumber() + 1, column, expected));
        }
    }
}
