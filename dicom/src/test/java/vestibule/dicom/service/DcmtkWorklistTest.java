package vestibule.dicom.service;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import vestibule.dicom.data.Bulk;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Uid;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.io.DataSetCodec;
import vestibule.dicom.io.DicomFile;
import vestibule.dicom.io.TransferSyntax;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.Tool;

@DisplayName("Against DCMTK: worklist, both roles")
@Timeout(120)
class DcmtkWorklistTest extends DcmtkFixture {

    private static DataSet scheduledStep(String modality, String date) {
        return DataSet.builder()
                .put(Attributes.MODALITY, modality)
                .put(Attributes.SCHEDULED_STATION_AE_TITLE, "VESTIBULE")
                .put(Attributes.SCHEDULED_PROCEDURE_STEP_START_DATE, date)
                .put(Attributes.SCHEDULED_PROCEDURE_STEP_START_TIME, "0900")
                .put(Attributes.SCHEDULED_PROCEDURE_STEP_ID, "STEP1")
                .build();
    }

    private void entry(Path worklist, String name, String patient, String date) throws IOException {
        DataSet entry = DataSet.builder()
                .put(Attributes.SPECIFIC_CHARACTER_SET, "ISO_IR 192")
                .put(Attributes.PATIENT_NAME, patient)
                .put(Attributes.PATIENT_ID, "P-" + name)
                .put(Attributes.STUDY_INSTANCE_UID, "2.25." + name)
                .put(Attributes.REQUESTED_PROCEDURE_ID, "R" + name)
                .put(Attributes.SCHEDULED_PROCEDURE_STEP_SEQUENCE, List.of(scheduledStep("XC", date)))
                .build();
        DataSet meta = DicomFile.metaInformation(
                Uids.MODALITY_WORKLIST_INFORMATION_MODEL_FIND,
                new Uid("2.25." + name),
                TransferSyntax.EXPLICIT_VR_LITTLE_ENDIAN);
        byte[] bytes =
                DataSetCodec.encode(entry, TransferSyntax.EXPLICIT_VR_LITTLE_ENDIAN, DataSetCodec.Strictness.OBJECT);
        DicomFile.writeReceived(worklist.resolve(name + ".wl"), meta, Bulk.of(bytes));
    }

    private static DataSet worklistKeys(String date) {
        return DataSet.builder()
                .putEmpty(Attributes.PATIENT_NAME)
                .putEmpty(Attributes.PATIENT_ID)
                .putEmpty(Attributes.STUDY_INSTANCE_UID)
                .putEmpty(Attributes.REQUESTED_PROCEDURE_ID)
                .put(
                        Attributes.SCHEDULED_PROCEDURE_STEP_SEQUENCE,
                        List.of(DataSet.builder()
                                .put(Attributes.MODALITY, "XC")
                                .put(Attributes.SCHEDULED_PROCEDURE_STEP_START_DATE, date)
                                .putEmpty(Attributes.SCHEDULED_PROCEDURE_STEP_START_TIME)
                                .putEmpty(Attributes.SCHEDULED_STATION_AE_TITLE)
                                .putEmpty(Attributes.SCHEDULED_PROCEDURE_STEP_ID)
                                .build()))
                .build();
    }

    @Test
    @DisplayName("wlmscpfs gives today's worklist")
    void worklist() throws IOException {
        Path worklist = Files.createDirectories(folder.resolve("worklists").resolve("WORKLIST"));
        Files.createFile(worklist.resolve("lockfile"));
        entry(worklist, "1", "Müller^Zoë", "20260105");
        entry(worklist, "2", "Wintergreen^Otto", "20260106");
        int port = Tool.freePort();
        closedLater(Tool.serve(
                folder,
                port,
                Map.of(),
                "wlmscpfs",
                "-v",
                "-dfr",
                "-csk",
                "-dfp",
                folder.resolve("worklists").toString(),
                String.valueOf(port)));
        Association association = associate(port, "WORKLIST", List.of(WorklistUser.proposal()));
        WorklistUser user = new WorklistUser(association);
        QueryOutcome today = user.find(worklistKeys("20260105"), 100, LONG);
        assertThat(today).isInstanceOf(QueryOutcome.Complete.class);
        assertThat(today.matches()).hasSize(1);
        assertThat(today.matches().get(0).text(Attributes.PATIENT_NAME)).contains("Müller^Zoë");
        assertThat(QueryKeys.missing(worklistKeys("20260105"), today.matches().get(0)))
                .isEmpty();
        assertThat(user.find(worklistKeys("20260101-20261231"), 100, LONG).matches())
                .hasSize(2);
    }

    @Test
    @DisplayName("findscu asks our worklist")
    void worklistProvider() throws IOException {
        String port = listening(new QueryProvider(
                Uids.MODALITY_WORKLIST_INFORMATION_MODEL_FIND,
                (identifier, calling) -> new QueryProvider.Answer(
                        Stream.of(DataSet.builder()
                                .put(Attributes.PATIENT_NAME, "Muster^Max")
                                .put(
                                        Attributes.SCHEDULED_PROCEDURE_STEP_SEQUENCE,
                                        List.of(scheduledStep(
                                                identifier
                                                        .items(Attributes.SCHEDULED_PROCEDURE_STEP_SEQUENCE)
                                                        .get(0)
                                                        .text(Attributes.MODALITY)
                                                        .orElseThrow(),
                                                "20260105")))
                                .build()),
                        true)));
        String output = Tool.run(
                        folder,
                        "findscu",
                        "-v",
                        "-W",
                        "-aec",
                        "ARCHIVE",
                        "-k",
                        "ScheduledProcedureStepSequence[0].Modality=XC",
                        "-k",
                        "PatientName",
                        "127.0.0.1",
                        port)
                .succeeded()
                .output();
        assertThat(output).contains("Muster^Max").contains("STEP1").contains("[XC]");
    }
}
