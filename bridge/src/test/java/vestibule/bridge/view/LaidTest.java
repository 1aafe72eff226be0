package vestibule.bridge.view;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import vestibule.dicom.jpeg.Turn;

@DisplayName("A filed picture of which it was not kept which way it lies")
class LaidTest {

    private static final Laid UNKNOWN = new Laid(Optional.of(Correction.TRANSPOSE), Optional.empty());

    private static ViewRuling ruling(String view, Laid laid, Optional<Laid> heard, Said... said) {
        Customs customs = new Customs(
                Set.of(Choice.UPPER_INCISORS_AT_BOTTOM),
                "en",
                Map.of(),
                Map.of(),
                Optional.of(MirrorSetUp.FRONT),
                Map.of(),
                DirectSetUp.FRONT,
                Map.of(),
                Tooth.Notation.ISO_3950);
        ViewRules rules = ViewRules.of(customs, SetCustoms.USUAL, CodingProfile.DENTAL, Optional.empty());
        Shot.Before before = new Shot.Before(
                view, Optional.empty(), Optional.of(10), Optional.of(Capture.MIRROR_FRONT), laid, false, false, true);
        Shot shot = new Shot(
                "photo",
                List.of("IMG_0001.JPG"),
                Optional.of(Frame.PORTRAIT),
                Turn.NONE,
                Optional.empty(),
                List.of(),
                List.of(),
                List.of(said),
                Optional.of(before),
                heard);
        return new SittingViews(rules).decide(List.of(shot)).rulings().get(0);
    }

    @Test
    @DisplayName("asks where it holds a flip, and stays as it is where settings cannot have its view lie otherwise")
    void asks() {
        ViewRuling arch = ruling("occlusal-maxillary-mirror", UNKNOWN, Optional.of(UNKNOWN));
        assertThat(((ViewRuling.InDoubt) arch).reason()).isEqualTo(ViewReason.VIEW_CONTRADICTION);
        assertThat(((ViewRuling.InDoubt) arch).message()).contains("the flip transpose", "correct-by usual");
        ViewRuling side = ruling("teeth-buccal-left-mirror", UNKNOWN, Optional.of(UNKNOWN));
        assertThat(((ViewRuling.Placed) side).placement().orientation()).contains("P\\F");
        assertThat(((ViewRuling.Placed) side).placement().correction()).contains(Correction.TRANSPOSE);
    }

    @ParameterizedTest
    @EnumSource(names = {"TRANSPOSE", "TRANSVERSE"})
    @DisplayName("lies as settings say by the flip that a person says then, and not by one that was said before")
    void saidAgain(Correction flip) {
        Said said = new Said("correct-by", flip.word());
        ViewRuling.Placed again =
                (ViewRuling.Placed) ruling("occlusal-maxillary-mirror", UNKNOWN, Optional.empty(), said);
        assertThat(again.placement().orientation()).contains("R\\A");
        assertThat(again.placement().correction()).contains(flip);
        assertThat(again.correction()).contains(flip);
        assertThat(ruling("occlusal-maxillary-mirror", UNKNOWN, Optional.of(UNKNOWN), said))
                .isInstanceOf(ViewRuling.InDoubt.class);
    }
}
