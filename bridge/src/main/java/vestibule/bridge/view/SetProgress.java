package vestibule.bridge.view;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** Holds a sitting against its set: what is missing, what is there twice, what lies beside it. */
final class SetProgress {

    private SetProgress() {}

    static SittingReport of(PhotoSet set, List<ViewRuling> rulings, List<SittingViews.Reading> readings) {
        List<Integer> filled = new ArrayList<>();
        List<Integer> proposed = new ArrayList<>();
        List<String> repeats = new ArrayList<>();
        List<String> beside = new ArrayList<>();
        Map<String, ViewRuling> byPhoto =
                SittingViews.byPhoto(new SittingReport(Optional.of(set), rulings, List.of(), List.of(), List.of()));
        for (SittingViews.Reading reading : readings) {
            ViewRuling ruling = byPhoto.get(reading.shot.photo());
            boolean certain = reading.shot.before().isPresent() || ruling instanceof ViewRuling.Placed;
            reading.place.ifPresent(place -> (certain ? filled : proposed).add(place));
            if (reading.view.isPresent() && reading.place.isEmpty()) {
                beside.add(reading.shot.photo());
            }
            boolean several = reading.place
                    .map(place -> set.places().get(place - 1).repeat())
                    .orElse(true);
            if (reading.repeated && !several) {
                repeats.add(reading.shot.photo());
            }
        }
        List<SittingReport.Gap> gaps = set.places().stream()
                .filter(place -> place.required() && !filled.contains(place.position()))
                .map(place -> new SittingReport.Gap(place, proposed.contains(place.position())))
                .toList();
        return new SittingReport(Optional.of(set), rulings, gaps, repeats, beside);
    }
}
