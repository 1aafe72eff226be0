package vestibule.conformance.job;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import vestibule.conformance.crosscheck.DcmdumpReader;
import vestibule.conformance.crosscheck.Flat;
import vestibule.conformance.crosscheck.PydicomReader;
import vestibule.conformance.peer.ArchiveUnderTest;
import vestibule.conformance.peer.Dciodvfy;
import vestibule.samples.PhotoSize;
import vestibule.samples.SamplePatient;
import vestibule.samples.SamplePhoto;
import vestibule.samples.Samples;

@TestInstance(TestInstance.Lifecycle.PER_CLASS)
@DisplayName(
        "Names of patients arrive as they were given: accents, Cyrillic, Greek, three-part Japanese (PS3.5 6.1, 6.2.1)")
class PatientNamesTest {

    private static final String NAME = "(0010,0010)";

    @TempDir
    private static Path folder;

    private final Map<SamplePatient, Path> objects = new LinkedHashMap<>();

    @BeforeAll
    void wrapOneOfEach() throws IOException {
        SamplePhoto upright = Samples.photos().stream()
                .filter(photo -> photo.exifOrientation() == 1)
                .findFirst()
                .orElseThrow();
        Path jpeg = Files.write(folder.resolve("photo.jpg"), Samples.jpeg(upright, PhotoSize.THUMBNAIL));
        for (SamplePatient patient : Samples.patients()) {
            Path target = folder.resolve(patient.id() + ".dcm");
            Commands.Said said = Commands.wrap(jpeg, target, patient.id(), patient.name());
            // The one photograph stands for views it does not show, and its frame may be said to lie unusually.
            assertThat(said.err()).matches("(vestibule wrap: .*; look whether .*\\.\\R)*");
            objects.put(patient, target);
        }
    }

    private static List<String> name(Flat reading) {
        return reading.lines().get(NAME).values();
    }

    @Test
    @DisplayName("in DCMTK")
    void dcmtk() throws IOException {
        Map<Path, Flat> readings = DcmdumpReader.read(List.copyOf(objects.values()));
        objects.forEach((patient, file) -> assertThat(name(readings.get(file))).containsExactly(patient.name()));
    }

    @Test
    @DisplayName("in pydicom")
    void pydicom() throws IOException {
        Map<Path, Optional<Flat>> readings = PydicomReader.read(List.copyOf(objects.values()));
        objects.forEach((patient, file) ->
                assertThat(name(readings.get(file).orElseThrow())).containsExactly(patient.name()));
    }

    @Test
    @DisplayName("and dciodvfy finds nothing against them")
    void dciodvfy() throws IOException {
        Dciodvfy dciodvfy = Dciodvfy.find();
        for (Path object : objects.values()) {
            assertThat(dciodvfy.findings(object)).allMatch(ExplainedWarnings::explains);
        }
    }

    @ParameterizedTest
    @DisplayName("in an archive")
    @MethodSource("vestibule.conformance.peer.ArchiveUnderTest#providers")
    void archive(ArchiveUnderTest.Provider provider) throws IOException {
        try (ArchiveUnderTest archive = provider.start()) {
            assertThat(Commands.send(List.copyOf(objects.values()), archive.url())
                            .exit())
                    .isZero();
            assertThat(archive.patientNames())
                    .containsExactlyInAnyOrderElementsOf(
                            objects.keySet().stream().map(SamplePatient::name).toList());
        }
    }
}
