package vestibule.conformance.job;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import vestibule.bridge.delivery.Destination;
import vestibule.bridge.delivery.PhotographSearch;
import vestibule.conformance.peer.ArchiveUnderTest;
import vestibule.conformance.peer.DcmtkWorklist;
import vestibule.conformance.peer.OrthancProcess;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.io.DicomFile;
import vestibule.dicom.io.TransferSyntax;
import vestibule.dicom.net.Deadlines;
import vestibule.samples.PhotoSize;
import vestibule.samples.Samples;

@DisplayName("The study that photographs join, beside radiographs of the same visit on Orthanc")
class StudiesOnServersTest {

    private static final String FRONT = "zoe-teeth-front-occlusion";

    /** The day of the sample photographs of that patient. */
    private static final String DAY = "20260312";

    @TempDir
    Path folder;

    private ArchiveUnderTest archive;

    @BeforeEach
    void start() throws IOException {
        archive = OrthancProcess.start("Utf8", "NOBODY", 1);
        Path card = Files.createDirectories(folder.resolve("card/PG-0001_1987-02-28"));
        Files.write(
                card.resolve("IMG_0001_teeth-front-occlusion.JPG"),
                Samples.jpeg(Samples.photo(FRONT), PhotoSize.THUMBNAIL));
        join("visit");
    }

    @AfterEach
    void stop() throws Exception {
        archive.close();
    }

    private void join(String how) throws IOException {
        settings("ask-archive = true", how);
    }

    private void settings(String patients, String how) throws IOException {
        Files.writeString(folder.resolve("vestibule.toml"), """
                [archive]
                url = "%s"
                proof = "read-back"
                [intake]
                settle = "1 ms"
                [patients]
                names = ["{id}_{birth}/*"]
                %s
                [study]
                join = "%s"
                """.formatted(archive.url(), patients, how));
    }

    private Commands.Said vestibule(String... words) {
        return Commands.at(folder, words);
    }

    private Commands.Said intake() {
        return vestibule("intake", folder.resolve("card").toString());
    }

    private void deliver() {
        Commands.Said ran = vestibule("run", "--until-idle");
        assertThat(ran.exit()).as(ran.err()).isZero();
    }

    /** An invented intra-oral radiograph; its pixels are a photograph's, which no archive looks at. */
    private void radiograph(String study, String date, String description) throws IOException {
        Path jpeg = Files.write(folder.resolve("r.jpg"), Samples.jpeg(Samples.photo(FRONT), PhotoSize.THUMBNAIL));
        Path wrapped = folder.resolve(study + "-wrapped.dcm");
        assertThat(Commands.run(List.of(
                                "wrap",
                                jpeg.toString(),
                                "--out",
                                wrapped.toString(),
                                "--view",
                                "teeth-front-occlusion",
                                "--patient-id",
                                "PG-0001",
                                "--patient-name",
                                "Exempel^Zoë^Åsa",
                                "--birth-date",
                                "1987-02-28",
                                "--sex",
                                "F"))
                        .exit())
                .isZero();
        DataSet object = DicomFile.read(wrapped).dataSet().toBuilder()
                .put(Attributes.SOP_CLASS_UID, "1.2.840.10008.5.1.4.1.1.1.3")
                .put(Attributes.SOP_INSTANCE_UID, study + ".1")
                .put(Attributes.SERIES_INSTANCE_UID, study + ".2")
                .put(Attributes.STUDY_INSTANCE_UID, study)
                .put(Attributes.STUDY_DATE, date)
                .put(Attributes.STUDY_TIME, "081500")
                .put(Attributes.STUDY_ID, "S7")
                .put(Attributes.ACCESSION_NUMBER, "A-7")
                .put(Attributes.STUDY_DESCRIPTION, description)
                .put(Attributes.MODALITY, "IO")
                .build();
        Path file = folder.resolve(study + ".dcm");
        DicomFile.write(file, object, TransferSyntax.JPEG_BASELINE);
        assertThat(Commands.send(List.of(file), archive.url()).exit()).isZero();
    }

    private List<DataSet> studies() throws Exception {
        return new PhotographSearch(Destination.parse(archive.url()), "VESTIBULE", Deadlines.DEFAULT)
                .studies(Optional.of("PG-0001"), Optional.empty());
    }

    @Test
    @DisplayName("that of the radiographs of the same day, with all that the archive says of it; one query finds both")
    void joined() throws Exception {
        radiograph("2.25.7001", "20250211", "Earlier radiographs");
        radiograph("2.25.7002", DAY, "Radiographs");
        assertThat(intake().exit()).isZero();
        deliver();
        assertThat(studies())
                .filteredOn(study -> study.text(Attributes.STUDY_INSTANCE_UID).equals(Optional.of("2.25.7002")))
                .singleElement()
                .satisfies(study -> {
                    assertThat(study.texts(Attributes.MODALITIES_IN_STUDY)).containsExactlyInAnyOrder("IO", "XC");
                    assertThat(study.text(Attributes.STUDY_DESCRIPTION)).contains("Radiographs");
                });
        assertThat(studies()).hasSize(2);
    }

    @Test
    @DisplayName("that of the worklist's order, with its accession number, before any of that day in the archive")
    void ordered() throws Exception {
        radiograph("2.25.7002", DAY, "Radiographs");
        try (DcmtkWorklist worklist = DcmtkWorklist.start(folder)) {
            worklist.add(PatientsOnServersTest.item(Samples.patients().get(0)));
            settings("worklist = \"" + worklist.url() + "\"", "visit");
            assertThat(intake().exit()).isZero();
        }
        settings("ask-archive = true", "visit");
        deliver();
        assertThat(studies())
                .filteredOn(study -> study.texts(Attributes.MODALITIES_IN_STUDY).equals(List.of("XC")))
                .singleElement()
                .satisfies(study -> {
                    assertThat(study.text(Attributes.STUDY_INSTANCE_UID)).contains("2.25.40001");
                    assertThat(study.text(Attributes.ACCESSION_NUMBER)).contains("A-PG-0001");
                });
    }

    @Test
    @DisplayName("two of that day: a person says which, or that it is a new one")
    void several() throws Exception {
        radiograph("2.25.7002", DAY, "Radiographs");
        radiograph("2.25.7003", DAY, "Radiographs of the afternoon");
        Commands.Said taken = intake();
        assertThat(taken.exit()).isEqualTo(1);
        assertThat(taken.out()).contains("several-studies");
        assertThat(vestibule("settle", "IMG_0001_teeth-front-occlusion.JPG", "--study", "new")
                        .exit())
                .isZero();
        deliver();
        assertThat(studies()).hasSize(3);
        assertThat(studies())
                .filteredOn(study -> study.texts(Attributes.MODALITIES_IN_STUDY).equals(List.of("XC")))
                .hasSize(1);
    }

    @Test
    @DisplayName("one of its own where the practice does not join, under the same patient all the same")
    void apart() throws Exception {
        radiograph("2.25.7002", DAY, "Radiographs");
        join("new");
        assertThat(intake().exit()).isZero();
        deliver();
        assertThat(studies()).hasSize(2);
    }

    @Test
    @DisplayName("earlier photographs of the same view are found on Orthanc and listed with the new")
    void earlier() throws Exception {
        radiograph("2.25.7001", "20250211", "Earlier radiographs");
        join("new");
        assertThat(intake().exit()).isZero();
        deliver();
        Path next = Files.createDirectories(folder.resolve("next/PG-0001_1987-02-28"));
        byte[] later = new String(
                        Samples.jpeg(Samples.photo(FRONT), PhotoSize.THUMBNAIL),
                        java.nio.charset.StandardCharsets.ISO_8859_1)
                .replace("2026:03:12", "2026:09:14")
                .getBytes(java.nio.charset.StandardCharsets.ISO_8859_1);
        Files.write(next.resolve("IMG_0007_teeth-front-occlusion.JPG"), later);
        assertThat(vestibule("intake", folder.resolve("next").toString()).exit())
                .isZero();
        Path sheet = folder.resolve("sheet.html");
        assertThat(vestibule("sheet", "--sitting", "IMG_0007_teeth-front-occlusion.JPG", "--out", sheet.toString())
                        .exit())
                .isZero();
        assertThat(Files.readString(sheet))
                .contains("Earlier photographs of the same views", "Teeth front, in occlusion: 2026-03-12, object ");
    }
}
