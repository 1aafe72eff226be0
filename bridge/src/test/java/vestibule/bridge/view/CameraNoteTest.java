package vestibule.bridge.view;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import vestibule.dicom.jpeg.Turn;

@DisplayName("What a camera noted of its own turn, beside the flip of a mirror picture")
class CameraNoteTest {

    private static final String UPPER = "occlusal-maxillary-mirror.JPG";

    private static ViewRuling ruling(MirrorSetUp mirror, DirectSetUp direct, String name, Turn noted, Said... said) {
        Customs customs = new Customs(
                Set.of(),
                "en",
                Map.of(),
                Map.of(),
                Optional.of(mirror),
                Map.of(),
                direct,
                Map.of(),
                Tooth.Notation.ISO_3950);
        ViewRules rules = ViewRules.of(customs, SetCustoms.USUAL, CodingProfile.DENTAL, Optional.empty());
        Shot shot = new Shot(
                name, List.of(name), Optional.of(Frame.LANDSCAPE), noted, List.of(), List.of(said), Optional.empty());
        return new SittingViews(rules).decide(List.of(shot)).rulings().get(0);
    }

    private static ViewRuling front(String name, Turn noted, Said... said) {
        return ruling(MirrorSetUp.FRONT, DirectSetUp.FRONT, name, noted, said);
    }

    private static String question(ViewRuling ruling) {
        assertThat(ruling).isInstanceOf(ViewRuling.InDoubt.class);
        assertThat(((ViewRuling.InDoubt) ruling).reason()).isEqualTo(ViewReason.VIEW_CONTRADICTION);
        return ((ViewRuling.InDoubt) ruling).message();
    }

    private static Turn whole(ViewRuling ruling, Turn noted) {
        assertThat(ruling).isInstanceOf(ViewRuling.Placed.class);
        return noted.then(((ViewRuling.Placed) ruling).placement().putRight());
    }

    @ParameterizedTest(name = "{0} of {1}")
    @DisplayName(
            "F-61: a note of a mirror image asks, by mirror and directly, whatever settings and names say, until a person says the capture")
    @CsvSource({
        "FLIP_VERTICAL, occlusal-maxillary-mirror.JPG, mirror-front",
        "FLIP_HORIZONTAL, occlusal-maxillary-mirror--mirror-behind.JPG, mirror-behind",
        "TRANSPOSE, teeth-buccal-right-mirror.JPG, mirror-front",
        "FLIP_HORIZONTAL, teeth-buccal-right-direct.JPG, direct",
        "TRANSVERSE, cast-front.JPG, direct",
    })
    void mirroredNote(Turn noted, String name, String capture) {
        assertThat(question(front(name, noted))).contains("say the capture, " + capture);
        ViewRuling said = front(name, noted, new Said("capture", capture));
        assertThat(((ViewRuling.Placed) said).placement().capture().word()).isEqualTo(capture);
    }

    @ParameterizedTest(name = "{0}, {1}: {2}, or {3}")
    @DisplayName("F-14: half a turn beside a mirror asks, and both answers end as they should")
    @CsvSource({
        "FRONT, occlusal-maxillary-mirror.JPG, FLIP_VERTICAL, flip-horizontal",
        "BEHIND, occlusal-maxillary-mirror.JPG, FLIP_HORIZONTAL, flip-vertical",
        "FRONT, occlusal-mandibular-mirror--mirror-behind.JPG, FLIP_HORIZONTAL, flip-vertical",
        "FRONT_ROLLED_LEFT, occlusal-maxillary-mirror.JPG, TRANSPOSE, transverse",
    })
    void halfTurnAndMirror(MirrorSetUp mirror, String name, Turn flip, String uncounted) {
        String question = question(ruling(mirror, DirectSetUp.FRONT, name, Turn.ROTATE_180));
        assertThat(question).contains("correct-by " + uncounted);
        ViewRuling word = ruling(mirror, DirectSetUp.FRONT, name, Turn.ROTATE_180, new Said("correct-by", uncounted));
        assertThat(whole(word, Turn.ROTATE_180)).isEqualTo(flip);
    }

    @ParameterizedTest(name = "{0}, {1}, noted {2}: {3}")
    @DisplayName("F-15: a quarter turn beside one of the settings asks, and each answer ends as it should")
    @CsvSource({
        "FRONT_ROLLED_RIGHT, occlusal-maxillary-mirror.JPG, ROTATE_90, flip-vertical, flip-horizontal",
        "FRONT_ROLLED_RIGHT, occlusal-maxillary-mirror.JPG, ROTATE_270, flip-horizontal, flip-vertical",
        "FRONT_ROLLED_LEFT, teeth-buccal-right-mirror.JPG, ROTATE_90, flip-vertical, flip-horizontal",
        "BEHIND_ROLLED_LEFT, occlusal-mandibular-mirror.JPG, ROTATE_270, flip-horizontal, flip-vertical",
    })
    void quarterTurnTwice(MirrorSetUp mirror, String name, Turn noted, String asSet, String otherWay) {
        String question = question(ruling(mirror, DirectSetUp.FRONT, name, noted));
        assertThat(question)
                .contains("correct-by %s if the camera was rolled as the settings say, %s if the other way"
                        .formatted(asSet, otherWay));
        Turn alone = whole(ruling(mirror, DirectSetUp.FRONT, name, Turn.NONE), Turn.NONE);
        ViewRuling rolled = ruling(mirror, DirectSetUp.FRONT, name, noted, new Said("correct-by", asSet));
        assertThat(whole(rolled, noted)).isEqualTo(alone);
        ViewRuling other = ruling(mirror, DirectSetUp.FRONT, name, noted, new Said("correct-by", otherWay));
        assertThat(whole(other, noted)).isEqualTo(Turn.ROTATE_180.then(alone));
    }

    @Test
    @DisplayName(
            "who says the capture has not said the roll, and is asked for the flip; a mirrored note is asked about too")
    void captureIsNoRoll() {
        for (Turn noted : List.of(Turn.ROTATE_90, Turn.ROTATE_270, Turn.TRANSPOSE, Turn.TRANSVERSE)) {
            ViewRuling said = ruling(
                    MirrorSetUp.FRONT_ROLLED_LEFT,
                    DirectSetUp.FRONT,
                    UPPER,
                    noted,
                    new Said("capture", "mirror-front"));
            assertThat(question(said)).as("%s", noted).contains("turned twice", "flip-vertical");
        }
        ViewRuling other = ruling(
                MirrorSetUp.FRONT_ROLLED_LEFT,
                DirectSetUp.FRONT,
                UPPER,
                Turn.ROTATE_90,
                new Said("capture", "mirror-behind"));
        assertThat(whole(other, Turn.ROTATE_90)).isEqualTo(Turn.ROTATE_90.then(Turn.FLIP_HORIZONTAL));
    }

    @ParameterizedTest(name = "{0} of {1}")
    @DisplayName("an ordinary camera on its side, or upside down without a mirror, asks nothing")
    @CsvSource({
        "ROTATE_90, occlusal-maxillary-mirror.JPG, TRANSVERSE",
        "ROTATE_90, face-front-smile.JPG, ROTATE_90",
        "ROTATE_270, teeth-front-occlusion.JPG, ROTATE_270",
        "ROTATE_180, teeth-buccal-left-direct.JPG, ROTATE_180",
        "ROTATE_180, cast-front.JPG, ROTATE_180",
    })
    void ordinary(Turn noted, String name, Turn expected) {
        assertThat(whole(front(name, noted), noted)).isEqualTo(expected);
    }

    @ParameterizedTest(name = "{0}, direct = {1}")
    @DisplayName("half a turn that is noted beside one of settings or names asks, until a person says which counts")
    @CsvSource({"teeth-front-occlusion.JPG, BEHIND", "direct-behind/teeth-front-occlusion.JPG, FRONT"})
    void twoHalfTurns(String name, DirectSetUp direct) {
        ViewRuling ruling = ruling(MirrorSetUp.FRONT, direct, name, Turn.ROTATE_180);
        assertThat(question(ruling)).contains("direct or direct-behind");
        ViewRuling said = ruling(MirrorSetUp.FRONT, direct, name, Turn.ROTATE_180, new Said("capture", "direct"));
        assertThat(whole(said, Turn.ROTATE_180)).isEqualTo(Turn.ROTATE_180);
    }

    @ParameterizedTest
    @DisplayName("a camera that mirrors back by itself and notes a mirror image is asked about, upside down it is not")
    @CsvSource({"FLIP_HORIZONTAL, true", "ROTATE_180, false"})
    void inCamera(Turn noted, boolean asks) {
        ViewRuling ruling = ruling(MirrorSetUp.IN_CAMERA, DirectSetUp.FRONT, UPPER, noted);
        assertThat(ruling instanceof ViewRuling.InDoubt).isEqualTo(asks);
    }
}
