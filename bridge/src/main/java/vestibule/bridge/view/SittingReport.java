package vestibule.bridge.view;

import java.util.List;
import java.util.Optional;

/**
 * What is known of the views of a sitting.
 *
 * @param set the set it is checked against
 * @param rulings one for each photograph that was not decided before, in their order
 * @param gaps the required places of the set that no photograph fills for certain
 * @param repeats the photographs of views that the set has once and that are there already
 * @param beside the photographs of views that the set does not have
 */
public record SittingReport(
        Optional<PhotoSet> set, List<ViewRuling> rulings, List<Gap> gaps, List<String> repeats, List<String> beside) {

    public SittingReport {
        rulings = List.copyOf(rulings);
        gaps = List.copyOf(gaps);
        repeats = List.copyOf(repeats);
        beside = List.copyOf(beside);
    }

    /**
     * A place that no photograph fills for certain.
     *
     * @param place the place
     * @param proposed whether the order proposes a photograph for it
     */
    public record Gap(PhotoSet.Place place, boolean proposed) {}

    /** The required places for which there is not even a proposal: what to take while the patient still sits there. */
    public List<PhotoSet.Place> missing() {
        return gaps.stream().filter(gap -> !gap.proposed()).map(Gap::place).toList();
    }
}
