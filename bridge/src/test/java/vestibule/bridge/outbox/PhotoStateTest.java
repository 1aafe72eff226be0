package vestibule.bridge.outbox;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

@DisplayName("The state of a photograph follows from what is recorded (design, section 3)")
class PhotoStateTest {

    /** Every list of up to three object states. */
    private static List<List<ObjectState>> lists() {
        List<List<ObjectState>> all = new ArrayList<>();
        all.add(List.of());
        for (int from = 0; from < all.size(); from++) {
            List<ObjectState> before = all.get(from);
            for (ObjectState state : ObjectState.values()) {
                if (before.size() < 3) {
                    List<ObjectState> longer = new ArrayList<>(before);
                    longer.add(state);
                    all.add(longer);
                }
            }
        }
        return all;
    }

    @Test
    @DisplayName(
            "never sent without a success status for every object, never committed without a proof for every object")
    void neverTooMuch() {
        assertThat(lists()).hasSize(1 + 6 + 36 + 216);
        for (List<ObjectState> objects : lists()) {
            PhotoState state = PhotoState.of(false, false, objects);
            long proven = objects.stream()
                    .filter(object -> object == ObjectState.COMMITTED)
                    .count();
            long answered = objects.stream()
                    .filter(object -> object == ObjectState.SENT)
                    .count();
            boolean all = !objects.isEmpty() && proven == objects.size();
            assertThat(state == PhotoState.COMMITTED)
                    .as("%s committed", objects)
                    .isEqualTo(all);
            assertThat(state == PhotoState.SENT)
                    .as("%s sent", objects)
                    .isEqualTo(!objects.isEmpty() && !all && proven + answered == objects.size());
            assertThat(state == PhotoState.REJECTED)
                    .as("%s rejected", objects)
                    .isEqualTo(objects.contains(ObjectState.REJECTED));
        }
    }

    @Test
    @DisplayName(
            "what a person must decide stands before whatever became of the objects, and what is set aside before both")
    void order() {
        for (List<ObjectState> objects : lists()) {
            assertThat(PhotoState.of(false, true, objects)).isEqualTo(PhotoState.NEEDS_ATTENTION);
            assertThat(PhotoState.of(true, false, objects)).isEqualTo(PhotoState.SET_ASIDE);
            assertThat(PhotoState.of(true, true, objects)).isEqualTo(PhotoState.SET_ASIDE);
        }
    }
}
