package vestibule.bridge.view;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import vestibule.bridge.settings.Settings;
import vestibule.dicom.jpeg.Turn;

@DisplayName("Views of photographs whose bytes lie under several names, and of parts of a sitting")
class SeveralNamesTest {

    private static final ViewRules RULES =
            ViewRules.of(Settings.NONE.views(), Settings.NONE.sets(), CodingProfile.DENTAL, Optional.empty());

    private static Shot called(String... names) {
        return called(Frame.LANDSCAPE, names);
    }

    private static Shot called(Frame frame, String... names) {
        return new Shot(
                names[0], List.of(names), Optional.of(frame), Turn.NONE, List.of(), List.of(), Optional.empty());
    }

    private static ViewRuling one(String... names) {
        return new SittingViews(RULES).decide(List.of(called(names))).rulings().get(0);
    }

    private static ViewReason reason(ViewRuling ruling) {
        return ((ViewRuling.InDoubt) ruling).reason();
    }

    @Test
    @DisplayName("the words of every name count: one names the view, two contradict")
    void names() {
        ViewRuling placed = one("IMG_0001.JPG", "sorted/teeth-front-apart.JPG");
        assertThat(((ViewRuling.Placed) placed).placement().view().id()).isEqualTo("teeth-front-apart");
        assertThat(reason(one("teeth-front-occlusion.JPG", "sorted/teeth-front-apart.JPG")))
                .isEqualTo(ViewReason.SEVERAL_VIEWS_NAMED);
        assertThat(reason(one(
                        "occlusal-maxillary-mirror mirror-front.JPG", "occlusal-maxillary-mirror mirror-behind.JPG")))
                .isEqualTo(ViewReason.SEVERAL_CAPTURES_NAMED);
    }

    @ParameterizedTest(name = "{0}, called {1}: {2}")
    @DisplayName(
            "what is filed is contradicted by a name that says another capture; direct says no other than mirrored back")
    @CsvSource({
        "MIRROR_FLIPPED, capture-direct, false",
        "MIRROR_FLIPPED, mirror-flipped, false",
        "MIRROR_FLIPPED, mirror-front, true",
        "MIRROR_FRONT, capture-direct, true",
        "MIRROR_FRONT, direct composite, false",
    })
    void contradicted(Capture filed, String word, boolean contradicted) {
        Shot.Before before = new Shot.Before(
                "occlusal-maxillary-mirror",
                Optional.empty(),
                Optional.of(10),
                Optional.of(filed),
                Laid.UNSAID,
                false,
                false,
                false);
        Shot shot = new Shot(
                "photo",
                List.of("occlusal-maxillary-mirror_" + word + ".JPG"),
                Optional.of(Frame.LANDSCAPE),
                Turn.NONE,
                List.of(),
                List.of(),
                Optional.of(before));
        assertThat(new SittingViews(RULES).contradictedByName(shot)).isEqualTo(contradicted);
    }

    @Test
    @DisplayName("the order of a part of a sitting proposes nothing, though the whole would be a set")
    void part() {
        String id = "ortho-records-8";
        PhotoSet set = RULES.sets().set(id).orElseThrow();
        List<Shot> shots = set.places().stream()
                .map(place -> called(
                        RULES.views().view(place.views().get(0)).orElseThrow().frame(),
                        "%s/IMG_%04d.JPG".formatted(id, place.position())))
                .toList();
        assertThat(new SittingViews(RULES).decide(shots).rulings())
                .anyMatch(ruling -> reason(ruling) == ViewReason.ORDER_PROPOSES);
        assertThat(new SittingViews(RULES).decideWithoutOrder(shots).rulings())
                .allMatch(ruling -> reason(ruling) == ViewReason.VIEW_NOT_SAID);
    }
}
