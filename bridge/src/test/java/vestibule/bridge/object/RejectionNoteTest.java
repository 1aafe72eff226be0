package vestibule.bridge.object;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.OffsetDateTime;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import vestibule.dicom.data.Code;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.io.DicomFile;
import vestibule.validator.Validator;

@DisplayName("A rejection note (PS3.3 A.35.4, PS3.16 TID 2010, CID 7010)")
class RejectionNoteTest {

    private static final OffsetDateTime WHEN = OffsetDateTime.parse("2026-03-12T10:15:30+01:00");

    @TempDir
    Path folder;

    private static DataSet filed(String study, String series, String instance) {
        return DataSet.builder()
                .put(Attributes.SOP_CLASS_UID, Uids.VL_PHOTOGRAPHIC_IMAGE_STORAGE.value())
                .put(Attributes.SOP_INSTANCE_UID, instance)
                .put(Attributes.STUDY_INSTANCE_UID, study)
                .put(Attributes.SERIES_INSTANCE_UID, series)
                .put(Attributes.PATIENT_NAME, "Mihon^Hanako=見本^花子")
                .put(Attributes.PATIENT_ID, "PG-0005")
                .put(Attributes.ISSUER_OF_PATIENT_ID, "PAINTED-GATE")
                .put(Attributes.PATIENT_BIRTH_DATE, "20000229")
                .put(Attributes.PATIENT_SEX, "F")
                .put(Attributes.STUDY_DATE, "20260312")
                .putEmpty(Attributes.STUDY_TIME)
                .putEmpty(Attributes.REFERRING_PHYSICIAN_NAME)
                .putEmpty(Attributes.STUDY_ID)
                .putEmpty(Attributes.ACCESSION_NUMBER)
                .build();
    }

    private static List<DataSet> twoSeries() {
        return List.of(
                filed("2.25.1", "2.25.11", "2.25.111"),
                filed("2.25.1", "2.25.11", "2.25.112"),
                filed("2.25.1", "2.25.12", "2.25.121"));
    }

    @ParameterizedTest
    @EnumSource(RejectionNote.Reason.class)
    @DisplayName("is a key object that names each object once, by study and series, under the title of its reason")
    void names(RejectionNote.Reason reason) {
        List<RejectionNote> notes = RejectionNote.of(twoSeries(), reason, WHEN);
        assertThat(notes).hasSize(1);
        DataSet note = notes.get(0).dataSet();
        DataSet title = note.items(Attributes.CONCEPT_NAME_CODE_SEQUENCE).get(0);
        assertThat(new Code(
                        title.text(Attributes.CODE_VALUE).orElseThrow(),
                        title.text(Attributes.CODING_SCHEME_DESIGNATOR).orElseThrow(),
                        title.text(Attributes.CODE_MEANING).orElseThrow()))
                .isEqualTo(reason.title());
        DataSet study = note.items(Attributes.CURRENT_REQUESTED_PROCEDURE_EVIDENCE_SEQUENCE)
                .get(0);
        assertThat(study.text(Attributes.STUDY_INSTANCE_UID)).contains("2.25.1");
        assertThat(study.items(Attributes.REFERENCED_SERIES_SEQUENCE))
                .flatExtracting(series -> series.items(Attributes.REFERENCED_SOP_SEQUENCE))
                .extracting(item ->
                        item.text(Attributes.REFERENCED_SOP_INSTANCE_UID).orElseThrow())
                .containsExactly("2.25.111", "2.25.112", "2.25.121");
        assertThat(note.items(Attributes.CONTENT_SEQUENCE)).hasSize(4);
        assertThat(note.text(Attributes.STUDY_INSTANCE_UID)).contains("2.25.1");
        assertThat(note.text(Attributes.PATIENT_ID)).contains("PG-0005");
        assertThat(note.text(Attributes.SOP_INSTANCE_UID))
                .isNotEqualTo(twoSeries().get(0).text(Attributes.SOP_INSTANCE_UID));
    }

    @Test
    @DisplayName("is one for each study, the same every time, and another at another moment")
    void identity() {
        List<DataSet> filed = List.of(filed("2.25.1", "2.25.11", "2.25.111"), filed("2.25.2", "2.25.21", "2.25.211"));
        List<RejectionNote> notes = RejectionNote.of(filed, RejectionNote.Reason.WRONG_PATIENT, WHEN);
        assertThat(notes).hasSize(2);
        assertThat(RejectionNote.of(filed, RejectionNote.Reason.WRONG_PATIENT, WHEN))
                .isEqualTo(notes);
        assertThat(RejectionNote.of(filed, RejectionNote.Reason.WRONG_PATIENT, WHEN.plusSeconds(1))
                        .get(0)
                        .sopInstance())
                .isNotEqualTo(notes.get(0).sopInstance());
    }

    @Test
    @DisplayName("has no error of our validator, nor of independent readers")
    void sound() throws IOException {
        RejectionNote note = RejectionNote.of(twoSeries(), RejectionNote.Reason.WRONG_VIEW, WHEN)
                .get(0);
        assertThat(Validator.standard()
                        .validate(note.dataSet(), note.transferSyntax())
                        .errors())
                .isEmpty();
        Path file = folder.resolve("note.dcm");
        DicomFile.write(file, note.dataSet(), note.transferSyntax());
        assertThat(DicomFile.read(file).dataSet().text(Attributes.PATIENT_NAME)).contains("Mihon^Hanako=見本^花子");
        assertThat(run("dciodvfy", "-new", file.toString()).lines().filter(line -> line.startsWith("Error")))
                .isEmpty();
        assertThat(run("dsrdump", file.toString())).contains("Rejected for Patient Safety Reasons");
    }

    private static String run(String... command) throws IOException {
        boolean present = Arrays.stream(System.getenv("PATH").split(":", -1))
                .anyMatch(folder -> Files.isExecutable(Path.of(folder, command[0])));
        Assumptions.assumeTrue(present, command[0] + " is not installed");
        Process process = new ProcessBuilder(command).redirectErrorStream(true).start();
        return new String(process.getInputStream().readAllBytes(), java.nio.charset.StandardCharsets.UTF_8);
    }
}
