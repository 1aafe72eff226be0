package vestibule.bridge.view;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.MethodSource;
import vestibule.dicom.jpeg.Turn;

@DisplayName("What puts a picture right beyond the camera's own note (trade facts, section 1)")
class CorrectionTest {

    private static View view(String id) {
        return ViewCatalogue.standard().view(id).orElseThrow();
    }

    private static Placement placement(View view, Capture capture) throws ContradictionException {
        return Placement.of(view, Optional.of(capture), Optional.empty(), List.of(), CodingProfile.DENTAL);
    }

    static Stream<View> mirrorViews() {
        return ViewCatalogue.standard().views().stream().filter(view -> view.mirror() == View.Mirror.ALWAYS);
    }

    @ParameterizedTest(name = "{0} {1}: {2}, recorded {3}")
    @DisplayName("is the flip of the table, from the letters that the camera records")
    @CsvSource({
        "F-10, teeth-buccal-right-mirror, mirror-front, FLIP_HORIZONTAL, P\\F",
        "F-10, teeth-buccal-right-mirror, mirror-behind, FLIP_VERTICAL, A\\H",
        "F-11, teeth-buccal-left-mirror, mirror-front, FLIP_HORIZONTAL, A\\F",
        "F-11, teeth-buccal-left-mirror, mirror-behind, FLIP_VERTICAL, P\\H",
        "F-12, occlusal-maxillary-mirror, mirror-front, FLIP_VERTICAL, L\\A",
        "F-12, occlusal-maxillary-mirror, mirror-behind, FLIP_HORIZONTAL, R\\P",
        "F-13, occlusal-mandibular-mirror, mirror-front, FLIP_VERTICAL, L\\P",
        "F-13, occlusal-mandibular-mirror, mirror-behind, FLIP_HORIZONTAL, R\\A",
    })
    void tableOfSetUps(String fact, String id, String capture, Correction expected, String recorded)
            throws ContradictionException {
        Placement placement = placement(view(id), Capture.parse(capture).orElseThrow());
        assertThat(placement.correction()).as(fact).contains(expected);
        Orientation finished =
                Orientation.parse(placement.orientation().orElseThrow()).orElseThrow();
        assertThat(finished.after(expected.turn().inverse())).as(fact).hasToString(recorded);
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("mirrorViews")
    @DisplayName(
            "leads from the letters of the catalogue's raw set-ups to those of the finished picture, for every mirror view")
    void everyMirrorView(View view) throws ContradictionException {
        for (Capture capture : List.of(Capture.MIRROR_FRONT, Capture.MIRROR_BEHIND)) {
            Placement placement = placement(view, capture);
            View.Recorded recorded = capture == Capture.MIRROR_FRONT ? view.front() : view.behind();
            Orientation raw =
                    Orientation.parse(recorded.orientation().orElseThrow()).orElseThrow();
            assertThat(raw.after(placement.correction().orElseThrow().turn()))
                    .as("%s %s", view.id(), capture)
                    .hasToString(placement.orientation().orElseThrow());
        }
    }

    @ParameterizedTest
    @EnumSource(Correction.class)
    @DisplayName("F-03: is a mirror image for a mirror picture, a turn for a direct one, and never the other")
    void parity(Correction correction) throws ContradictionException {
        Placement mirrored = placement(view("occlusal-mandibular-mirror"), Capture.MIRROR_BEHIND);
        Placement direct = placement(view("teeth-front-apart"), Capture.DIRECT_BEHIND);
        assertThat(correction.word().startsWith("turn-"))
                .isNotEqualTo(correction.turn().mirrors());
        Placement wrong = correction.turn().mirrors() ? direct : mirrored;
        assertThatThrownBy(() -> wrong.with(correction)).isInstanceOf(ContradictionException.class);
    }

    @Test
    @DisplayName("F-14: is never a half turn for a mirror picture, whatever the view")
    void neverAHalfTurn() throws ContradictionException {
        for (View view : mirrorViews().toList()) {
            Placement placement = placement(view, Capture.MIRROR_FRONT);
            assertThatThrownBy(() -> placement.with(Correction.TURN_180))
                    .as(view.id())
                    .isInstanceOf(ContradictionException.class)
                    .hasMessageContaining("reversed");
        }
        assertThat(Correction.of(Turn.NONE)).isEmpty();
    }

    @Test
    @DisplayName("F-14: a half turn of a front shot of the upper arch looks finished and has left and right exchanged")
    void theTrap() {
        Orientation recorded = Orientation.parse("L\\A").orElseThrow();
        assertThat(recorded.after(Turn.ROTATE_180)).hasToString("R\\P");
        assertThat(recorded.after(Turn.FLIP_VERTICAL)).hasToString("L\\P");
    }

    @Test
    @DisplayName("belongs to mirror pictures only: a direct one, and every cast, is never flipped")
    void neverForDirect() throws ContradictionException {
        Placement direct = placement(view("teeth-front-occlusion"), Capture.DIRECT);
        assertThat(direct.correction()).isEmpty();
        assertThatThrownBy(() -> direct.with(Correction.FLIP_HORIZONTAL))
                .isInstanceOf(ContradictionException.class)
                .hasMessageContaining("never mirrored");
        assertThatThrownBy(() -> placement(view("cast-occlusal-maxillary"), Capture.MIRROR_FRONT))
                .isInstanceOf(ContradictionException.class)
                .hasMessageContaining("on the bench");
    }

    @Test
    @DisplayName("may be named where the camera was rolled (F-15)")
    void rolledCamera() throws ContradictionException {
        Placement placement = placement(view("occlusal-maxillary-mirror"), Capture.MIRROR_FRONT)
                .with(Correction.TRANSPOSE);
        assertThat(placement.correction()).contains(Correction.TRANSPOSE);
        assertThat(placement.orientation()).contains("L\\P");
    }

    @Test
    @DisplayName("of a close-up is that of the view it is like, and without one nobody knows it")
    void closeUpLikeAMirrorView() throws ContradictionException {
        View closeUp = view("tooth-closeup");
        Placement placement = Placement.of(
                closeUp,
                Optional.of(Capture.MIRROR_BEHIND),
                Optional.of(view("occlusal-mandibular-mirror")),
                List.of(),
                CodingProfile.DENTAL);
        assertThat(placement.correction()).contains(Correction.FLIP_HORIZONTAL);
        assertThat(placement.orientation()).contains("L\\A");
        assertThatThrownBy(() -> placement(closeUp, Capture.MIRROR_FRONT))
                .isInstanceOf(ContradictionException.class)
                .hasMessageContaining("like");
    }

    @ParameterizedTest
    @EnumSource(Turn.class)
    @DisplayName("letters follow turns, and come back with the inverse")
    void lettersComeBack(Turn turn) {
        Orientation oblique = new Orientation("LA", "F");
        assertThat(oblique.after(turn).after(turn.inverse())).isEqualTo(oblique);
        for (Turn next : Turn.values()) {
            assertThat(oblique.after(turn).after(next)).isEqualTo(oblique.after(turn.then(next)));
        }
    }
}
