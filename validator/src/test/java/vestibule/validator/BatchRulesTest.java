package vestibule.validator;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.dict.Attributes;

@DisplayName("Objects of a batch, compared")
class BatchRulesTest {

    /** For each rule, an object that contradicts the good photograph before it. */
    private static final Map<String, DataSet> EXAMPLES = Map.ofEntries(
            Map.entry(
                    "BAT-001",
                    Photographs.good().toBuilder()
                            .put(Attributes.BURNED_IN_ANNOTATION, "YES")
                            .build()),
            Map.entry("BAT-002", Photographs.good()),
            Map.entry("BAT-003", another().put(Attributes.PATIENT_ID, "P-2").build()),
            Map.entry(
                    "BAT-004",
                    another().put(Attributes.STUDY_INSTANCE_UID, "2.25.1099").build()),
            Map.entry(
                    "BAT-005",
                    another().put(Attributes.PATIENT_BIRTH_DATE, "19870413").build()),
            Map.entry(
                    "BAT-006",
                    another().put(Attributes.ACCESSION_NUMBER, "A-18").build()),
            Map.entry("BAT-007", withPicture(another(), TinyJpeg.colour())),
            Map.entry("BAT-008", withPicture(another().put(Attributes.PATIENT_ID, "P-2"), TinyJpeg.colour())),
            Map.entry("BAT-009", another().put(Attributes.INSTANCE_NUMBER, "1").build()),
            Map.entry(
                    "BAT-012",
                    another().put(Attributes.SERIES_INSTANCE_UID, "2.25.1098").build()),
            Map.entry(
                    "BAT-014",
                    another()
                            .put(Attributes.ACQUISITION_DATE_TIME, "20260306101612")
                            .build()),
            Map.entry(
                    "BAT-015",
                    another()
                            .put(Attributes.SERIES_INSTANCE_UID, "2.25.1003")
                            .put(Attributes.SERIES_NUMBER, "2")
                            .build()),
            Map.entry(
                    "BAT-016",
                    another()
                            .put(Attributes.PATIENT_ID, "P-1002")
                            .put(Attributes.STUDY_INSTANCE_UID, "2.25.1097")
                            .build()));

    /** For each rule about a batch as a whole, an object that breaks it beside the good photograph. */
    private static final Map<String, DataSet> OF_THE_WHOLE = Map.of(
            "BAT-010",
            another()
                    .put(Attributes.SOURCE_IMAGE_SEQUENCE, List.of(source("2.25.5")))
                    .build(),
            "BAT-011",
            another()
                    .put(Attributes.PATIENT_ID, "P-2")
                    .put(Attributes.SOURCE_IMAGE_SEQUENCE, List.of(source("2.25.1003")))
                    .build(),
            "BAT-013",
            another().put(Attributes.INSTANCE_NUMBER, "4").build(),
            "BAT-017",
            another()
                    .put(Photographs.attribute("AcquisitionContextDescription"), "view=one; capture=direct")
                    .build(),
            "BAT-018",
            another()
                    .put(Attributes.SOURCE_IMAGE_SEQUENCE, List.of(reoriented("P", "F")))
                    .build(),
            "BAT-019",
            another()
                    .put(Attributes.IMAGE_LATERALITY, "L")
                    .put(Attributes.SOURCE_IMAGE_SEQUENCE, List.of(source("2.25.1003")))
                    .build());

    private static final Settings SETTINGS =
            new Settings(Profile.PRACTICE, List.of(), List.of(), List.of(new ViewSet("pair", List.of("one", "two"))));

    private static DataSet source(String instance) {
        return DataSet.builder()
                .put(Photographs.attribute("ReferencedSOPClassUID"), "1.2.840.10008.5.1.4.1.1.77.1.4")
                .put(Photographs.attribute("ReferencedSOPInstanceUID"), instance)
                .build();
    }

    private static DataSet reoriented(String... directions) {
        return source("2.25.1003").toBuilder()
                .put(Photographs.attribute("SpatialLocationsPreserved"), "REORIENTED_ONLY")
                .put(Attributes.PATIENT_ORIENTATION, directions)
                .build();
    }

    @TempDir
    Path folder;

    /** A second photograph of the same sitting, with nothing against it. */
    private static DataSet.Builder another() {
        return Photographs.withPixels(Photographs.good(), TinyJpeg.colour(0xC0, 32, 16)).toBuilder()
                .put(Attributes.ROWS, 32)
                .put(Attributes.SOP_INSTANCE_UID, "2.25.1004")
                .put(Attributes.INSTANCE_NUMBER, "2");
    }

    private static DataSet withPicture(DataSet.Builder builder, byte[] stream) {
        return Photographs.withPixels(builder.build(), stream);
    }

    static Stream<String> rules() {
        return Stream.of(EXAMPLES, OF_THE_WHOLE)
                .flatMap(examples -> examples.keySet().stream())
                .sorted();
    }

    static Stream<String> rulesOfObjects() {
        return EXAMPLES.keySet().stream().sorted();
    }

    static Stream<String> rulesOfTheWhole() {
        return OF_THE_WHOLE.keySet().stream().sorted();
    }

    @ParameterizedTest
    @MethodSource("rulesOfTheWhole")
    @DisplayName("are said of the batch where no single object is at fault")
    void whole(String rule) throws IOException {
        RawWriter.write(folder.resolve("1.dcm"), Photographs.good(), Photographs.SYNTAX);
        assertThat(Validator.under(SETTINGS).validate(List.of(folder)).whole().findings())
                .isEmpty();
        RawWriter.write(folder.resolve("2.dcm"), OF_THE_WHOLE.get(rule), Photographs.SYNTAX);
        assertThat(Validator.under(SETTINGS).validate(List.of(folder)).whole().findings())
                .singleElement()
                .satisfies(finding -> assertThat(finding.rule().id()).hasToString(rule));
    }

    @Test
    @DisplayName("that agree with what was made from them are not mentioned, nor is a side that one of two leaves open")
    void source() throws IOException {
        RawWriter.write(folder.resolve("1.dcm"), Photographs.good(), Photographs.SYNTAX);
        for (String side : List.of("R", "U", "B")) {
            RawWriter.write(
                    folder.resolve("2.dcm"),
                    another()
                            .put(Attributes.IMAGE_LATERALITY, side)
                            .put(Attributes.SOURCE_IMAGE_SEQUENCE, List.of(reoriented("A", "F")))
                            .build(),
                    Photographs.SYNTAX);
            assertThat(Validator.under(SETTINGS)
                            .validate(List.of(folder))
                            .whole()
                            .findings())
                    .isEmpty();
        }
    }

    @ParameterizedTest
    @CsvSource({
        "10 20 30, ''",
        "10 20 21 40, 30",
        "10 20 50, '30, 40'",
        "9 20, '10, 11, 12, 13, 14, 15, 16, 17, 18, 19'"
    })
    @DisplayName("numbered in tens have gaps only where a whole ten is missing")
    void tens(String numbers, String missing) throws IOException {
        for (String number : numbers.split(" ")) {
            RawWriter.write(
                    folder.resolve(number + ".dcm"),
                    another()
                            .put(Attributes.SOP_INSTANCE_UID, "2.25.1" + number)
                            .put(Attributes.INSTANCE_NUMBER, number)
                            .build(),
                    Photographs.SYNTAX);
        }
        List<String> gaps = Validator.under(SETTINGS).validate(List.of(folder)).whole().findings().stream()
                .filter(finding -> finding.rule().id().toString().equals("BAT-013"))
                .map(Finding::message)
                .toList();
        if (missing.isEmpty()) {
            assertThat(gaps).isEmpty();
        } else {
            assertThat(gaps).singleElement().asString().endsWith("no images numbered " + missing);
        }
    }

    private List<Finding> compared(DataSet second) throws IOException {
        RawWriter.write(folder.resolve("1.dcm"), Photographs.good(), Photographs.SYNTAX);
        RawWriter.write(folder.resolve("2.dcm"), second, Photographs.SYNTAX);
        List<ObjectReport> reports =
                Validator.standard().validate(List.of(folder)).objects();
        assertThat(reports.get(0).findings())
                .noneMatch(finding -> finding.rule().id().family() == RuleId.Family.BAT);
        return reports.get(1).findings().stream()
                .filter(finding -> finding.rule().id().family() == RuleId.Family.BAT)
                .toList();
    }

    @ParameterizedTest
    @MethodSource("rulesOfObjects")
    @DisplayName("break the rule that forbids it, and the finding names the other file and no person")
    void contradiction(String rule) throws IOException {
        List<Finding> findings = compared(EXAMPLES.get(rule));
        assertThat(findings).anySatisfy(finding -> {
            assertThat(finding.rule().id()).hasToString(rule);
            // The folder's name is drawn at random and may hold any digits.
            String said = finding.message().replace(folder.toString(), "");
            assertThat(said).contains("1.dcm").doesNotContain("Dvo", "P-1001", "1987");
        });
    }

    @Test
    @DisplayName("of one sitting contradict each other in nothing")
    void oneSitting() throws IOException {
        assertThat(compared(another().build())).isEmpty();
    }

    @Test
    @DisplayName("leave no trace in the next batch")
    void nextBatch() throws IOException {
        RawWriter.write(folder.resolve("1.dcm"), Photographs.good(), Photographs.SYNTAX);
        Validator validator = Validator.standard();
        Report first = validator.validate(List.of(folder));
        assertThat(validator.validate(List.of(folder))).isEqualTo(first);
    }
}
