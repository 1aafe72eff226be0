package vestibule.bridge.view;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import vestibule.dicom.jpeg.Turn;

@DisplayName("Pictures of a camera that mirrors back by itself (trade facts F-03, F-14, F-61)")
class MirroredBackTest {

    @ParameterizedTest(name = "{0} {1}")
    @DisplayName("no word of a name or a person flips a picture unasked")
    @CsvSource({
        "oko--mirror-front.jpg, ''",
        "mirror-behind/oko.jpg, ''",
        "oko.jpg, mirror-front",
        "palatal-maxillary-anterior.jpg, mirror-front",
        "soft-tissue-lesion.jpg, mirror-front",
    })
    void mirroredBack(String name, String capture) {
        List<Said> said = new ArrayList<>();
        if (name.startsWith("soft-tissue")) {
            said.add(new Said("like", "teeth-buccal-left-mirror"));
        }
        if (!capture.isEmpty()) {
            said.add(new Said("capture", capture));
        }
        ViewRuling ruling = backByItself(name, said);
        assertThat(reason(ruling)).isEqualTo(ViewReason.VIEW_CONTRADICTION);
        assertThat(((ViewRuling.InDoubt) ruling).message()).contains("mirrors back by itself", "mirror-flipped");
        said.add(new Said("capture", "mirror-flipped"));
        assertThat(((ViewRuling.Placed) backByItself(name, said)).placement().correction())
                .isEmpty();
    }

    @Test
    @DisplayName("and who is asked for the capture of its picture is offered none that would flip it")
    void captureOffered() {
        ViewRuling ruling = backByItself("soft-tissue-lesion.jpg", List.of());
        assertThat(reason(ruling)).isEqualTo(ViewReason.CAPTURE_NOT_SAID);
        assertThat(((ViewRuling.InDoubt) ruling).message())
                .contains("mirror-flipped")
                .doesNotContain("mirror-front");
    }

    private static ViewRuling backByItself(String name, List<Said> said) {
        Customs customs = new Customs(
                Set.of(),
                "en",
                Map.of(),
                Map.of("OKO", "occlusal-maxillary-mirror"),
                Optional.of(MirrorSetUp.IN_CAMERA),
                Map.of(),
                DirectSetUp.FRONT,
                Map.of(),
                Tooth.Notation.ISO_3950);
        ViewRules rules = ViewRules.of(customs, SetCustoms.USUAL, CodingProfile.DENTAL, Optional.empty());
        Shot shot = new Shot(
                name, List.of(name), Optional.of(Frame.LANDSCAPE), Turn.NONE, List.of(), said, Optional.empty());
        return new SittingViews(rules).decide(List.of(shot)).rulings().get(0);
    }

    private static ViewReason reason(ViewRuling ruling) {
        assertThat(ruling).isInstanceOf(ViewRuling.InDoubt.class);
        return ((ViewRuling.InDoubt) ruling).reason();
    }
}
