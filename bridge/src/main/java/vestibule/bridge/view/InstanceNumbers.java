package vestibule.bridge.view;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/**
 * Numbers the photographs of a sitting in the order of the set, ten apart, so that a shot that is found or repeated later finds room and
 * none that was sent changes its number.
 */
final class InstanceNumbers {

    private static final int STEP = 10;

    private InstanceNumbers() {}

    static List<ViewRuling> given(Optional<PhotoSet> set, List<Shot> shots, List<ViewRuling> rulings) {
        Set<Integer> used = new HashSet<>();
        shots.stream()
                .filter(shot -> !shot.isOpen())
                .forEach(shot -> shot.before().flatMap(Shot.Before::number).ifPresent(used::add));
        int behind = set.map(one -> one.places().size()).orElse(0);
        List<ViewRuling> numbered = new ArrayList<>();
        for (ViewRuling ruling : rulings) {
            int order = order(shots, ruling.photo());
            if (ruling instanceof ViewRuling.Placed placed) {
                numbered.add(placed.numbered(number(placed, behind, order, used)));
            } else if (ruling instanceof ViewRuling.InDoubt doubt
                    && doubt.proposal().isPresent()) {
                ViewRuling.Placed proposed = doubt.proposal().get();
                numbered.add(new ViewRuling.InDoubt(
                        doubt.photo(),
                        doubt.reason(),
                        doubt.message(),
                        Optional.of(proposed.numbered(number(proposed, behind, order, used)))));
            } else {
                numbered.add(ruling);
            }
        }
        return numbered;
    }

    private static int number(ViewRuling.Placed placed, int behind, int order, Set<Integer> used) {
        int number = STEP * placed.place().orElse(behind + order);
        while (!used.add(number)) {
            number++;
        }
        return number;
    }

    private static int order(List<Shot> shots, String photo) {
        for (int i = 0; i < shots.size(); i++) {
            if (shots.get(i).photo().equals(photo)) {
                return i + 1;
            }
        }
        throw new IllegalStateException("a ruling for a photograph that is not of the sitting");
    }
}
