package vestibule.bridge.view;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.stream.IntStream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Nested;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import vestibule.dicom.jpeg.Turn;

@DisplayName("Which view each photograph of a sitting shows")
class SittingViewsTest {

    private static final Customs FRONT = new Customs(
            Set.of(),
            "en",
            Map.of(),
            Map.of("OKO", "occlusal-maxillary-mirror"),
            Optional.of(MirrorSetUp.FRONT),
            Map.of(),
            DirectSetUp.FRONT,
            Map.of(),
            Tooth.Notation.ISO_3950);
    private static final Set<String> USUAL_VIEWS =
            Set.of("face-front-rest-lips-apart", "teeth-buccal-right-direct", "teeth-buccal-left-direct");

    private static SetCustoms sets(boolean acceptOrder) {
        return new SetCustoms(
                Optional.of("ortho-records-8"), acceptOrder, SetCustoms.Profile.RIGHT, USUAL_VIEWS, List.of());
    }

    private static SittingViews sittings(SetCustoms sets, Optional<PictureCheck> check) {
        return new SittingViews(ViewRules.of(FRONT, sets, CodingProfile.DENTAL, check));
    }

    private static Shot shot(String name, Frame frame, Said... said) {
        return new Shot(name, List.of(name), Optional.of(frame), Turn.NONE, List.of(), List.of(said), Optional.empty());
    }

    private static ViewRuling only(SittingReport report) {
        assertThat(report.rulings()).hasSize(1);
        return report.rulings().get(0);
    }

    private static String view(ViewRuling ruling) {
        assertThat(ruling).isInstanceOf(ViewRuling.Placed.class);
        return ((ViewRuling.Placed) ruling).placement().view().id();
    }

    private static ViewReason reason(ViewRuling ruling) {
        assertThat(ruling).isInstanceOf(ViewRuling.InDoubt.class);
        return ((ViewRuling.InDoubt) ruling).reason();
    }

    private static ViewRuling one(String name, Said... said) {
        SetCustoms none = SetCustoms.USUAL;
        return only(sittings(none, Optional.empty()).decide(List.of(shot(name, Frame.LANDSCAPE, said))));
    }

    @Nested
    @DisplayName("By name and by a person's word")
    class Words {

        @ParameterizedTest(name = "{0}")
        @DisplayName("a whole word in the name of file or folder names the view")
        @CsvSource({
            "DCIM/03_teeth-front-occlusion.JPG, teeth-front-occlusion",
            "Teeth Front Apart/IMG_0003.JPG, teeth-front-apart",
            "A/oko 2.jpg, occlusal-maxillary-mirror",
            "x/occlusal-mandibular-mirror--mirror-behind.JPG, occlusal-mandibular-mirror",
            "teeth-buccal-right-direct/IMG_1.JPG, teeth-buccal-right-direct",
        })
        void tokens(String name, String expected) {
            assertThat(view(one(name))).isEqualTo(expected);
        }

        @Test
        @DisplayName("a part of a word does not, and nothing said is a doubt")
        void noToken() {
            assertThat(reason(one("DCIM/rokoko.JPG"))).isEqualTo(ViewReason.VIEW_NOT_SAID);
            assertThat(reason(one("DCIM/IMG_0001.JPG"))).isEqualTo(ViewReason.VIEW_NOT_SAID);
        }

        @Test
        @DisplayName("the capture may stand in the name, and counts more than the practice's usual one")
        void captureInTheName() {
            ViewRuling.Placed placed = (ViewRuling.Placed) one("oko--mirror-behind.jpg");
            assertThat(placed.placement().capture()).isEqualTo(Capture.MIRROR_BEHIND);
            assertThat(placed.evidence()).contains("capture: name of file or folder");
            assertThat(((ViewRuling.Placed) one("oko.jpg")).evidence()).contains("capture: settings");
        }

        @ParameterizedTest
        @DisplayName(
                "so may that it was taken from behind, in every way of parting words, and then it is turned by half")
        @ValueSource(
                strings = {
                    "03_direct-behind_teeth-buccal-right-direct.JPG",
                    "DIRECT-BEHIND-teeth-oblique-right-apart.JPG",
                    "direct-behind.teeth-front-apart.JPG",
                    "direct-behind/teeth-front-occlusion.JPG",
                    "teeth-front-apart direct behind/IMG_1.JPG"
                })
        void fromBehindInTheName(String name) {
            ViewRuling.Placed placed = (ViewRuling.Placed) one(name);
            assertThat(placed.placement().capture()).isEqualTo(Capture.DIRECT_BEHIND);
            assertThat(placed.placement().correction()).contains(Correction.TURN_180);
        }

        @Test
        @DisplayName(
                "names of two captures, or of one that the view cannot have, are a doubt, whatever the practice's usual one is")
        void capturesThatDoNotFit() {
            assertThat(reason(one("mirror-front/oko--mirror-behind.jpg"))).isEqualTo(ViewReason.SEVERAL_CAPTURES_NAMED);
            assertThat(reason(one("oko direct-behind.jpg"))).isEqualTo(ViewReason.VIEW_CONTRADICTION);
            ViewRuling said = one("mirror-front/oko--mirror-behind.jpg", new Said("capture", "mirror-front"));
            assertThat(((ViewRuling.Placed) said).placement().capture()).isEqualTo(Capture.MIRROR_FRONT);
        }

        @Test
        @DisplayName("file and folder that name two views are a doubt, until a person says which")
        void several() {
            String name = "smile-front/teeth-front-apart.JPG";
            assertThat(reason(one(name))).isEqualTo(ViewReason.SEVERAL_VIEWS_NAMED);
        }

        @Test
        @DisplayName("a person's later word counts, and more than a name")
        void person() {
            ViewRuling ruling = one(
                    "teeth-front-apart.JPG",
                    new Said("view", "smile-front"),
                    new Said("view", "teeth-front-occlusion"));
            assertThat(view(ruling)).isEqualTo("teeth-front-occlusion");
            assertThat(((ViewRuling.Placed) ruling).evidence()).containsExactly("view: a person");
        }

        @ParameterizedTest(name = "{0}={1}: {2}")
        @DisplayName("words that do not fit stop, with a reason")
        @CsvSource({
            "view, teeth-of-hens, VIEW_WORD_UNKNOWN",
            "teeth, 99, VIEW_WORD_UNKNOWN",
            "capture, sideways, VIEW_WORD_UNKNOWN",
            "correct-by, rotate-180, VIEW_WORD_UNKNOWN",
            "set, no-such-set, VIEW_WORD_UNKNOWN",
            "teeth, 26, VIEW_CONTRADICTION",
            "capture, mirror-front, VIEW_CONTRADICTION",
            "correct-by, flip-vertical, VIEW_CONTRADICTION",
            "like, smile-front, VIEW_CONTRADICTION",
        })
        void wrongWords(String about, String value, ViewReason expected) {
            assertThat(reason(one("teeth-buccal-right-direct.JPG", new Said(about, value))))
                    .isEqualTo(expected);
        }

        @Test
        @DisplayName("a wrong word that may be a name is not repeated")
        void privateWords() {
            ViewRuling ruling = one("a.jpg", new Said("view", "Exempel^Zoë"));
            assertThat(((ViewRuling.InDoubt) ruling).message()).doesNotContain("Exempel");
        }

        @Test
        @DisplayName("teeth come from a person alone, never from the view or a name")
        void teeth() {
            assertThat(((ViewRuling.Placed) one("oko 11.jpg")).placement().teeth())
                    .isEmpty();
            ViewRuling.Placed named = (ViewRuling.Placed) one("oko.jpg", new Said("teeth", "11, 21"));
            assertThat(named.placement().teeth()).extracting(Tooth::designation).containsExactly("11", "21");
        }

        @Test
        @DisplayName("a mirror view is a doubt where neither person, name nor settings say how it was taken")
        void captureMissing() {
            SittingViews views = new SittingViews(
                    ViewRules.of(Customs.USUAL, SetCustoms.USUAL, CodingProfile.DENTAL, Optional.empty()));
            ViewRuling ruling = only(views.decide(List.of(shot("occlusal-maxillary-mirror.jpg", Frame.LANDSCAPE))));
            assertThat(reason(ruling)).isEqualTo(ViewReason.CAPTURE_NOT_SAID);
        }

        @Test
        @DisplayName("a name that the picture contradicts is a doubt; a person's word stands")
        void picture() {
            PictureCheck never = (shot, view) -> PictureCheck.Opinion.CONTRADICTS;
            SittingViews views = sittings(SetCustoms.USUAL, Optional.of(never));
            assertThat(reason(only(views.decide(List.of(shot("smile-front.jpg", Frame.LANDSCAPE))))))
                    .isEqualTo(ViewReason.PICTURE_CONTRADICTS_VIEW);
            assertThat(view(only(
                            views.decide(List.of(shot("x.jpg", Frame.LANDSCAPE, new Said("view", "smile-front")))))))
                    .isEqualTo("smile-front");
        }
    }

    /** The eight views of the usual set, in order. */
    private static List<String> eight() {
        return SetCatalogue.standard().set("ortho-records-8").orElseThrow().places().stream()
                .map(place -> place.views().get(0))
                .toList();
    }

    private static Frame frame(String view) {
        return ViewCatalogue.standard().view(view).orElseThrow().frame();
    }

    private static List<Shot> unnamed(List<String> views) {
        return IntStream.range(0, views.size())
                .mapToObj(i -> shot("IMG_%04d.JPG".formatted(i + 1), frame(views.get(i))))
                .toList();
    }

    @Nested
    @DisplayName("By order, for a set (F-68)")
    class Order {

        @Test
        @DisplayName("is a proposal for a person, not a decision")
        void proposes() {
            SittingReport report = sittings(sets(false), Optional.empty()).decide(unnamed(eight()));
            assertThat(report.rulings()).extracting(SittingViewsTest::reason).containsOnly(ViewReason.ORDER_PROPOSES);
            assertThat(report.rulings())
                    .extracting(ruling -> ((ViewRuling.InDoubt) ruling)
                            .proposal()
                            .orElseThrow()
                            .placement()
                            .view()
                            .id())
                    .containsExactlyElementsOf(eight());
            assertThat(report.missing()).isEmpty();
            assertThat(report.gaps()).hasSize(8).allMatch(SittingReport.Gap::proposed);
        }

        @Test
        @DisplayName("decides where the practice lets it and count, frames and looks agree for the whole set")
        void decides() {
            PictureCheck agrees = (shot, view) -> PictureCheck.Opinion.AGREES;
            SittingReport report = sittings(sets(true), Optional.of(agrees)).decide(unnamed(eight()));
            assertThat(report.rulings()).extracting(SittingViewsTest::view).containsExactlyElementsOf(eight());
            assertThat(report.gaps()).isEmpty();
        }

        @Test
        @DisplayName("decides nothing where one look is silent, one frame lies otherwise, or a place leaves a choice")
        void decidesNothing() {
            PictureCheck silentOnce = (shot, view) -> view.id().equals("teeth-front-occlusion")
                    ? PictureCheck.Opinion.SILENT
                    : PictureCheck.Opinion.AGREES;
            List<Shot> turned = new ArrayList<>(unnamed(eight()));
            turned.set(0, shot("IMG_0001.JPG", Frame.LANDSCAPE));
            SetCustoms choice =
                    new SetCustoms(Optional.of("ortho-records-8"), true, SetCustoms.Profile.RIGHT, Set.of(), List.of());
            for (SittingReport report : List.of(
                    sittings(sets(true), Optional.of(silentOnce)).decide(unnamed(eight())),
                    sittings(sets(true), Optional.empty()).decide(turned),
                    sittings(choice, Optional.empty()).decide(unnamed(eight())))) {
                assertThat(report.rulings()).noneMatch(ruling -> ruling instanceof ViewRuling.Placed);
            }
        }

        @Test
        @DisplayName("a proposal that is accepted is decided, one that has changed since is not")
        void accepted() {
            List<Shot> shots = new ArrayList<>(unnamed(eight()));
            shots.set(2, shot("IMG_0003.JPG", Frame.PORTRAIT, new Said("accept", "face-front-smile")));
            shots.set(3, shot("IMG_0004.JPG", Frame.LANDSCAPE, new Said("accept", "occlusal-maxillary-mirror")));
            SittingReport report = sittings(sets(false), Optional.empty()).decide(shots);
            assertThat(view(report.rulings().get(2))).isEqualTo("face-front-smile");
            assertThat(reason(report.rulings().get(3))).isEqualTo(ViewReason.PROPOSAL_CHANGED);
        }

        @Test
        @DisplayName("a look that contradicts one proposal takes back all of them")
        void contradicted() {
            PictureCheck upside = (shot, view) -> view.id().equals("occlusal-mandibular-mirror")
                    ? PictureCheck.Opinion.CONTRADICTS
                    : PictureCheck.Opinion.SILENT;
            SittingReport report = sittings(sets(false), Optional.of(upside)).decide(unnamed(eight()));
            assertThat(report.rulings())
                    .extracting(SittingViewsTest::reason)
                    .containsOnly(ViewReason.ORDER_DOES_NOT_FIT);
        }

        @Test
        @DisplayName("two sets named are a doubt for the shots without a view")
        void severalSets() {
            SittingReport report = sittings(SetCustoms.USUAL, Optional.empty())
                    .decide(List.of(
                            shot("casts-5/1.JPG", Frame.LANDSCAPE), shot("trauma/smile-front.JPG", Frame.LANDSCAPE)));
            assertThat(reason(report.rulings().get(0))).isEqualTo(ViewReason.SEVERAL_SETS_NAMED);
            assertThat(view(report.rulings().get(1))).isEqualTo("smile-front");
        }
    }

    @Nested
    @DisplayName("The gaps of a set")
    class Gaps {

        @Test
        @DisplayName("are told with what is missing, what is there twice and what lies beside it")
        void told() {
            List<Shot> shots = List.of(
                    shot("ortho-records-8/face-profile-right-rest.JPG", Frame.PORTRAIT),
                    shot("ortho-records-8/face-front-smile.JPG", Frame.PORTRAIT),
                    shot("ortho-records-8/face-front-smile 2.JPG", Frame.PORTRAIT),
                    shot("ortho-records-8/teeth-buccal-right-mirror.JPG", Frame.LANDSCAPE),
                    shot("ortho-records-8/shade-tab.JPG", Frame.LANDSCAPE));
            SittingReport report = sittings(SetCustoms.USUAL, Optional.empty()).decide(shots);
            assertThat(report.missing())
                    .extracting(place -> place.words(ViewCatalogue.standard()))
                    .containsExactly(
                            "Face front, lips relaxed or Face front, lips closed",
                            "Teeth front, in occlusion",
                            "Buccal left, in occlusion or Buccal left, in occlusion (mirror)",
                            "Upper occlusal (mirror)",
                            "Lower occlusal (mirror)");
            assertThat(report.repeats()).containsExactly("ortho-records-8/face-front-smile 2.JPG");
            assertThat(report.beside()).containsExactly("ortho-records-8/shade-tab.JPG");
        }

        @Test
        @DisplayName("Instance Number follows the set, leaves room, and what was sent keeps its number")
        void numbers() {
            Shot sent = new Shot(
                    "a",
                    List.of("IMG_1.JPG"),
                    Optional.of(Frame.PORTRAIT),
                    Turn.NONE,
                    List.of(),
                    List.of(),
                    Optional.of(new Shot.Before(
                            "face-front-smile",
                            Optional.empty(),
                            Optional.of(30),
                            Optional.empty(),
                            Laid.UNSAID,
                            true,
                            true,
                            false)));
            SittingReport report = sittings(sets(false), Optional.empty())
                    .decide(List.of(
                            sent,
                            shot("face-front-smile.JPG", Frame.PORTRAIT),
                            shot("occlusal-mandibular-mirror.JPG", Frame.LANDSCAPE),
                            shot("shade-tab.JPG", Frame.LANDSCAPE)));
            assertThat(report.rulings())
                    .extracting(ruling -> ((ViewRuling.Placed) ruling).number())
                    .containsExactly(31, 80, 120);
        }

        @Test
        @DisplayName("a stage of treatment is never guessed from the order of pairs; a folder or a person says it")
        void stages() {
            SetCustoms whitening =
                    new SetCustoms(Optional.of("whitening-pair"), false, SetCustoms.Profile.RIGHT, Set.of(), List.of());
            SittingReport report = sittings(whitening, Optional.empty())
                    .decide(List.of(
                            shot("x/smile-front.JPG", Frame.LANDSCAPE),
                            shot("after/smile-front.JPG", Frame.LANDSCAPE),
                            shot("y/smile-front.JPG", Frame.LANDSCAPE, new Said("stage", "before"))));
            assertThat(report.rulings())
                    .extracting(ruling -> ((ViewRuling.Placed) ruling).stage().orElse("-"))
                    .containsExactly("-", "after", "before");
            assertThat(report.missing()).extracting(PhotoSet.Place::position).containsExactly(2, 3, 5, 6);
        }
    }

    @Nested
    @DisplayName("A seeded practice")
    class Seeded {

        private static final int SITTINGS = Integer.getInteger("vestibule.sittings", 3_000);

        @Test
        @DisplayName("F-68: a skipped shot never shifts a label: every proposal left is true")
        void skipped() {
            long seed = 0x5eedL;
            Random random = new Random(seed);
            int proposals = 0;
            for (int sitting = 0; sitting < SITTINGS; sitting++) {
                Taken taken = take(random, true);
                SittingReport report = sittings(taken.sets, Optional.empty()).decide(taken.shots);
                for (ViewRuling ruling : report.rulings()) {
                    Optional<String> claimed = claimed(ruling);
                    if (claimed.isPresent()) {
                        proposals++;
                        assertThat(taken.same(ruling.photo(), claimed.get()))
                                .as("seed %d sitting %d: %s", seed, sitting, ruling)
                                .isTrue();
                    }
                }
                assertThat(report.gaps())
                        .as("seed %d sitting %d", seed, sitting)
                        .extracting(gap -> gap.place().position())
                        .containsAll(taken.missing);
            }
            assertThat(proposals).isGreaterThan(SITTINGS);
        }

        @Test
        @DisplayName("skipped, repeated and substituted shots: a label that counts is true, always")
        void disorder() {
            long seed = 0xd150L;
            Random random = new Random(seed);
            int decided = 0;
            for (int sitting = 0; sitting < SITTINGS; sitting++) {
                Taken taken = take(random, false);
                PictureCheck looks = (shot, view) -> taken.same(shot.photo(), view.id())
                        ? PictureCheck.Opinion.AGREES
                        : random.nextBoolean() ? PictureCheck.Opinion.SILENT : PictureCheck.Opinion.CONTRADICTS;
                SittingReport report = sittings(taken.sets, Optional.of(looks)).decide(taken.shots);
                for (ViewRuling ruling : report.rulings()) {
                    if (ruling instanceof ViewRuling.Placed placed) {
                        decided++;
                        assertThat(taken.truth)
                                .as("seed %d sitting %d", seed, sitting)
                                .containsEntry(
                                        placed.photo(),
                                        placed.placement().view().id());
                    }
                }
            }
            assertThat(decided).isGreaterThan(SITTINGS);
        }

        private Optional<String> claimed(ViewRuling ruling) {
            if (ruling instanceof ViewRuling.Placed placed) {
                return Optional.of(placed.placement().view().id());
            }
            return ((ViewRuling.InDoubt) ruling)
                    .proposal()
                    .map(placed -> placed.placement().view().id());
        }
    }

    /**
     * A sitting as it was taken.
     *
     * @param truth what each photograph shows
     * @param missing places that were skipped
     */
    private record Taken(
            SetCustoms sets, List<Shot> shots, Map<String, String> truth, List<Integer> missing, PhotoSet set) {

        /** The same view, or another that stands in the same place of the set. */
        boolean same(String photo, String view) {
            String true_ = truth.getOrDefault(photo, "");
            return true_.equals(view)
                    || set.places().stream()
                            .anyMatch(place -> place.views().contains(true_)
                                    && place.views().contains(view)
                                    && place.views().size() > 1);
        }
    }

    private static Taken take(Random random, boolean onlySkips) {
        List<PhotoSet> all = List.copyOf(SetCatalogue.standard().sets());
        PhotoSet set = all.get(random.nextInt(all.size()));
        List<Shot> shots = new ArrayList<>();
        Map<String, String> truth = new HashMap<>();
        List<Integer> missing = new ArrayList<>();
        for (PhotoSet.Place place : set.places()) {
            int times = random.nextInt(8) == 0 ? 0 : place.repeat() ? 1 + random.nextInt(2) : 1;
            times += !onlySkips && times > 0 && random.nextInt(10) == 0 ? 1 : 0;
            if (times == 0 && place.required()) {
                missing.add(place.position());
            }
            for (int i = 0; i < times; i++) {
                boolean named = random.nextInt(4) == 0;
                // A practice that says which view it usually takes keeps to it, or names the other.
                Optional<String> promised =
                        place.views().stream().filter(USUAL_VIEWS::contains).findFirst();
                boolean substitute = (named || promised.isEmpty()) && random.nextInt(10) == 0;
                String usual = promised.orElse(place.views().get(0));
                String other =
                        place.views().stream().filter(one -> !one.equals(usual)).reduce(usual, (first, last) -> last);
                String view = substitute ? other : usual;
                String photo = "IMG_%04d".formatted(shots.size());
                String stage = place.stage().map(words -> words + "/").orElse("");
                truth.put(photo, view);
                shots.add(new Shot(
                        photo,
                        List.of((named ? stage + view + " " + photo : photo) + ".JPG"),
                        Optional.of(frame(view)),
                        Turn.NONE,
                        List.of(),
                        List.of(),
                        Optional.empty()));
            }
        }
        SetCustoms customs = new SetCustoms(
                Optional.of(set.id()), random.nextBoolean(), SetCustoms.Profile.RIGHT, USUAL_VIEWS, List.of());
        return new Taken(customs, shots, truth, missing, set);
    }
}
