package vestibule.bridge.view;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** Puts the photographs of a sitting onto the places of its set: known ones by their view, others by proposal. */
final class SetFilling {

    private final ViewRules rules;
    private final PhotoSet set;

    SetFilling(ViewRules rules, PhotoSet set) {
        this.rules = rules;
        this.set = set;
    }

    void fill(List<SittingViews.Reading> readings) {
        boolean[] taken = new boolean[set.places().size()];
        for (SittingViews.Reading reading : readings) {
            reading.view.ifPresent(view -> known(reading, view, taken));
        }
        List<SetAlignment.Row> rows = readings.stream()
                .map(reading -> new SetAlignment.Row(
                        reading.view.isPresent() || reading.doubt.isPresent(),
                        reading.repeated ? Optional.empty() : reading.place.map(place -> place - 1),
                        reading.shot.frame()))
                .toList();
        SetAlignment.Proposal proposal = new SetAlignment(set, rules.views()).propose(rows);
        propose(readings, proposal.places());
        boolean decides = rules.setCustoms().acceptOrder() && whole(readings, proposal);
        for (int i = 0; i < readings.size(); i++) {
            SittingViews.Reading reading = readings.get(i);
            reading.orderDecides = decides && reading.proposed.isPresent();
            reading.orderFailed = reading.view.isEmpty() && reading.proposed.isEmpty();
        }
    }

    private void known(SittingViews.Reading reading, View view, boolean[] taken) {
        if (reading.stage.isEmpty()) {
            reading.stage = NameWords.stage(reading.shot.names(), set);
        }
        List<PhotoSet.Place> fitting = set.places().stream()
                .filter(place -> place.views().contains(view.id()))
                .filter(place -> place.stage().isEmpty() || stageFits(place, reading, view))
                .toList();
        Optional<PhotoSet.Place> free =
                fitting.stream().filter(place -> !taken[place.position() - 1]).findFirst();
        Optional<PhotoSet.Place> chosen = free.or(() -> fitting.stream().reduce((first, last) -> last));
        chosen.ifPresent(place -> {
            reading.place = Optional.of(place.position());
            reading.repeated = taken[place.position() - 1];
            taken[place.position() - 1] = true;
            if (reading.stage.isEmpty()) {
                reading.stage = place.stage();
            }
        });
    }

    /** A stage that nobody said is known only where the set shows the view in one stage alone. */
    private boolean stageFits(PhotoSet.Place place, SittingViews.Reading reading, View view) {
        if (reading.stage.isPresent()) {
            return reading.stage.equals(place.stage());
        }
        return set.places().stream()
                        .filter(other -> other.views().contains(view.id()))
                        .map(PhotoSet.Place::stage)
                        .distinct()
                        .count()
                == 1;
    }

    /** A look that contradicts one proposal means that the shots are shifted, so it takes back all. */
    private void propose(List<SittingViews.Reading> readings, Map<Integer, Integer> places) {
        List<Runnable> put = new ArrayList<>();
        for (Map.Entry<Integer, Integer> pair : places.entrySet()) {
            SittingViews.Reading reading = readings.get(pair.getKey());
            PhotoSet.Place place = set.places().get(pair.getValue());
            View view = rules.views().view(usual(place)).orElseThrow();
            if (opinion(reading, view) == PictureCheck.Opinion.CONTRADICTS) {
                return;
            }
            put.add(() -> {
                reading.proposed = Optional.of(view);
                reading.place = Optional.of(place.position());
                reading.stage = reading.stage.or(place::stage);
            });
        }
        put.forEach(Runnable::run);
    }

    /** The view that the practice takes for a place, or the set's usual one. */
    private String usual(PhotoSet.Place place) {
        return place.views().stream()
                .filter(view -> rules.setCustoms().usualViews().contains(view))
                .findFirst()
                .orElse(place.views().get(0));
    }

    private PictureCheck.Opinion opinion(SittingViews.Reading reading, View view) {
        return rules.check().map(check -> check.of(reading.shot, view)).orElse(PictureCheck.Opinion.SILENT);
    }

    /** Count, frames and looks agree for the whole set, and no place leaves a choice open. */
    private boolean whole(List<SittingViews.Reading> readings, SetAlignment.Proposal proposal) {
        boolean everyPlace = set.places().stream()
                .allMatch(place -> readings.stream()
                                .filter(reading -> reading.place.equals(Optional.of(place.position())))
                                .count()
                        == 1);
        boolean sure = set.places().stream()
                .filter(place -> readings.stream()
                        .anyMatch(reading ->
                                reading.proposed.isPresent() && reading.place.equals(Optional.of(place.position()))))
                .allMatch(place -> place.views().size() == 1
                        || place.views().stream()
                                        .filter(view ->
                                                rules.setCustoms().usualViews().contains(view))
                                        .count()
                                == 1);
        boolean looks = rules.check().isEmpty()
                || readings.stream()
                        .filter(reading -> reading.proposed.isPresent())
                        .allMatch(reading -> opinion(reading, reading.proposed.get()) == PictureCheck.Opinion.AGREES);
        return readings.size() == set.places().size() && everyPlace && sure && looks && proposal.frames();
    }
}
