package vestibule.bridge.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import vestibule.bridge.view.Choice;
import vestibule.bridge.view.CodingProfile;
import vestibule.bridge.view.View;
import vestibule.bridge.view.ViewCatalogue;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.io.DicomFile;
import vestibule.samples.PhotoSize;
import vestibule.samples.Samples;
import vestibule.validator.Profile;
import vestibule.validator.Report;
import vestibule.validator.Severity;
import vestibule.validator.Validator;

/** The disputed points are those of the trade facts, section 9. */
@DisplayName("Whatever way of coding the settings offer")
class OtherCodingsTest {

    @TempDir
    Path folder;

    private Path photo;

    @BeforeEach
    void photograph() throws IOException {
        Files.createDirectory(folder.resolve("objects"));
        photo = Files.write(
                folder.resolve("photo.jpg"),
                Samples.jpeg(Samples.photo("zoe-teeth-front-occlusion"), PhotoSize.THUMBNAIL));
    }

    /** Each coding with the usual ways, with each other way alone that changes what is coded, and with all other ways together. */
    static Stream<String> settings() {
        List<List<Choice>> choices = new ArrayList<>();
        choices.add(List.of());
        Stream.of(Choice.SIDES_UNPAIRED, Choice.REGION_FACE, Choice.INSIDE_UNFLAGGED)
                .map(List::of)
                .forEach(choices::add);
        choices.add(List.of(Choice.values()));
        return Arrays.stream(CodingProfile.values())
                .flatMap(coding -> choices.stream().map(some -> settings(coding, some)));
    }

    private static String settings(CodingProfile coding, List<Choice> choices) {
        StringBuilder text = new StringBuilder("[practice]\ncoding = \"%s\"\n[views]\n".formatted(coding.word()));
        choices.forEach(choice -> text.append("%s = \"%s\"\n".formatted(choice.key(), choice.other())));
        return text.toString();
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("settings")
    @DisplayName("every view passes the gate, and all of them in one batch are no error to the practice's profile")
    void everyView(String settings) throws IOException {
        Path config = Files.writeString(folder.resolve("vestibule.toml"), settings);
        List<String> refused = new ArrayList<>();
        for (View view : ViewCatalogue.standard().views()) {
            Ran ran = wrap(config, view, view.teethToOffer());
            if (ran.exit() != 0) {
                refused.add(view.id() + ": " + ran.err());
            }
        }
        assertThat(refused).isEmpty();
        Report report = Validator.under(Profile.PRACTICE).validate(List.of(folder.resolve("objects")));
        assertThat(report.objects())
                .hasSizeGreaterThan(ViewCatalogue.standard().views().size())
                .allSatisfy(object -> assertThat(object.errors()).isEmpty());
        assertThat(report.whole().findings()).noneMatch(finding -> finding.severity() == Severity.ERROR);
    }

    @Test
    @DisplayName("a face seen from the right is unpaired, with the side beside its region")
    void unpaired() throws IOException {
        Path config = Files.writeString(folder.resolve("vestibule.toml"), settings(CodingProfile.ORTHO, List.of()));
        View profile = ViewCatalogue.standard().view("face-profile-right-rest").orElseThrow();
        assertThat(wrap(config, profile, List.of()).exit()).isZero();
        DataSet object = DicomFile.read(folder.resolve("objects/face-profile-right-rest.dcm"))
                .dataSet();
        assertThat(object.text(Attributes.IMAGE_LATERALITY)).contains("U");
        DataSet side = object.items(Attributes.ANATOMIC_REGION_SEQUENCE)
                .get(0)
                .items(Attributes.ANATOMIC_REGION_MODIFIER_SEQUENCE)
                .get(0);
        assertThat(side.text(Attributes.CODE_VALUE)).contains("24028007");
    }

    private Ran wrap(Path config, View view, List<String> teeth) {
        View seen = view.directions().isEmpty()
                ? view
                : ViewCatalogue.standard().view(view.directions().get(0)).orElseThrow();
        List<String> words = new ArrayList<>(List.of(
                "wrap",
                photo.toString(),
                "--out",
                folder.resolve("objects/" + view.id() + ".dcm").toString(),
                "--view",
                view.id(),
                "--capture",
                seen.mirror() == View.Mirror.ALWAYS ? "mirror-front" : "direct",
                "--edge",
                "trim"));
        words.addAll(
                List.of("--patient-id", "PG-0001", "--patient-name", "Exempel^Zoë", "--config", config.toString()));
        if (seen.mirror() == View.Mirror.ALWAYS) {
            words.addAll(List.of(
                    "--raw-out",
                    folder.resolve("objects/" + view.id() + "-raw.dcm").toString()));
        }
        if (!seen.equals(view)) {
            words.addAll(List.of("--like", seen.id()));
        }
        if (!teeth.isEmpty()) {
            words.addAll(List.of("--teeth", String.join(",", teeth)));
        }
        return Ran.vestibule(words.toArray(String[]::new));
    }
}
