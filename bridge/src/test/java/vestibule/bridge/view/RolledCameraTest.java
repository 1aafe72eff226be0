package vestibule.bridge.view;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import vestibule.dicom.jpeg.Turn;

@DisplayName("A camera that is rolled by a quarter turn for its mirror pictures (trade facts F-15)")
class RolledCameraTest {

    private static final String UPPER = "occlusal-maxillary-mirror";

    private static ViewRules rules(Optional<MirrorSetUp> setUp, Choice... choices) {
        Customs customs = new Customs(
                Set.of(choices),
                "en",
                Map.of(),
                Map.of(),
                Optional.empty(),
                setUp.map(way -> Map.of("OKULAR R", way)).orElse(Map.of()),
                DirectSetUp.FRONT,
                Map.of(),
                Tooth.Notation.ISO_3950);
        return ViewRules.of(customs, SetCustoms.USUAL, CodingProfile.DENTAL, Optional.empty());
    }

    private static Placement place(ViewRules rules, String view, Optional<Capture> capture, Optional<String> like)
            throws ContradictionException {
        return rules.place(
                rules.views().view(view).orElseThrow(),
                capture,
                Optional.empty(),
                like.flatMap(rules.views()::view),
                List.of(),
                List.of("OKULAR R"));
    }

    private static Placement place(ViewRules rules, String view) throws ContradictionException {
        return place(rules, view, Optional.empty(), Optional.empty());
    }

    /** Rolled right, a camera has at the right edge of its picture what lies below, and at the bottom what lies left; rolled left, the contrary. */
    private static Orientation recorded(MirrorSetUp setUp, View view) {
        View.Recorded upright = setUp.capture() == Capture.MIRROR_FRONT ? view.front() : view.behind();
        Orientation lies =
                Orientation.parse(upright.orientation().orElseThrow()).orElseThrow();
        Orientation halfTurned = lies.after(Turn.ROTATE_180);
        return setUp.name().endsWith("RIGHT")
                ? new Orientation(/* rows= */ lies.columns(), /* columns= */ halfTurned.rows())
                : new Orientation(/* rows= */ halfTurned.columns(), /* columns= */ lies.rows());
    }

    @ParameterizedTest
    @EnumSource(names = {"FRONT_ROLLED_RIGHT", "FRONT_ROLLED_LEFT", "BEHIND_ROLLED_RIGHT", "BEHIND_ROLLED_LEFT"})
    @DisplayName("ends with the letters of the finished picture in every mirror view, however the practice lays it")
    void everyView(MirrorSetUp setUp) throws ContradictionException {
        for (Choice[] choices : List.of(new Choice[0], Choice.values())) {
            ViewRules rules = rules(Optional.of(setUp), choices);
            for (View view : rules.views().views()) {
                if (view.mirror() == View.Mirror.ALWAYS) {
                    Placement placement = place(rules, view.id());
                    assertThat(placement.correction())
                            .as(view.id())
                            .hasValueSatisfying(flip -> assertThat(flip.turn().exchangesAxes() && flip.mirrors())
                                    .isTrue());
                    Orientation finished = Orientation.parse(
                                    placement.orientation().orElseThrow())
                            .orElseThrow();
                    assertThat(recorded(setUp, view).turnTo(finished))
                            .as(view.id())
                            .contains(placement.putRight());
                }
            }
        }
    }

    @ParameterizedTest
    @EnumSource(names = {"FRONT_ROLLED_RIGHT", "FRONT_ROLLED_LEFT", "BEHIND_ROLLED_RIGHT", "BEHIND_ROLLED_LEFT"})
    @DisplayName("is rolled one way for the arches and for the side views, outer and inner")
    void oneRollForAllViews(MirrorSetUp setUp) throws ContradictionException {
        ViewRules rules = rules(Optional.of(setUp));
        ViewRules held =
                rules(Optional.of(setUp.capture() == Capture.MIRROR_FRONT ? MirrorSetUp.FRONT : MirrorSetUp.BEHIND));
        for (String view : List.of(
                UPPER,
                "occlusal-mandibular-mirror",
                "palatal-maxillary-anterior",
                "teeth-buccal-right-mirror",
                "teeth-buccal-left-mirror",
                "palatal-maxillary-right",
                "lingual-mandibular-left")) {
            Turn unrolled = place(rules, view)
                    .putRight()
                    .then(place(held, view).putRight().inverse());
            assertThat(unrolled).as(view).isEqualTo(setUp.roll().inverse());
        }
    }

    @ParameterizedTest(name = "{0}: arches {1}, sides {2}")
    @DisplayName("needs contrary flips for arches and sides; the words that named one flip for all are told so")
    @CsvSource({
        "FRONT_ROLLED_RIGHT, TRANSVERSE, TRANSPOSE, front-transverse, front-transpose",
        "FRONT_ROLLED_LEFT, TRANSPOSE, TRANSVERSE, front-transpose, front-transverse",
        "BEHIND_ROLLED_RIGHT, TRANSPOSE, TRANSVERSE, behind-transpose, behind-transverse",
        "BEHIND_ROLLED_LEFT, TRANSVERSE, TRANSPOSE, behind-transverse, behind-transpose",
    })
    void contraryFlips(MirrorSetUp setUp, Correction arches, Correction sides, String ofArches, String ofSides)
            throws ContradictionException {
        ViewRules rules = rules(Optional.of(setUp));
        for (String arch : List.of(UPPER, "occlusal-mandibular-mirror", "lingual-mandibular-anterior")) {
            assertThat(place(rules, arch).correction()).as(arch).contains(arches);
        }
        for (String side : List.of("teeth-buccal-right-mirror", "lingual-mandibular-left")) {
            assertThat(place(rules, side).correction()).as(side).contains(sides);
        }
        assertThat(place(rules, "tooth-closeup", Optional.of(setUp.capture()), Optional.of("palatal-maxillary-right"))
                        .correction())
                .as("a close-up is as the view it is like")
                .contains(sides);
        assertThat(MirrorSetUp.insteadOf(ofArches).orElseThrow())
                .contains(setUp.word() + " does for upper and lower arches");
        assertThat(MirrorSetUp.insteadOf(ofSides).orElseThrow()).contains("and " + setUp.word() + " for buccal views");
        assertThat(MirrorSetUp.parse(ofArches)).isEmpty();
        assertThat(MirrorSetUp.insteadOf(setUp.word())).isEmpty();
    }

    @ParameterizedTest
    @EnumSource(names = {"FRONT_ROLLED_RIGHT", "FRONT_ROLLED_LEFT", "BEHIND_ROLLED_RIGHT", "BEHIND_ROLLED_LEFT"})
    @DisplayName("is so too for a picture of which a person or a name says its capture, and for none that says another")
    void named(MirrorSetUp setUp) throws ContradictionException {
        ViewRules rules = rules(Optional.of(setUp));
        Optional<Capture> capture = Optional.of(setUp.capture());
        Optional<Correction> expected = place(rules, UPPER).correction();
        assertThat(place(rules, UPPER, capture, Optional.empty()).correction()).isEqualTo(expected);
        ViewRuling.Placed named = (ViewRuling.Placed) new SittingViews(rules)
                .decide(List.of(new Shot(
                        "photo",
                        List.of(UPPER + "_" + setUp.capture().word() + ".JPG"),
                        Optional.of(Frame.PORTRAIT),
                        Turn.NONE,
                        List.of("OKULAR R"),
                        List.of(),
                        Optional.empty())))
                .rulings()
                .get(0);
        assertThat(named.placement().correction()).isEqualTo(expected);
        assertThat(named.correction())
                .as("which its decision keeps, for the object knows no camera")
                .isEqualTo(expected);
        Capture other = setUp.capture() == Capture.MIRROR_FRONT ? Capture.MIRROR_BEHIND : Capture.MIRROR_FRONT;
        assertThat(place(rules, UPPER, Optional.of(other), Optional.empty()))
                .isEqualTo(place(rules(Optional.empty()), UPPER, Optional.of(other), Optional.empty()));
        assertThat(rules.decided(
                        rules.views().view(UPPER).orElseThrow(),
                        capture,
                        Laid.UNSAID,
                        Optional.empty(),
                        List.of(),
                        List.of("OKULAR R")))
                .as("what was decided before the settings said so stays")
                .isEqualTo(place(rules(Optional.empty()), UPPER, capture, Optional.empty()));
    }

    @Test
    @DisplayName("is said with words that name a roll and no flip")
    void words() {
        assertThat(Stream.of(MirrorSetUp.values()).map(MirrorSetUp::word))
                .containsExactly(
                        "front",
                        "behind",
                        "front-rolled-right",
                        "front-rolled-left",
                        "behind-rolled-right",
                        "behind-rolled-left",
                        "in-camera");
    }
}
