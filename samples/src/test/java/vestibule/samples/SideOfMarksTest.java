package vestibule.samples;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.util.List;
import java.util.stream.Stream;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import vestibule.samples.SamplePhoto.Trait;

@DisplayName(
        "The marks of a patient lie where the Patient Orientation of the stored samples says (trade facts F-04 to F-13)")
class SideOfMarksTest {
    private static final PhotoSize SIZE = new PhotoSize(480, 360);

    /** A mark, and how far it must lie towards a direction. */
    private record Expected(Mark mark, char towards, double atLeast) {}

    static Stream<SamplePhoto> photosWithMarks() {
        return Samples.photos().stream()
                .filter(p -> !p.traits().contains(Trait.GREY))
                .filter(p -> !expected(p).isEmpty());
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("photosWithMarks")
    void marksLieOnTheSideThatTheLettersOfTheStoredRasterSay(SamplePhoto photo) throws IOException {
        BufferedImage stored = ImageIO.read(new ByteArrayInputStream(Samples.jpeg(photo, SIZE)));
        String letters = photo.storedOrientation();

        for (Expected expected : expected(photo)) {
            Mark.Found found = expected.mark()
                    .find(stored)
                    .orElseThrow(() -> new AssertionError(photo.id() + ": no " + expected.mark() + " to be seen"));
            assertThat(found.towards(expected.towards(), letters))
                    .as(
                            "%s: %s towards %s in %s, found at %s",
                            photo.id(), expected.mark(), expected.towards(), letters, found)
                    .isGreaterThan(expected.atLeast());
        }
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("leftProfiles")
    void theBirthmarkOfTheRightCheekIsNotSeenFromTheLeft(SamplePhoto photo) throws IOException {
        BufferedImage stored = ImageIO.read(new ByteArrayInputStream(Samples.jpeg(photo, SIZE)));

        assertThat(Mark.BIRTHMARK.find(stored).map(Mark.Found::area).orElse(0.0))
                .isLessThan(0.001);
    }

    static Stream<SamplePhoto> leftProfiles() {
        return Stream.of("hanako-face-profile-left-rest", "lea-face-oblique-left-rest")
                .map(Samples::photo);
    }

    /** What each view must show, from anatomy alone. */
    private static List<Expected> expected(SamplePhoto photo) {
        String view = photo.view();
        if (view.startsWith("face-front")) {
            return List.of(new Expected(Mark.BIRTHMARK, 'R', 0.55));
        }
        if (view.equals("face-profile-right-rest") || view.equals("face-oblique-right-smile")) {
            return List.of(new Expected(Mark.BIRTHMARK, 'A', 0.45), new Expected(Mark.BIRTHMARK, 'F', 0.4));
        }
        if (view.equals("smile-front") || view.startsWith("teeth-front")) {
            return List.of(new Expected(Mark.JEWEL, 'R', 0.6), new Expected(Mark.GOLD, 'R', 0.75));
        }
        if (view.startsWith("teeth-buccal-right")) {
            return List.of(
                    new Expected(Mark.GOLD, 'P', 0.5),
                    new Expected(Mark.GOLD, 'H', 0.5),
                    new Expected(Mark.JEWEL, 'A', 0.75));
        }
        if (view.startsWith("teeth-buccal-left")) {
            return List.of(new Expected(Mark.AMALGAM, 'P', 0.5), new Expected(Mark.AMALGAM, 'F', 0.5));
        }
        if (view.equals("occlusal-maxillary-mirror")) {
            return List.of(
                    new Expected(Mark.GOLD, 'R', 0.6),
                    new Expected(Mark.GOLD, 'P', 0.45),
                    new Expected(Mark.JEWEL, 'A', 0.7));
        }
        if (view.equals("occlusal-mandibular-mirror")) {
            return List.of(new Expected(Mark.AMALGAM, 'L', 0.6), new Expected(Mark.AMALGAM, 'P', 0.5));
        }
        if (view.equals("tooth-closeup") || view.equals("shade-tab") || view.equals("treatment-stage")) {
            return List.of(new Expected(Mark.JEWEL, 'R', 0.55));
        }
        return List.of();
    }
}
