package vestibule.conformance.job;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import vestibule.bridge.delivery.Destination;
import vestibule.bridge.delivery.PatientSearch;
import vestibule.bridge.patient.Evidence;
import vestibule.bridge.patient.Known;
import vestibule.conformance.peer.ArchiveUnderTest;
import vestibule.conformance.peer.DcmtkWorklist;
import vestibule.conformance.peer.OrthancProcess;
import vestibule.conformance.peer.WorklistFolder;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.io.DicomFile;
import vestibule.dicom.io.TransferSyntax;
import vestibule.dicom.net.Deadlines;
import vestibule.samples.PhotoSize;
import vestibule.samples.SamplePatient;
import vestibule.samples.Samples;

@DisplayName("Patients in six scripts on servers that nobody here wrote")
class PatientsOnServersTest {

    private static final String DAY = "20260312";

    @TempDir
    Path folder;

    static DataSet item(SamplePatient patient) {
        DataSet step = DataSet.builder()
                .put(Attributes.MODALITY, "XC")
                .put(Attributes.SCHEDULED_STATION_AE_TITLE, "VESTIBULE")
                .put(Attributes.SCHEDULED_PROCEDURE_STEP_START_DATE, DAY)
                .put(Attributes.SCHEDULED_PROCEDURE_STEP_START_TIME, "0915")
                .put(Attributes.SCHEDULED_PROCEDURE_STEP_DESCRIPTION, "Records")
                .put(Attributes.SCHEDULED_PROCEDURE_STEP_ID, "S" + patient.id())
                .build();
        DataSet.Builder item = DataSet.builder();
        if (!patient.characterSet().isEmpty()) {
            item.put(Attributes.SPECIFIC_CHARACTER_SET, patient.characterSet());
        }
        item.put(Attributes.PATIENT_NAME, patient.name());
        item.put(Attributes.PATIENT_ID, patient.id());
        item.put(Attributes.ISSUER_OF_PATIENT_ID, patient.issuer());
        item.putOrEmpty(
                Attributes.PATIENT_BIRTH_DATE,
                Optional.ofNullable(patient.birthDate()).map(DateTimeFormatter.BASIC_ISO_DATE::format));
        item.put(Attributes.PATIENT_SEX, patient.sex());
        item.put(Attributes.ACCESSION_NUMBER, "A-" + patient.id());
        item.put(Attributes.STUDY_INSTANCE_UID, "2.25.4" + patient.id().replaceAll("\\D", ""));
        item.put(Attributes.REQUESTED_PROCEDURE_ID, "R" + patient.id());
        return item.put(Attributes.SCHEDULED_PROCEDURE_STEP_SEQUENCE, List.of(step))
                .build();
    }

    private interface Items {
        void add(DataSet item) throws IOException;
    }

    private static void worklist(String url, Items items) throws IOException {
        for (SamplePatient patient : Samples.patients()) {
            items.add(item(patient));
        }
        Commands.Said day = Commands.run(List.of("worklist", "--to", url, "--date", "2026-03-12", "--json"));
        assertThat(day.err()).isEmpty();
        assertThat(day.exit()).isZero();
        for (SamplePatient patient : Samples.patients()) {
            assertThat(day.out()).contains("\"" + patient.name() + "\"", "\"" + patient.id() + "\"");
        }
        assertThat(day.out()).contains("2026-03-12T09:15", "\"Records\"", "\"A-PG-0001\"", "\"2.25.40001\"");
        Commands.Said other = Commands.run(List.of("worklist", "--to", url, "--date", "2026-03-13"));
        assertThat(other.out()).isEmpty();
        Commands.Said one = Commands.run(List.of("worklist", "--to", url, "--patient-id", "PG-0003"));
        assertThat(one.out()).contains("Примерова^Нина").doesNotContain("PG-0001");
    }

    @Test
    @DisplayName("vestibule worklist reads DCMTK's worklist, each name as it was given")
    void worklistOfDcmtk() throws IOException {
        try (DcmtkWorklist server = DcmtkWorklist.start(folder)) {
            worklist(server.url(), server::add);
        }
    }

    @Test
    @DisplayName("vestibule worklist reads the worklist of Orthanc's plug-in, each name as it was given")
    void worklistOfOrthanc() throws Exception {
        try (ArchiveUnderTest server = OrthancProcess.startWithWorklist(folder)) {
            worklist(server.url(), new WorklistFolder(folder)::add);
        }
    }

    @Test
    @DisplayName(
            "photographs and a radiograph of one patient are found by one query under one patient, and the card is printed from it")
    void archive() throws Exception {
        Path jpeg = Files.write(
                folder.resolve("photo.jpg"), Samples.jpeg(Samples.photos().get(0), PhotoSize.THUMBNAIL));
        try (ArchiveUnderTest archive = OrthancProcess.start("Utf8", "NOBODY", 1)) {
            List<Path> objects = new ArrayList<>();
            for (SamplePatient patient : Samples.patients()) {
                Path photograph = folder.resolve(patient.id() + ".dcm");
                List<String> words = new ArrayList<>(List.of(
                        "wrap",
                        jpeg.toString(),
                        "--out",
                        photograph.toString(),
                        "--view",
                        "teeth-front-occlusion",
                        "--patient-id",
                        patient.id(),
                        "--issuer",
                        patient.issuer(),
                        "--patient-name",
                        patient.name(),
                        "--sex",
                        patient.sex()));
                if (patient.birthDate() != null) {
                    words.addAll(List.of("--birth-date", patient.birthDate().toString()));
                }
                assertThat(Commands.run(words).exit()).isZero();
                objects.add(photograph);
                objects.add(radiograph(photograph, patient));
            }
            assertThat(Commands.send(objects, archive.url()).exit()).isZero();
            PatientSearch search = new PatientSearch(Destination.parse(archive.url()), "VESTIBULE", Deadlines.DEFAULT);
            for (SamplePatient patient : Samples.patients()) {
                List<Known> found = search.withId(patient.id()).stream()
                        .flatMap(match -> Known.of(match, Evidence.Source.ARCHIVE).stream())
                        .toList();
                assertThat(found).as(patient.id()).hasSize(1);
                assertThat(found.get(0).patient().name()).hasToString(patient.name());
                assertThat(found.get(0).patient().birthDate()).isEqualTo(Optional.ofNullable(patient.birthDate()));
            }
            Commands.Said listed =
                    Commands.run(List.of("patients", "--to", archive.url(), "--patient-id", "PG-0001", "--json"));
            assertThat(listed.out()).containsOnlyOnce("PG-0001").contains("\"studies\":\"2\"");
            Path card = folder.resolve("card.html");
            Commands.Said printed = Commands.run(
                    List.of("patients", "--to", archive.url(), "--patient-id", "PG-0005", "--card", card.toString()));
            assertThat(printed.err()).isEmpty();
            assertThat(Files.readString(card)).contains("Mihon^Hanako=見本^花子=みほん^はなこ", "2000-02-29");
            assertThat(Commands.run(List.of(
                                    "patients",
                                    "--to",
                                    archive.url(),
                                    "--patient-id",
                                    "PG-9999",
                                    "--card",
                                    folder.resolve("none.html").toString()))
                            .exit())
                    .isEqualTo(1);
        }
    }

    /** An invented radiograph: the pixels are the photograph's, but to an archive it is a digital intra-oral one of another study. */
    private Path radiograph(Path photograph, SamplePatient patient) throws IOException {
        DicomFile file = DicomFile.read(photograph);
        String sopClass = "1.2.840.10008.5.1.4.1.1.1.3";
        DataSet object = file.dataSet().toBuilder()
                .put(Attributes.SOP_CLASS_UID, sopClass)
                .put(Attributes.SOP_INSTANCE_UID, "2.25.71" + patient.id().replaceAll("\\D", ""))
                .put(Attributes.STUDY_INSTANCE_UID, "2.25.72" + patient.id().replaceAll("\\D", ""))
                .put(Attributes.SERIES_INSTANCE_UID, "2.25.73" + patient.id().replaceAll("\\D", ""))
                .put(Attributes.MODALITY, "IO")
                .build();
        Path target = folder.resolve(patient.id() + "-radiograph.dcm");
        DicomFile.write(target, object, TransferSyntax.JPEG_BASELINE);
        return target;
    }
}
