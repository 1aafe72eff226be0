package vestibule.bridge.app;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import vestibule.bridge.object.Order;
import vestibule.bridge.object.Visit;
import vestibule.bridge.patient.Patient;
import vestibule.bridge.settings.Practice;
import vestibule.bridge.view.Capture;
import vestibule.bridge.view.Choice;
import vestibule.bridge.view.CodingProfile;
import vestibule.bridge.view.ContradictionException;
import vestibule.bridge.view.Correction;
import vestibule.bridge.view.Customs;
import vestibule.bridge.view.DirectSetUp;
import vestibule.bridge.view.MirrorSetUp;
import vestibule.bridge.view.Placement;
import vestibule.bridge.view.SetCustoms;
import vestibule.bridge.view.Tooth;
import vestibule.bridge.view.ViewRules;
import vestibule.dicom.data.Code;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.PersonName;
import vestibule.dicom.data.Uid;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.io.DicomFile;
import vestibule.samples.PhotoSize;
import vestibule.samples.Samples;

@DisplayName("A decision as the outbox keeps it")
class DecisionTextTest {

    private static final ViewRules RULES =
            ViewRules.of(Customs.USUAL, SetCustoms.USUAL, CodingProfile.DENTAL, Optional.empty());
    private static final Instant THEN = Instant.parse("2026-03-12T09:00:00Z");
    private static final Patient ZOE = new Patient(
            "PG-0001",
            Optional.of("PAINTED-GATE"),
            PersonName.parse("Exempel^Zoë^Åsa").orElseThrow(),
            Optional.of(LocalDate.of(1987, 2, 28)),
            Optional.of("F"),
            List.of(new Patient.OtherId("77", Optional.of("ELSEWHERE"))));

    @TempDir
    Path folder;

    private static DecisionText full() {
        Visit visit = new Visit(
                Uid.parse("2.25.7"),
                Optional.of("A-1"),
                Optional.of("S-1"),
                Optional.of(LocalDate.of(2026, 3, 12)),
                Optional.of(LocalTime.of(9, 30)),
                Optional.of("Records"),
                PersonName.parse("Doctor^A"),
                PersonName.parse("Helper^B"),
                Uid.parse("2.25.8"),
                Optional.of(2),
                Optional.of("Photographs"),
                Optional.of("Orthodontic records, 8 views"),
                Optional.of("sitting 1"),
                Optional.of("before"),
                Optional.of(new Order(
                        Uid.parse("2.25.7"),
                        Optional.of("A-1"),
                        Optional.of(LocalDate.of(2026, 3, 12)),
                        Optional.of(LocalTime.of(9, 0)),
                        PersonName.parse("Doctor^A"),
                        Optional.of("RP-1"),
                        Optional.of("Records"),
                        Optional.of(new Code("P1", "99LINDEN", "Records")),
                        Optional.of("SPS-1"),
                        Optional.of("Photographs"),
                        List.of(new Code("P2", "99LINDEN", "Eight views")),
                        Optional.of("V-1"))),
                Optional.of(5));
        return new DecisionText(
                Optional.of(ZOE),
                Optional.of(new DecisionText.Shown(
                        "occlusal-maxillary-mirror",
                        Optional.of(Capture.MIRROR_FRONT),
                        Optional.of(Correction.FLIP_VERTICAL),
                        Optional.of("L\\P"),
                        Optional.empty(),
                        List.of("11", "21"))),
                visit,
                Duration.ofHours(-1),
                List.of(new Ground("patient", "person", THEN, "somebody")));
    }

    @Test
    @DisplayName("comes back as it was written, whole or in part, and is the same text each time")
    void returns() throws Failure {
        for (DecisionText decision : List.of(full(), DecisionText.NOTHING, DecisionText.NOTHING.with(ZOE))) {
            DecisionText read = DecisionText.read(decision.json());
            assertThat(read).isEqualTo(decision);
            assertThat(read.json()).isEqualTo(decision.json());
        }
    }

    @ParameterizedTest(name = "{index}")
    @DisplayName("is refused when anything in it is unknown, doubled, of another form or another version")
    @ValueSource(
            strings = {
                "",
                "[]",
                "{}",
                "{\"version\":3,\"visit\":{},\"grounds\":[]}",
                "{\"version\":1,\"visit\":{},\"grounds\":[],\"more\":1}",
                "{\"version\":1,\"version\":1,\"visit\":{},\"grounds\":[]}",
                "{\"version\":1,\"visit\":{},\"grounds\":[]} trailing",
                "{\"version\":1,\"visit\":{\"studyDate\":\"soon\"},\"grounds\":[]}",
                "{\"version\":1,\"visit\":{\"study\":\"1.02\"},\"grounds\":[]}",
                "{\"version\":1,\"visit\":{},\"grounds\":[],\"patient\":{\"id\":\" \",\"name\":\"A\"}}",
                "{\"version\":1,\"visit\":{},\"grounds\":[],\"patient\":{\"id\":\"1\",\"name\":\"A\",\"sex\":\"X\"}}",
                "{\"version\":1,\"visit\":{},\"grounds\":[],\"shown\":{\"view\":\"x\",\"capture\":\"upside-down\"}}",
                "{\"version\":1,\"visit\":{},\"grounds\":[],\"shown\":{\"view\":\"x\",\"orientation\":\"L\\\\P\"}}",
                "{\"version\":2,\"visit\":{},\"grounds\":[],\"shown\":{\"view\":\"x\",\"orientation\":\"L\\\\R\"}}"
            })
    void strict(String text) {
        assertThatThrownBy(() -> DecisionText.read(text))
                .isInstanceOf(Failure.class)
                .hasMessageStartingWith("the decision");
    }

    @Test
    @DisplayName(
            "becomes two objects for a mirror picture, the recorded one first, by a clock put right, and the same bytes again")
    void made() throws Exception {
        Path photo = folder.resolve("photo.jpg");
        Files.write(photo, Samples.jpeg(Samples.photo("hanako-occlusal-maxillary-mirror"), PhotoSize.THUMBNAIL));
        Making making = new ObjectMaking(
                Practice.UNSAID, RULES, Clock.fixed(Instant.parse("2026-11-25T12:00:00Z"), ZoneOffset.UTC), folder);
        DecisionText decision = new DecisionText(
                Optional.of(ZOE),
                Optional.of(new DecisionText.Shown(
                        "occlusal-maxillary-mirror",
                        Optional.of(Capture.MIRROR_FRONT),
                        Optional.empty(),
                        Optional.of("L\\P"),
                        Optional.empty(),
                        List.of())),
                Visit.UNSAID,
                Duration.ofHours(1),
                List.of());
        List<Making.Made> made = making.make(photo, decision.json(), Files.createDirectory(folder.resolve("a")));
        List<Making.Made> again = making.make(photo, decision.json(), Files.createDirectory(folder.resolve("b")));
        assertThat(made).hasSize(2);
        DataSet raw = DicomFile.read(made.get(0).file()).dataSet();
        DataSet corrected = DicomFile.read(made.get(1).file()).dataSet();
        assertThat(raw.text(Attributes.ACQUISITION_CONTEXT_DESCRIPTION).orElseThrow())
                .contains("uncorrected");
        assertThat(corrected.text(Attributes.SOP_INSTANCE_UID))
                .contains(made.get(1).sopInstance());
        assertThat(corrected.text(Attributes.ACQUISITION_TIME).orElseThrow())
                .startsWith(Samples.photo("hanako-occlusal-maxillary-mirror")
                        .taken()
                        .plusHours(1)
                        .format(java.time.format.DateTimeFormatter.ofPattern("HHmmss")));
        DataSet other = corrected.items(Attributes.OTHER_PATIENT_I_DS_SEQUENCE).get(0);
        assertThat(other.text(Attributes.PATIENT_ID)).contains("77");
        assertThat(other.text(Attributes.ISSUER_OF_PATIENT_ID)).contains("ELSEWHERE");
        for (int i = 0; i < 2; i++) {
            assertThat(again.get(i).file()).hasSameBinaryContentAs(made.get(i).file());
        }
    }

    @Test
    @DisplayName("says which way the finished picture lies, and no settings change that")
    void liesAsDecided() throws Exception {
        Customs other = new Customs(
                Set.of(Choice.UPPER_INCISORS_AT_BOTTOM),
                "en",
                Map.of(),
                Map.of(),
                Optional.of(MirrorSetUp.BEHIND_ROLLED_LEFT),
                Map.of(),
                DirectSetUp.FRONT,
                Map.of(),
                Tooth.Notation.ISO_3950);
        ViewRules today = ViewRules.of(other, SetCustoms.USUAL, CodingProfile.DENTAL, Optional.empty());
        assertThat(full().shown().orElseThrow().placement(today))
                .extracting(Placement::orientation, Placement::correction)
                .containsExactly(Optional.of("L\\P"), Optional.of(Correction.FLIP_VERTICAL));
        DecisionText.Shown usual = shown("\"orientation\":\"L\\\\P\"", 2);
        assertThat(usual.placement(today).correction())
                .as("which the flip follows where none was said")
                .contains(Correction.FLIP_VERTICAL);
        assertThat(shown("\"orientation\":\"R\\\\A\"", 2).placement(RULES).correction())
                .contains(Correction.FLIP_HORIZONTAL);
        assertThatThrownBy(() -> shown("\"orientation\":\"L\\\\F\"", 2).placement(RULES))
                .isInstanceOf(ContradictionException.class)
                .hasMessageContaining("no flip");
    }

    @Test
    @DisplayName("of version 1 is read; where it holds a flip and not which way that leads, a person is asked")
    void earlierVersion() throws Exception {
        assertThat(shown("\"like\":\"x\"", 1).like()).contains("x");
        assertThat(DecisionText.read(DecisionText.NOTHING.json().replace("\"version\":2", "\"version\":1")))
                .isEqualTo(DecisionText.NOTHING);
        assertThat(shown("\"teeth\":[]", 1).placement(RULES).orientation()).contains("L\\P");
        assertThatThrownBy(() -> shown("\"correctBy\":\"transpose\"", 1).placement(RULES))
                .isInstanceOf(ContradictionException.class)
                .hasMessageContaining("correct-by");
        DecisionText.Shown buccal = new DecisionText.Shown(
                "teeth-buccal-right-mirror",
                Optional.of(Capture.MIRROR_FRONT),
                Optional.of(Correction.TRANSPOSE),
                Optional.empty(),
                Optional.empty(),
                List.of());
        assertThat(buccal.placement(RULES).orientation())
                .as("which lies the same way by all settings")
                .contains("A\\F");
    }

    private static DecisionText.Shown shown(String more, int version) throws Failure {
        return DecisionText.read(
                        "{\"version\":%d,\"visit\":{},\"grounds\":[],\"shown\":{\"view\":\"occlusal-maxillary-mirror\",\"capture\":\"mirror-front\",%s}}"
                                .formatted(version, more))
                .shown()
                .orElseThrow();
    }

    @Test
    @DisplayName("makes nothing while who or what is open")
    void incomplete() {
        Making making = new ObjectMaking(Practice.UNSAID, RULES, Clock.systemUTC(), folder);
        assertThatThrownBy(() -> making.make(
                        folder.resolve("photo.jpg"),
                        DecisionText.NOTHING.with(ZOE).json(),
                        folder))
                .isInstanceOf(Failure.class);
    }
}
