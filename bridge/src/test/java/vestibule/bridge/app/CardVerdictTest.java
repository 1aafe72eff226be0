package vestibule.bridge.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

@DisplayName("The verdict on a card")
class CardVerdictTest {

    private static String cleared(int photos) {
        return new CardVerdict("card", photos, 0, List.of(), List.of(), List.of("commitment")).sentence();
    }

    @Test
    @DisplayName("speaks of one photograph as of one")
    void one() {
        assertThat(cleared(1))
                .isEqualTo(
                        "may be cleared: the one photograph is committed (proof: commitment) and a copy of it is kept");
        assertThat(cleared(2))
                .isEqualTo(
                        "may be cleared: all 2 photographs are committed (proof: commitment) and a copy of each is kept");
        assertThat(Counted.of(1, "file")).isEqualTo("1 file");
        assertThat(Counted.of(0, "file")).isEqualTo("0 files");
    }
}
