package vestibule.conformance.job;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import vestibule.bridge.delivery.Destination;
import vestibule.bridge.delivery.PhotographSearch;
import vestibule.conformance.peer.ArchiveUnderTest;
import vestibule.conformance.peer.OrthancProcess;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.net.Deadlines;
import vestibule.samples.PhotoSize;
import vestibule.samples.Samples;

@DisplayName("What was filed wrongly, on an archive that nobody here wrote")
class CorrectionsOnServersTest {

    private static final String PHOTO = "IMG_0001_teeth-front-occlusion.JPG";

    @TempDir
    Path folder;

    private Commands.Said vestibule(String... words) {
        return Commands.at(folder, words);
    }

    private void practice(String url) throws IOException {
        Path card = Files.createDirectories(folder.resolve("card/PG-0001"));
        Files.write(card.resolve(PHOTO), Samples.jpeg(Samples.photo("zoe-teeth-front-occlusion"), PhotoSize.THUMBNAIL));
        Files.writeString(folder.resolve("today.csv"), """
                patient-id,issuer,name,birth-date,sex
                PG-0001,PAINTED-GATE,Exempel^Zoë^Åsa,1987-02-28,F
                PG-0005,PAINTED-GATE,Mihon^Hanako,2000-02-29,F
                """);
        Files.writeString(folder.resolve("vestibule.toml"), """
                [archive]
                url = "%s"
                proof = "read-back"
                [intake]
                settle = "1 ms"
                [patients]
                names = ["{id}/*"]
                day-list = '%s'
                """.formatted(url, folder.resolve("today.csv")));
    }

    @Test
    @DisplayName("Orthanc stores the rejection note in the wrong patient's study, and both objects are read back")
    void orthanc() throws Exception {
        try (ArchiveUnderTest archive = OrthancProcess.start("Utf8", "NOBODY", 1)) {
            practice(archive.url());
            Commands.Said taken = vestibule("intake", folder.resolve("card").toString());
            assertThat(taken.exit()).as(taken.out() + taken.err()).isZero();
            assertThat(vestibule("run", "--until-idle").exit()).isZero();
            assertThat(vestibule("settle", PHOTO, "--patient", "PG-0005").out()).contains("to be taken back");
            assertThat(vestibule("run", "--until-idle").exit()).isZero();
            Commands.Said status = vestibule("status");
            assertThat(status.out()).contains("1 committed").doesNotContain("taken back");
            PhotographSearch search =
                    new PhotographSearch(Destination.parse(archive.url()), "VESTIBULE", Deadlines.DEFAULT);
            List<DataSet> wrong = search.studies(Optional.of("PG-0001"), Optional.empty());
            List<DataSet> right = search.studies(Optional.of("PG-0005"), Optional.empty());
            assertThat(wrong)
                    .singleElement()
                    .satisfies(study -> assertThat(study.texts(Attributes.MODALITIES_IN_STUDY))
                            .containsExactlyInAnyOrder("XC", "KO"));
            assertThat(right)
                    .singleElement()
                    .satisfies(study -> assertThat(study.texts(Attributes.MODALITIES_IN_STUDY))
                            .containsExactly("XC"));
        }
    }
}
