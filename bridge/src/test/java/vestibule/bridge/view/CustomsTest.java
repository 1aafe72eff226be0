package vestibule.bridge.view;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Nested;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.MethodSource;
import vestibule.dicom.jpeg.Turn;

@DisplayName("What a practice does otherwise than the catalogue (trade facts, section 9)")
class CustomsTest {

    private static Customs customs(Set<Choice> choices) {
        return new Customs(
                choices,
                "en",
                Map.of(),
                Map.of(),
                Optional.empty(),
                Map.of(),
                DirectSetUp.FRONT,
                Map.of(),
                Tooth.Notation.ISO_3950);
    }

    private static Customs mirrors(MirrorSetUp everywhere, Map<String, MirrorSetUp> own) {
        return new Customs(
                Set.of(),
                "en",
                Map.of(),
                Map.of(),
                Optional.ofNullable(everywhere),
                own,
                DirectSetUp.FRONT,
                Map.of(),
                Tooth.Notation.ISO_3950);
    }

    private static ViewRules rules(Customs customs) {
        return ViewRules.of(customs, SetCustoms.USUAL, CodingProfile.DENTAL, Optional.empty());
    }

    private static Placement place(ViewRules rules, String view, String capture, String... cameras)
            throws ContradictionException {
        return rules.place(
                rules.views().view(view).orElseThrow(),
                capture.isEmpty() ? Optional.empty() : Capture.parse(capture),
                Optional.empty(),
                Optional.empty(),
                List.of(),
                List.of(cameras));
    }

    @ParameterizedTest(name = "{1} is {2}: {3} {4}, {5}")
    @DisplayName("D-1, D-2, D-4: another way the finished picture lies takes another flip, and never a turn")
    @CsvSource({
        "D-1, LOWER_INCISORS_AT_TOP, occlusal-mandibular-mirror, mirror-front, R\\P, FLIP_HORIZONTAL",
        "D-1, LOWER_INCISORS_AT_TOP, occlusal-mandibular-mirror, mirror-behind, R\\P, FLIP_VERTICAL",
        "D-2, UPPER_INCISORS_AT_BOTTOM, occlusal-maxillary-mirror, mirror-front, R\\A, FLIP_HORIZONTAL",
        "D-2, UPPER_INCISORS_AT_BOTTOM, occlusal-maxillary-mirror, mirror-behind, R\\A, FLIP_VERTICAL",
        "D-4, INNER_FRONT_FLIPPED, palatal-maxillary-anterior, mirror-front, R\\FA, FLIP_HORIZONTAL",
        "D-4, INNER_FRONT_FLIPPED, lingual-mandibular-anterior, mirror-front, R\\FP, FLIP_HORIZONTAL",
    })
    void otherFlips(String point, Choice choice, String view, String capture, String lies, Correction correction)
            throws ContradictionException {
        assertThat(choice.point()).isEqualTo(point);
        Placement placement = place(rules(customs(Set.of(choice))), view, capture);
        assertThat(placement.orientation()).contains(lies);
        assertThat(placement.correction()).contains(correction);
    }

    @Test
    @DisplayName("D-5: a three-quarter view may carry the letters of the side view, and lies as it did")
    void threeQuarter() throws ContradictionException {
        ViewRules rules = rules(customs(Set.of(Choice.THREE_QUARTER_AS_SIDE)));
        assertThat(place(rules, "face-oblique-right-smile", "").orientation()).contains("A\\F");
        assertThat(place(rules, "face-oblique-left-rest", "").orientation()).contains("P\\F");
        assertThat(place(rules, "teeth-front-apart", "").orientation()).contains("L\\F");
    }

    @Test
    @DisplayName(
            "D-6: side views may be coded unpaired, with the side as modifier; a tooth of the other side still stops")
    void unpaired() throws ContradictionException {
        ViewRules rules = rules(customs(Set.of(Choice.SIDES_UNPAIRED)));
        Placement placement = place(rules, "teeth-buccal-right-direct", "");
        assertThat(placement.laterality()).contains("U");
        assertThat(placement.modifier()).map(code -> code.meaning()).contains("Right");
        assertThatThrownBy(() -> rules.place(
                        rules.views().view("teeth-buccal-right-direct").orElseThrow(),
                        Optional.empty(),
                        Optional.empty(),
                        Optional.empty(),
                        List.of(rules.views().tooth("26").orElseThrow()),
                        List.of()))
                .isInstanceOf(ContradictionException.class)
                .hasMessageContaining("right side");
    }

    @Test
    @DisplayName("D-7, D-10, D-13: the face as region, landscape faces, no flag inside the mouth")
    void coding() {
        ViewCatalogue views = ViewCatalogue.of(
                customs(EnumSet.of(Choice.REGION_FACE, Choice.FACES_LANDSCAPE, Choice.INSIDE_UNFLAGGED)));
        View face = views.view("face-front-smile").orElseThrow();
        assertThat(face.dental().region()).map(code -> code.value()).contains("89545001");
        assertThat(face.dental().structures()).isEmpty();
        assertThat(face.frame()).isEqualTo(Frame.LANDSCAPE);
        assertThat(face.recognizable()).contains(true);
        assertThat(views.view("teeth-front-apart").orElseThrow().recognizable()).isEmpty();
    }

    static Stream<Set<Choice>> everyCombination() {
        List<Set<Choice>> all = new ArrayList<>();
        Choice[] choices = Choice.values();
        for (int bits = 0; bits < 1 << choices.length; bits++) {
            Set<Choice> some = EnumSet.noneOf(Choice.class);
            for (int place = 0; place < choices.length; place++) {
                if ((bits >> place & 1) == 1) {
                    some.add(choices[place]);
                }
            }
            all.add(some);
        }
        return all.stream();
    }

    @Test
    @DisplayName("no combination of choices makes a picture mirrored, or puts a mirror picture right by a turn (F-03)")
    void everyCombinationIsSound() {
        everyCombination()
                .forEach(
                        choices -> assertThat(ViewCatalogue.of(customs(choices)).problems())
                                .as("%s", choices)
                                .isEmpty());
    }

    @Nested
    @DisplayName("How pictures by mirror are taken (D-3)")
    class Mirrors {

        @Test
        @DisplayName("is not guessed where the practice says nothing")
        void notGuessed() {
            assertThatThrownBy(() -> place(rules(Customs.USUAL), "occlusal-maxillary-mirror", ""))
                    .isInstanceOf(ContradictionException.class)
                    .hasMessageContaining("mirror-front or mirror-behind");
        }

        @ParameterizedTest
        @EnumSource(names = {"FRONT", "BEHIND"})
        @DisplayName("in front or behind: the flip follows from the view")
        void usualSetUps(MirrorSetUp setUp) throws ContradictionException {
            ViewRules rules = rules(mirrors(setUp, Map.of()));
            Placement placement = place(rules, "occlusal-maxillary-mirror", "");
            assertThat(placement.capture()).isEqualTo(setUp.capture());
            assertThat(placement)
                    .isEqualTo(place(
                            rules, "occlusal-maxillary-mirror", setUp.capture().word()));
        }

        @Test
        @DisplayName("may differ by camera and by room, the serial number before the model before the room")
        void byCamera() throws ContradictionException {
            ViewRules rules = rules(mirrors(
                    MirrorSetUp.FRONT, Map.of("OKULAR M 100", MirrorSetUp.BEHIND, "7001234", MirrorSetUp.FRONT)));
            assertThat(place(rules, "occlusal-maxillary-mirror", "", "999", "OKULAR M 100")
                            .capture())
                    .isEqualTo(Capture.MIRROR_BEHIND);
            assertThat(place(rules, "occlusal-maxillary-mirror", "", "7001234", "OKULAR M 100")
                            .capture())
                    .isEqualTo(Capture.MIRROR_FRONT);
            assertThat(place(rules, "occlusal-maxillary-mirror", "mirror-front", "OKULAR M 100")
                            .capture())
                    .as("a person's word counts more")
                    .isEqualTo(Capture.MIRROR_FRONT);
        }

        @Test
        @DisplayName("F-14: a camera that mirrors back by itself is believed only where the settings say so")
        void inCamera() throws ContradictionException {
            ViewRules told = rules(mirrors(null, Map.of("OKULAR F", MirrorSetUp.IN_CAMERA)));
            Placement placement = place(told, "occlusal-maxillary-mirror", "direct", "OKULAR F");
            assertThat(placement.capture()).isEqualTo(Capture.MIRROR_FLIPPED);
            assertThat(placement.correction()).isEmpty();
            assertThat(placement.orientation()).contains("L\\P");
            assertThatThrownBy(() -> place(told, "occlusal-maxillary-mirror", "direct", "OKULAR G"))
                    .as("another camera of the practice")
                    .isInstanceOf(ContradictionException.class);
            assertThatThrownBy(() -> place(rules(Customs.USUAL), "occlusal-maxillary-mirror", "direct", "OKULAR F"))
                    .isInstanceOf(ContradictionException.class)
                    .hasMessageContaining("one of the two is wrong");
            assertThatThrownBy(() -> place(rules(Customs.USUAL), "occlusal-maxillary-mirror", "mirror-flipped"))
                    .isInstanceOf(ContradictionException.class)
                    .hasMessageContaining("in-camera");
            assertThatThrownBy(() -> place(told, "cast-occlusal-maxillary", "mirror-flipped", "OKULAR F"))
                    .as("a cast is never mirrored")
                    .isInstanceOf(ContradictionException.class);
        }

        @ParameterizedTest(name = "{0}, {1}: {2}")
        @DisplayName("F-61: its picture is never flipped a second time, unless a person names the flip")
        @CsvSource({
            "occlusal-maxillary-mirror, mirror-front, FLIP_VERTICAL",
            "occlusal-maxillary-mirror, mirror-behind, FLIP_HORIZONTAL",
            "teeth-buccal-left-mirror, mirror-front, FLIP_HORIZONTAL",
            "palatal-maxillary-anterior, mirror-front, FLIP_VERTICAL",
        })
        void notTwice(String id, String capture, Correction flip) throws ContradictionException {
            for (ViewRules rules : List.of(
                    rules(mirrors(MirrorSetUp.IN_CAMERA, Map.of())),
                    rules(mirrors(MirrorSetUp.FRONT, Map.of("OKULAR F", MirrorSetUp.IN_CAMERA))))) {
                assertThatThrownBy(() -> place(rules, id, capture, "OKULAR F"))
                        .isInstanceOf(ContradictionException.class)
                        .hasMessageContaining("mirror-flipped")
                        .hasMessageContaining(flip.word());
                View view = rules.views().view(id).orElseThrow();
                Placement named = rules.place(
                        view,
                        Capture.parse(capture),
                        Optional.of(flip),
                        Optional.empty(),
                        List.of(),
                        List.of("OKULAR F"));
                assertThat(named.correction()).contains(flip);
                assertThat(place(rules, id, "mirror-flipped", "OKULAR F").putRight())
                        .isEqualTo(Turn.NONE);
            }
            ViewRules others = rules(mirrors(MirrorSetUp.IN_CAMERA, Map.of("OKULAR G", MirrorSetUp.FRONT)));
            assertThat(place(others, id, capture, "OKULAR G").correction())
                    .as("another camera of the practice is flipped as ever")
                    .contains(flip);
            assertThat(others.decided(
                                    others.views().view(id).orElseThrow(),
                                    Capture.parse(capture),
                                    Laid.UNSAID,
                                    Optional.empty(),
                                    List.of(),
                                    List.of())
                            .correction())
                    .as("and what was decided of it is not asked about again by an object that knows no camera")
                    .contains(flip);
        }
    }

    @Nested
    @DisplayName("Where the operator stands for direct pictures inside the mouth (D-3, F-35)")
    class Direct {

        private ViewRules behindWith(String camera) {
            return rules(new Customs(
                    Set.of(),
                    "en",
                    Map.of(),
                    Map.of(),
                    Optional.empty(),
                    Map.of(),
                    DirectSetUp.FRONT,
                    Map.of(camera, DirectSetUp.BEHIND),
                    Tooth.Notation.ISO_3950));
        }

        @Test
        @DisplayName("behind the head: half a turn, by camera or room; a person's word counts more")
        void behind() throws ContradictionException {
            ViewRules rules = behindWith("ROOM 2");
            Placement told = place(rules, "teeth-front-occlusion", "", "OKULAR M 100", "ROOM 2");
            assertThat(told.capture()).isEqualTo(Capture.DIRECT_BEHIND);
            assertThat(told.putRight()).isEqualTo(Turn.ROTATE_180);
            assertThat(told.orientation()).contains("L\\F");
            assertThat(place(rules, "teeth-front-occlusion", "", "ROOM 1").putRight())
                    .isEqualTo(Turn.NONE);
            assertThat(place(rules, "teeth-front-occlusion", "direct", "ROOM 2").putRight())
                    .isEqualTo(Turn.NONE);
        }

        @Test
        @DisplayName("says nothing of faces, of casts and of what is taken by mirror")
        void elsewhere() throws ContradictionException {
            ViewRules rules = behindWith("ROOM 2");
            for (String view : List.of("face-front-smile", "smile-front", "cast-front", "lab-work")) {
                assertThat(place(rules, view, "", "ROOM 2").putRight()).as(view).isEqualTo(Turn.NONE);
            }
            assertThatThrownBy(() -> place(rules, "occlusal-maxillary-mirror", "", "ROOM 2"))
                    .isInstanceOf(ContradictionException.class);
            assertThatThrownBy(() -> place(rules, "occlusal-maxillary-mirror", "direct-behind", "ROOM 2"))
                    .isInstanceOf(ContradictionException.class)
                    .hasMessageContaining("direct-behind");
        }

        @Test
        @DisplayName("F-03: a direct picture takes a turn and no flip, a mirror picture a flip and no turn")
        void parity() throws ContradictionException {
            ViewRules rules = rules(mirrors(MirrorSetUp.FRONT, Map.of()));
            for (Correction correction : Correction.values()) {
                Placement direct = place(rules, "teeth-front-occlusion", "direct");
                Placement mirrored = place(rules, "occlusal-maxillary-mirror", "mirror-front");
                Placement wrong = correction.mirrors() ? direct : mirrored;
                Placement right = correction.mirrors() ? mirrored : direct;
                assertThat(right.with(correction).putRight()).isEqualTo(correction.turn());
                assertThatThrownBy(() -> wrong.with(correction))
                        .as("%s", correction)
                        .isInstanceOf(ContradictionException.class);
            }
        }
    }

    @Nested
    @DisplayName("Labels (D-12)")
    class LabelsOfViews {

        @ParameterizedTest
        @MethodSource("vestibule.bridge.view.Customs#languages")
        @DisplayName("are whole, short and told apart in every language")
        void languages(String language) {
            Customs customs = new Customs(
                    Set.of(),
                    language,
                    Map.of(),
                    Map.of(),
                    Optional.empty(),
                    Map.of(),
                    DirectSetUp.FRONT,
                    Map.of(),
                    Tooth.Notation.ISO_3950);
            ViewCatalogue views = ViewCatalogue.of(customs);
            assertThat(views.problems()).isEmpty();
            if (!language.equals("en")) {
                assertThat(Labels.of(language).keySet())
                        .containsExactlyInAnyOrderElementsOf(
                                views.views().stream().map(View::id).toList());
            }
        }

        @Test
        @DisplayName("of the practice come before those of the language; two alike are told")
        void own() {
            Customs customs = new Customs(
                    Set.of(),
                    "de",
                    Map.of("smile-front", "Lachen", "smile-oblique-left", "Lachen"),
                    Map.of(),
                    Optional.empty(),
                    Map.of(),
                    DirectSetUp.FRONT,
                    Map.of(),
                    Tooth.Notation.ISO_3950);
            ViewCatalogue views = ViewCatalogue.of(customs);
            assertThat(views.view("smile-front").orElseThrow().label()).isEqualTo("Lachen");
            assertThat(views.view("lab-work").orElseThrow().label()).isEqualTo("Laborarbeit");
            assertThat(views.problems()).singleElement().asString().contains("same label");
        }
    }

    @Nested
    @DisplayName("The check of the catalogue finds")
    class Check {

        private List<String> problems(View view) {
            return CatalogueCheck.problems(List.of(view));
        }

        private View view(String id) {
            return ViewCatalogue.standard().view(id).orElseThrow();
        }

        @Test
        @DisplayName("F-14: the half turn that looks finished, as final direction and as correction")
        void theTrap() {
            View upper = view("occlusal-maxillary-mirror");
            assertThat(problems(upper.lyingAbout("R\\P"))).anyMatch(problem -> problem.contains("would be mirrored"));
            assertThat(problems(upper.lyingAbout("R\\A"))).anyMatch(problem -> problem.contains("does not give"));
        }

        @Test
        @DisplayName("letters of one axis twice, no label, and no frame")
        void forms() {
            assertThat(problems(view("teeth-front-apart").lyingAbout("L\\R"))).isNotEmpty();
            assertThat(problems(view("teeth-front-apart").labelled(" "))).isNotEmpty();
            assertThat(problems(view("teeth-front-apart").labelled("a\\b"))).isNotEmpty();
            assertThat(problems(view("teeth-front-apart").framed(List.of()))).isNotEmpty();
        }
    }
}
