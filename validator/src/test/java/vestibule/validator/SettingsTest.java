package vestibule.validator;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import vestibule.dicom.dict.Attributes;
import vestibule.validator.report.ReportFormat;
import vestibule.validator.report.ReportHeader;
import vestibule.validator.report.ReportWriter;

@DisplayName("The validator's settings")
class SettingsTest {

    private static final Clock CLOCK = Clock.fixed(Instant.parse("2026-06-30T12:00:00Z"), ZoneOffset.UTC);

    @TempDir
    Path folder;

    private Settings read(String... lines) throws IOException, SettingsException {
        Path file = folder.resolve("settings.txt");
        Files.writeString(file, String.join("\n", lines));
        return Settings.read(file);
    }

    private Report check(Settings settings) throws IOException {
        Path objects = Files.createDirectories(folder.resolve("objects"));
        Example.of(Photographs.good().toBuilder()
                        .put(Attributes.PATIENT_SEX, "W")
                        .remove(Attributes.LOSSY_IMAGE_COMPRESSION_METHOD)
                        .build())
                .write(objects.resolve("a.dcm"));
        return Validator.under(settings).by(CLOCK).validate(List.of(objects));
    }

    @Test
    @DisplayName("are read with all they say, comments and blank lines left out")
    void readsAll() throws IOException, SettingsException {
        Settings settings = read(
                "\uFEFF# of the practice",
                "profile practice",
                "",
                "count PHO-009 as note because the old camera knew no direction",
                "waive MOD-008 until 2026-12-31 because the archive writes W",
                "waive BAT-007 in old/**.dcm until 2027-01-31 because the old archive kept both",
                "set pair has face-front-smile, teeth-front-occlusion  tooth-closeup");
        assertThat(settings.profile()).isEqualTo(Profile.PRACTICE);
        assertThat(settings.relevellings())
                .containsExactly(
                        new Relevelling(RuleId.parse("PHO-009"), Severity.NOTE, "the old camera knew no direction"));
        assertThat(settings.waivers())
                .containsExactly(
                        new Waiver(RuleId.parse("MOD-008"), "**", LocalDate.of(2026, 12, 31), "the archive writes W"),
                        new Waiver(
                                RuleId.parse("BAT-007"),
                                "old/**.dcm",
                                LocalDate.of(2027, 1, 31),
                                "the old archive kept both"));
        assertThat(settings.sets())
                .containsExactly(
                        new ViewSet("pair", List.of("face-front-smile", "teeth-front-occlusion", "tooth-closeup")));
    }

    @Test
    @DisplayName("are refused whole, with every line that cannot be followed and what was expected there")
    void refuses() {
        assertThatThrownBy(() -> read(
                        "profile strict",
                        "count MOD-999 as note because x",
                        "count MOD-008 as off because x",
                        "waive MOD-008 until tomorrow because x",
                        "waive MOD-008 in [ until 2026-12-31 because x",
                        "waive MOD-008 until 2026-12-31",
                        "ignore everything",
                        "set pair has face-front-smile, teeth-nowhere",
                        "set none has ,"))
                .isInstanceOf(SettingsException.class)
                .hasMessageContaining("line 1: the profile is \"strict\", and there are standard and practice")
                .hasMessageContaining("line 2: there is no rule \"MOD-999\"")
                .hasMessageContaining("line 3: the severity is \"off\"")
                .hasMessageContaining("line 4: the day is \"tomorrow\", and YYYY-MM-DD was expected")
                .hasMessageContaining("line 5: \"[\" is no pattern of names")
                .hasMessageContaining("line 6: the statement \"waive MOD-008 until 2026-12-31\" was not understood")
                .hasMessageContaining("line 7: the statement \"ignore everything\" was not understood")
                .hasMessageContaining("line 8: the set pair names the view \"teeth-nowhere\", which there is not")
                .hasMessageContaining("line 9: the set none names no view");
    }

    @ParameterizedTest
    @DisplayName("are refused in short sentences, however long a word of theirs is")
    @ValueSource(strings = {"set %s has %s", "profile %s", "count %s as %s because so", "waive %s until %s because so"})
    void refusesLongWords(String statement) {
        assertThatThrownBy(() -> read(statement.replace("%s", "x".repeat(300))))
                .isInstanceOf(SettingsException.class)
                .satisfies(refusal -> assertThat(
                                String.valueOf(refusal.getMessage()).split("; line "))
                        .allSatisfy(line -> assertThat(line).hasSizeLessThan(400)));
    }

    @Test
    @DisplayName("are refused in a short sentence, however long the statement is that cannot be followed")
    void refusesShortly() {
        assertThatThrownBy(() -> read("waive ".repeat(500)))
                .isInstanceOf(SettingsException.class)
                .hasMessageContaining("waive wa…\" was not understood")
                .satisfies(refusal ->
                        assertThat(String.valueOf(refusal.getMessage())).hasSizeLessThan(400));
    }

    @Test
    @DisplayName("are refused when they are not UTF-8")
    void refusesOtherEncodings() throws IOException {
        Path file = folder.resolve("latin.txt");
        Files.write(file, "# caf\u00e9".getBytes(StandardCharsets.ISO_8859_1));
        assertThatThrownBy(() -> Settings.read(file))
                .isInstanceOf(SettingsException.class)
                .hasMessageContaining("not text in UTF-8");
    }

    @Test
    @DisplayName("set a finding aside until the day of the waiver, and list it")
    void waives() throws IOException, SettingsException {
        Report report = check(read("waive MOD-008 in *.dcm until 2026-06-30 because the archive writes W"));
        ObjectReport object = report.objects().get(0);
        assertThat(object.verdict()).isEqualTo(Verdict.WARN);
        assertThat(object.findings()).noneMatch(finding -> finding.rule().id().equals(RuleId.parse("MOD-008")));
        assertThat(object.waived())
                .singleElement()
                .satisfies(waived -> assertThat(waived.finding().rule().id()).hasToString("MOD-008"));
        assertThat(report.whole().waiverUses().values()).containsExactly(1);
        assertThat(report.whole().isAcceptable()).isTrue();
    }

    @Test
    @DisplayName("count for nothing after that day, and in other places")
    void waivesNoMore() throws IOException, SettingsException {
        Report report = check(read(
                "waive MOD-008 until 2026-06-29 because the archive writes W",
                "waive MOD-008 in other/* until 2026-12-31 because the archive writes W"));
        assertThat(report.objects().get(0).verdict()).isEqualTo(Verdict.FAIL);
        assertThat(report.objects().get(0).waived()).isEmpty();
        assertThat(report.whole().waiverUses().values()).containsExactly(0, 0);
    }

    @Test
    @DisplayName("count a rule otherwise, which moves the verdict")
    void relevels() throws IOException, SettingsException {
        Report report = check(read(
                "count MOD-008 as note because sex is not used here",
                "count MOD-027 as error because our archive wants it"));
        assertThat(report.objects().get(0).findings())
                .anySatisfy(finding -> {
                    assertThat(finding.rule().id()).hasToString("MOD-008");
                    assertThat(finding.severity()).isEqualTo(Severity.NOTE);
                })
                .anySatisfy(finding -> {
                    assertThat(finding.rule().id()).hasToString("MOD-027");
                    assertThat(finding.severity()).isEqualTo(Severity.ERROR);
                });
        assertThat(report.objects().get(0).verdict()).isEqualTo(Verdict.FAIL);
    }

    @Test
    @DisplayName("stand in every report: what is waived, until when and why, what has expired, what counts otherwise")
    void reports() throws IOException, SettingsException {
        Settings settings = read(
                "count MOD-027 as note because we know",
                "waive MOD-008 until 2026-07-31 because the archive writes W",
                "waive COD-003 until 2026-01-31 because the labels are German",
                "waive BAT-007 until 2026-12-31 because nothing of it is here",
                "set pair has face-front-smile, smile-front");
        Validator validator = Validator.under(settings).by(CLOCK);
        List<ObjectReport> objects = new ArrayList<>(check(settings).objects());
        BatchReport whole = check(settings).whole();
        for (ReportFormat format : ReportFormat.values()) {
            StringBuilder text = new StringBuilder();
            try (ReportWriter writer = format.writer(text, ReportHeader.of("checker 1", validator))) {
                for (ObjectReport object : objects) {
                    writer.object(object);
                }
                writer.end(whole);
            }
            assertThat(text.toString()).as(format.name()).contains("the archive writes W", "2026-07-31", "MOD-008");
            assertThat(text.toString()).as(format.name()).contains("expired", "the labels are German", "we know");
            if (format != ReportFormat.JSON) {
                assertThat(text.toString())
                        .as(format.name())
                        .contains(
                                "in force, used once",
                                "in force, not used",
                                "the set pair has face-front-smile, smile-front");
            }
            if (format == ReportFormat.JSON) {
                assertThat(text.toString())
                        .contains("\"sets\":[{\"name\":\"pair\",\"views\":[\"face-front-smile\",\"smile-front\"]}]");
            }
            if (format == ReportFormat.CSV) {
                assertThat(text.toString())
                        .startsWith(
                                "path,verdict,rule,severity,confidence,where,message,clause,advice,edition,profile,waived,"
                                        + "streams,settings\r\n")
                        .contains(
                                "\r\n,,MOD-027,note,,,\"MOD-027 counts as note, because we know\",",
                                ",markers,count\r\n",
                                ",markers,waive\r\n")
                        .endsWith(",markers,set\r\n");
            }
        }
    }
}
