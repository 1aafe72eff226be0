package vestibule.bridge.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.Optional;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import vestibule.bridge.archive.EmbeddedArchive;
import vestibule.bridge.delivery.ArchiveSession;
import vestibule.bridge.delivery.Destination;
import vestibule.bridge.delivery.ReadBack;
import vestibule.dicom.data.Attribute;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.dict.Dictionary;
import vestibule.dicom.io.DicomFile;
import vestibule.dicom.net.Deadlines;
import vestibule.samples.PhotoSize;
import vestibule.samples.Samples;

@DisplayName("An archive that keeps an object otherwise than it was sent, found by reading it back")
class KeptOtherwiseTest {

    @TempDir
    Path folder;

    @ParameterizedTest(name = "{0} {1}")
    @CsvSource({
        "PatientID,,another patient's data",
        "PatientBirthDate,19870227,another patient's data",
        "StudyInstanceUID,1.2.3,another study",
        "PatientOrientation,R P,side",
        "PatientOrientation,,side",
        "ImageLaterality,L,side",
        "AnatomicRegionSequence,,side",
        "AcquisitionContextDescription,view=teeth-buccal-left-direct,how it was taken",
        "Rows,8,form",
        "ICCProfile,,form"
    })
    @DisplayName("another or no patient, study, side, direction, region, view or form of the picture is not the same")
    void otherwise(String keyword, String value, String told) throws Exception {
        ReadBack.Outcome outcome = readBack(keyword, Optional.ofNullable(value));
        assertThat(outcome).isInstanceOf(ReadBack.Outcome.Different.class);
        assertThat(((ReadBack.Outcome.Different) outcome).what()).contains(told, keyword);
    }

    @ParameterizedTest(name = "{0} {1}")
    @CsvSource({"InstitutionName,ARCHIVE", "PatientComments,seen", "StudyDescription,"})
    @DisplayName(
            "what an archive fills in, or changes in words that say nothing of patient, side and picture, is its own affair")
    void itsOwnAffair(String keyword, String value) throws Exception {
        assertThat(readBack(keyword, Optional.ofNullable(value))).isEqualTo(new ReadBack.Outcome.Same());
    }

    /** What reading back comes to where the archive keeps another value there, or none. */
    private ReadBack.Outcome readBack(String keyword, Optional<String> value) throws Exception {
        Path photo = Files.write(
                folder.resolve("IMG_0001.JPG"),
                Samples.jpeg(Samples.photo("zoe-teeth-buccal-right-direct"), PhotoSize.THUMBNAIL));
        Path ours = folder.resolve("sent.dcm");
        assertThat(Ran.vestibule(
                                "wrap",
                                photo.toString(),
                                "--out",
                                ours.toString(),
                                "--view",
                                "teeth-buccal-right-direct",
                                "--patient-id",
                                "PG-0001",
                                "--patient-name",
                                "Exempel^Zoe",
                                "--birth-date",
                                "1987-02-28")
                        .exit())
                .isZero();
        try (EmbeddedArchive archive = PracticeFolder.archive(folder)) {
            String address = "dicom://127.0.0.1:%d/ARCHIVE".formatted(archive.port());
            assertThat(Ran.vestibule("send", ours.toString(), "--to", address).exit())
                    .isZero();
            change(kept(), Dictionary.standard().find(keyword).orElseThrow().attribute(), value);
            return new ReadBack(new ArchiveSession.Line(Destination.parse(address), "VESTIBULE", Deadlines.DEFAULT))
                    .compare(DicomFile.read(ours), Files.createDirectories(folder.resolve("fetched")));
        }
    }

    private Path kept() throws IOException {
        try (Stream<Path> files = Files.walk(folder.resolve("archive"))) {
            return files.filter(file -> file.toString().endsWith(".dcm"))
                    .findFirst()
                    .orElseThrow();
        }
    }

    private static void change(Path kept, Attribute attribute, Optional<String> value) throws IOException {
        DicomFile file = DicomFile.read(kept);
        DataSet.Builder changed = file.dataSet().toBuilder();
        if (value.isEmpty()) {
            changed.putEmpty(attribute);
        } else if (attribute.equals(Attributes.ROWS)) {
            changed.put(attribute, Long.parseLong(value.get()));
        } else {
            changed.put(attribute, value.get().split(" ", -1));
        }
        Path next = kept.resolveSibling("next");
        DicomFile.write(next, changed.build(), file.transferSyntax());
        Files.move(next, kept, StandardCopyOption.REPLACE_EXISTING);
    }
}
