package vestibule.bridge.view;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Nested;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import vestibule.dicom.data.Code;

@DisplayName("What a decision about the view comes to")
class PlacementTest {

    private static final ViewCatalogue CATALOGUE = ViewCatalogue.standard();

    private static Placement place(String view, String capture, String like, String... teeth)
            throws ContradictionException {
        return Placement.of(
                CATALOGUE.view(view).orElseThrow(),
                capture.isEmpty() ? Optional.empty() : Capture.parse(capture),
                like.isEmpty() ? Optional.empty() : CATALOGUE.view(like),
                Arrays.stream(teeth)
                        .map(tooth -> CATALOGUE.tooth(tooth).orElseThrow())
                        .toList(),
                CodingProfile.DENTAL);
    }

    @ParameterizedTest(name = "{0}: {1}, side {2}")
    @DisplayName("Patient Orientation and Image Laterality of a view (PS3.3 C.7.6.1.1.1; trade facts F-04, F-05, F-06)")
    @CsvSource({
        "face-front-smile,              L\\F,  U",
        "face-profile-right-rest,       A\\F,  U",
        "face-profile-left-rest,        P\\F,  U",
        "face-oblique-right-smile,      LA\\F, U",
        "teeth-front-occlusion,         L\\F,  B",
        "teeth-buccal-right-direct,     A\\F,  R",
        "teeth-buccal-left-direct,      P\\F,  L",
        "cast-occlusal-maxillary,       L\\P,  B",
        "cast-occlusal-mandibular,      L\\A,  B",
    })
    void directViewsHaveTheirDirection(String view, String orientation, String side) throws ContradictionException {
        Placement placement = place(view, "", "");
        assertThat(placement.orientation()).contains(orientation);
        assertThat(placement.laterality()).contains(side);
        assertThat(placement.capture()).isEqualTo(Capture.DIRECT);
    }

    @Test
    @DisplayName(
            "a corrected mirror view of the upper arch reads L\\P, incisors at the top, the patient's right on the left (F-05)")
    void correctedMirrorViewReadsAsDirect() throws ContradictionException {
        assertThat(place("occlusal-maxillary-mirror", "mirror-front", "").orientation())
                .contains("L\\P");
        assertThat(place("occlusal-mandibular-mirror", "mirror-behind", "").orientation())
                .contains("L\\A");
    }

    @Test
    @DisplayName(
            "a close-up of which the catalogue names no others lies like any view of the patient, and only like one")
    void lesionAnywhere() throws ContradictionException {
        Placement placement = place("soft-tissue-lesion", "mirror-front", "occlusal-maxillary-mirror");
        assertThat(placement.orientation()).contains("L\\P");
        assertThat(placement.correction()).contains(Correction.FLIP_VERTICAL);
        for (String other : List.of("cast-occlusal-maxillary", "lab-work", "tooth-closeup")) {
            assertThatThrownBy(() -> place("soft-tissue-lesion", "direct", other))
                    .isInstanceOf(ContradictionException.class)
                    .hasMessageContaining("any view of the patient that has one of its own");
        }
    }

    @Nested
    @DisplayName("Doubt stops")
    class Doubt {

        @ParameterizedTest
        @DisplayName("a view that may be taken by mirror needs the capture said")
        @ValueSource(strings = {"occlusal-maxillary-mirror", "teeth-buccal-right-mirror", "tooth-closeup"})
        void mirrorMustBeSaid(String view) {
            assertThatThrownBy(() -> place(view, "", ""))
                    .isInstanceOf(ContradictionException.class)
                    .hasMessageContaining("mirror-front or mirror-behind");
        }

        @ParameterizedTest
        @DisplayName("and of a view that is always taken by mirror only by which")
        @ValueSource(strings = {"occlusal-maxillary-mirror", "teeth-buccal-right-mirror"})
        void onlyWhatCanBeRightIsOffered(String view) {
            assertThatThrownBy(() -> place(view, "", ""))
                    .hasMessageContaining("is taken by mirror")
                    .hasMessageContaining("say mirror-front or mirror-behind");
        }

        @Test
        @DisplayName("a direct view was not taken by mirror")
        void directViewIsNotMirrored() {
            assertThatThrownBy(() -> place("teeth-front-occlusion", "mirror-front", ""))
                    .hasMessageContaining("one of the two is wrong");
        }

        @ParameterizedTest
        @DisplayName("a view by mirror is never filed as if it had been taken directly (F-14)")
        @ValueSource(strings = {"occlusal-maxillary-mirror", "teeth-buccal-left-mirror", "lingual-mandibular-right"})
        void mirrorViewIsNotDirect(String view) {
            assertThatThrownBy(() -> place(view, "direct", "")).hasMessageContaining("one of the two is wrong");
        }

        @Test
        @DisplayName("a close-up by mirror needs the view it is like, for that decides which flip puts it right (F-03)")
        void mirroredCloseUpNeedsItsDirection() {
            assertThatThrownBy(() -> place("tooth-closeup", "mirror-front", ""))
                    .hasMessageContaining("depends on the view it is like");
        }

        @ParameterizedTest
        @DisplayName("casts and bench pictures are never mirrored (F-03)")
        @ValueSource(strings = {"cast-buccal-right", "cast-occlusal-maxillary", "lab-work"})
        void castsAreNeverMirrored(String view) {
            assertThatThrownBy(() -> place(view, "mirror-behind", "")).hasMessageContaining("on the bench");
        }

        @ParameterizedTest(name = "{0} with tooth {1}")
        @DisplayName("a tooth of the other side or the other arch contradicts the view")
        @CsvSource({
            "teeth-buccal-right-direct, 26, side",
            "teeth-buccal-right-direct, 33, side",
            "teeth-buccal-left-direct,  16, side",
            "cast-occlusal-maxillary,   36, upper arch",
            "cast-occlusal-mandibular,  11, lower arch",
            "anterior-maxillary-front,  41, upper arch",
        })
        void toothMustLieOnTheView(String view, String tooth, String contradiction) {
            assertThatThrownBy(() -> place(view, "", "", tooth))
                    .isInstanceOf(ContradictionException.class)
                    .hasMessageContaining(contradiction)
                    .hasMessageContaining(tooth);
        }

        @Test
        @DisplayName("a close-up shares the direction only of a view it may share it with")
        void likeMustFit() {
            assertThatThrownBy(() -> place("tooth-closeup", "direct", "face-front-smile"))
                    .hasMessageContaining("it may with");
            assertThatThrownBy(() -> place("face-front-smile", "", "teeth-front-apart"))
                    .hasMessageContaining("takes none from");
        }
    }

    @Nested
    @DisplayName("A close-up or a stage of treatment")
    class CloseUp {

        @Test
        @DisplayName("has no direction and no side until somebody names the view it is like")
        void saysNothingThatNobodySaid() throws ContradictionException {
            Placement placement = place("treatment-stage", "direct", "");
            assertThat(placement.orientation()).isEmpty();
            assertThat(placement.laterality()).isEmpty();
        }

        @Test
        @DisplayName("takes direction, region and side from the view it is like")
        void sharesDirection() throws ContradictionException {
            Placement placement = place("treatment-stage", "direct", "teeth-buccal-left-direct");
            assertThat(placement.orientation()).contains("P\\F");
            assertThat(placement.laterality()).contains("L");
            assertThat(placement.modifier()).map(Code::meaning).contains("Left");
        }

        @ParameterizedTest(name = "teeth {0}: {1}")
        @DisplayName("takes its side from the teeth a person named: quadrants 1, 4, 5, 8 right; 2, 3, 6, 7 left")
        @CsvSource({"11, R", "46, R", "53, R", "21, L", "36, L", "75, L", "11 21, B"})
        void sideFollowsTeeth(String teeth, String side) throws ContradictionException {
            Placement placement = place("tooth-closeup", "direct", "teeth-front-occlusion", teeth.split(" "));
            assertThat(placement.laterality()).contains(side);
        }

        @Test
        @DisplayName("codes the teeth that a person named, and no others")
        void codesTeeth() throws ContradictionException {
            Placement placement = place("shade-tab", "", "", "21");
            // PS3.16 CID 4018, 2024c
            assertThat(placement.structures())
                    .containsExactly(new Code("424399000", "SCT", "Permanent maxillary left central incisor tooth"));
        }
    }

    @Test
    @DisplayName("every view of the catalogue can be placed, and its parents are views")
    void catalogueIsWhole() throws ContradictionException {
        assertThat(CATALOGUE.views()).hasSize(48);
        for (View view : CATALOGUE.views()) {
            Optional<Capture> capture = switch (view.mirror()) {
                case NEVER -> Optional.empty();
                case ALWAYS -> Optional.of(Capture.MIRROR_FRONT);
                case EITHER -> Optional.of(Capture.DIRECT);
            };
            for (CodingProfile profile : CodingProfile.values()) {
                Placement placement = Placement.of(view, capture, Optional.empty(), List.of(), profile);
                assertThat(placement.view()).isEqualTo(view);
            }
            assertThat(view.directions()).allMatch(id -> CATALOGUE.view(id).isPresent());
            assertThat(view.teethToOffer())
                    .allMatch(tooth -> CATALOGUE.tooth(tooth).isPresent());
        }
    }
}
