package vestibule.bridge.view;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import vestibule.dicom.jpeg.Turn;

@DisplayName("The word direct in the names of files and folders")
class DirectInNamesTest {

    private static ViewRuling ruling(DirectSetUp direct, String name, Said... said) {
        Customs customs = new Customs(
                Set.of(),
                "en",
                Map.of(),
                Map.of("OKO", "occlusal-maxillary-mirror"),
                Optional.of(MirrorSetUp.FRONT),
                Map.of(),
                direct,
                Map.of(),
                Tooth.Notation.ISO_3950);
        ViewRules rules = ViewRules.of(customs, SetCustoms.USUAL, CodingProfile.DENTAL, Optional.empty());
        Shot shot = new Shot(
                name,
                List.of(name),
                Optional.of(Frame.LANDSCAPE),
                Turn.NONE,
                List.of(),
                List.of(said),
                Optional.empty());
        return new SittingViews(rules).decide(List.of(shot)).rulings().get(0);
    }

    private static ViewReason reason(ViewRuling ruling) {
        assertThat(ruling).isInstanceOf(ViewRuling.InDoubt.class);
        return ((ViewRuling.InDoubt) ruling).reason();
    }

    @ParameterizedTest(name = "{0} as {1}")
    @DisplayName("the word direct alone, as of a filling or veneers, answers no question after the capture")
    @CsvSource({
        "16 direct composite/IMG_0031.JPG, tooth-closeup",
        "direct_composite/IMG_0031.JPG, treatment-stage",
        "direct biopsy/IMG_0031.JPG, soft-tissue-lesion",
    })
    void directIsAnOrdinaryWord(String name, String view) {
        assertThat(reason(ruling(DirectSetUp.FRONT, name, new Said("view", view))))
                .isEqualTo(ViewReason.CAPTURE_NOT_SAID);
        assertThat(((ViewRuling.Placed) ruling(DirectSetUp.FRONT, "capture-direct/" + name, new Said("view", view)))
                        .placement()
                        .capture())
                .isEqualTo(Capture.DIRECT);
    }

    @ParameterizedTest(name = "{0}")
    @DisplayName(
            "nor does it say another capture than the settings, or deny one that stands beside it: at most it asks")
    @CsvSource({
        "direct veneers/anterior-maxillary-front.JPG, VIEW_CONTRADICTION",
        "direct veneers/oko.JPG, VIEW_CONTRADICTION",
        "direct veneers/smile-front.JPG, DIRECT",
        "capture-direct/anterior-maxillary-front direct veneers.JPG, DIRECT",
        "Capture direct/anterior-maxillary-front.JPG, DIRECT",
        "direct veneers/anterior-maxillary-front direct-behind.JPG, DIRECT_BEHIND",
        "direct veneers/oko mirror-behind.JPG, MIRROR_BEHIND",
        "mirror-front direct-behind/oko.JPG, SEVERAL_CAPTURES_NAMED",
    })
    void directBesideSettings(String name, String expected) {
        ViewRuling ruling = ruling(DirectSetUp.BEHIND, name);
        String came = ruling instanceof ViewRuling.Placed placed
                ? placed.placement().capture().name()
                : ((ViewRuling.InDoubt) ruling).reason().name();
        assertThat(came).isEqualTo(expected);
    }
}
