package vestibule.bridge.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import vestibule.bridge.object.Visit;
import vestibule.bridge.patient.Evidence;
import vestibule.bridge.patient.Known;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Uid;
import vestibule.dicom.dict.Attributes;
import vestibule.samples.PhotoSize;
import vestibule.samples.Samples;

@DisplayName("An order counts for photographs of its own day")
class OrderOfTheDayTest {

    private static final Clock CLOCK = Clock.system(ZoneOffset.UTC);
    private static final Understanding WORKSHOP = new Workshop(CLOCK);
    private static final String PHOTO = "IMG_0001_teeth-front-occlusion.JPG";
    private static final String YESTERDAY = "2026-03-11T09:00,A-11,1.2.3.11";
    private static final String THAT_DAY = "2026-03-12T15:00,A-12,1.2.3.12";
    private static final String LATER_THAT_DAY = "2026-03-12T17:00,A-13,1.2.3.13";
    private static final String NO_DAY = ",A-0,1.2.3.0";

    @TempDir
    Path folder;

    /** When the list was written. */
    private Instant listed = Instant.parse("2026-03-12T06:00:00Z");

    @BeforeEach
    void card() throws IOException {
        photograph(Samples.jpeg(Samples.photo("zoe-teeth-front-occlusion"), PhotoSize.THUMBNAIL));
    }

    private void photograph(byte[] bytes) throws IOException {
        Path patient = Files.createDirectories(folder.resolve("card/PG-0001"));
        Files.write(patient.resolve(PHOTO), bytes);
    }

    private Ran intake(String... rows) throws IOException {
        List<String> lines = Stream.concat(
                        Stream.of("patient-id,issuer,name,birth-date,sex,start,accession,study-uid"),
                        Stream.of(rows).map(row -> "PG-0001,PAINTED-GATE,Exempel^Zoë^Åsa,1987-02-28,F," + row))
                .toList();
        Path list = Files.write(folder.resolve("today.csv"), lines);
        Files.setLastModifiedTime(list, FileTime.from(listed));
        practice().settings("""
                [intake]
                settle = "1 ms"
                [patients]
                names = ["{id}/*"]
                day-list = '%s'
                ask-archive = false
                """.formatted(list));
        return practice().intake(WORKSHOP, CLOCK);
    }

    private PracticeFolder practice() {
        return new PracticeFolder(folder);
    }

    private Ran settle(String... words) {
        return practice()
                .run(
                        new SettleCommand(WORKSHOP, CLOCK),
                        Stream.concat(Stream.of(PHOTO), Stream.of(words)).toArray(String[]::new));
    }

    private Visit visit() throws Exception {
        try (Keeping keeping = Keeping.open(
                folder.resolve("home"),
                vestibule.bridge.settings.Settings.read(folder.resolve("vestibule.toml")),
                CLOCK)) {
            String photo = keeping.outbox().overview().named(PHOTO).get(0).photo();
            return DecisionText.read(keeping.outbox().overview().decision(photo).orElseThrow())
                    .visit();
        }
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                THAT_DAY + '|' + YESTERDAY + "|1.2.3.12|A-12",
                YESTERDAY + '|' + THAT_DAY + "|1.2.3.12|A-12",
                NO_DAY + '|' + THAT_DAY + "|1.2.3.12|A-12",
                YESTERDAY + '|' + NO_DAY + "|1.2.3.0|A-0"
            })
    @DisplayName("that of the day, else one that names no day, and nobody is asked")
    void ofTheDay(String first, String second, String study, String accession) throws Exception {
        assertThat(intake(first, second).exit()).isZero();
        assertThat(visit().study()).contains(new Uid(study));
        assertThat(visit().accession()).contains(accession);
    }

    @Test
    @DisplayName("where all are of other days the photographs have a study of their own and no accession number")
    void ofAnotherDay() throws Exception {
        assertThat(intake(YESTERDAY, "2026-03-13T08:00,A-14,1.2.3.14").exit()).isZero();
        assertThat(visit().study().orElseThrow().value()).startsWith("2.25.");
        assertThat(visit().accession()).isEmpty();
        assertThat(visit().order().flatMap(order -> order.accession())).isEmpty();
    }

    @Test
    @DisplayName("a list of another day whose row names none is a question, which a study answers, or new")
    void listOfAnotherDay() throws Exception {
        listed = Instant.parse("2026-03-13T06:00:00Z");
        assertThat(intake(NO_DAY).out()).contains("order-of-which-day", "names no day");
        assertThat(settle("--study", "1.2.3.0").exit()).isZero();
        assertThat(visit().accession()).contains("A-0");
        assertThat(settle("--study", "new").exit()).isZero();
        assertThat(visit().accession()).isEmpty();
    }

    @Test
    @DisplayName("of a list of another day, a row that orders nothing says who it is and asks nothing")
    void rowWithoutAnOrder() throws Exception {
        listed = Instant.parse("2026-03-13T06:00:00Z");
        assertThat(intake(",,").exit()).isZero();
        assertThat(visit().accession()).isEmpty();
    }

    @Test
    @DisplayName("an order of the day counts whenever its list was written, beside rows that name none")
    void dayBesideAListOfAnother() throws Exception {
        listed = Instant.parse("2026-03-13T06:00:00Z");
        assertThat(intake(NO_DAY, THAT_DAY).exit()).isZero();
        assertThat(visit().accession()).contains("A-12");
    }

    @Test
    @DisplayName("two of the day are a question, which a study answers, or new, for which none counts")
    void several() throws Exception {
        assertThat(intake(THAT_DAY, LATER_THAT_DAY, YESTERDAY).out()).contains("several-orders", "2 orders");
        assertThat(settle("--study", "1.2.3.13").exit()).isZero();
        assertThat(visit().accession()).contains("A-13");
        assertThat(settle("--study", "new").exit()).isZero();
        assertThat(visit().study().orElseThrow().value()).startsWith("2.25.");
        assertThat(visit().accession()).isEmpty();
    }

    @Test
    @DisplayName("a photograph without a day and an order of a day are a question")
    void withoutADay() throws Exception {
        byte[] dated = Samples.jpeg(Samples.photo("zoe-teeth-front-occlusion"), PhotoSize.THUMBNAIL);
        photograph(new String(dated, StandardCharsets.ISO_8859_1)
                .replaceAll("2026:03:12 ..:..:..", " ".repeat(19))
                .getBytes(StandardCharsets.ISO_8859_1));
        assertThat(intake(NO_DAY).out()).as("that of a list").contains("order-of-which-day");
        assertThat(intake(THAT_DAY).out()).contains("order-of-which-day");
        assertThat(settle("--study", "1.2.3.12").exit()).isZero();
        assertThat(visit().accession()).contains("A-12");
        assertThat(settle("--study", "new").exit()).isZero();
        assertThat(visit().accession()).isEmpty();
    }

    @Test
    @DisplayName("a worklist that says the day and not the hour says the day")
    void dayWithoutHour() {
        DataSet step = DataSet.builder()
                .put(Attributes.SCHEDULED_PROCEDURE_STEP_START_DATE, "20260312")
                .build();
        DataSet item = DataSet.builder()
                .put(Attributes.PATIENT_ID, "PG-0001")
                .put(Attributes.SCHEDULED_PROCEDURE_STEP_SEQUENCE, List.of(step))
                .build();
        Known.Appointment appointment = Known.of(item, Evidence.Source.WORKLIST)
                .orElseThrow()
                .appointment()
                .orElseThrow();
        assertThat(appointment.start()).isEmpty();
        assertThat(appointment.day()).contains(LocalDate.of(2026, 3, 12));
    }
}
