package vestibule.bridge.view;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;

/**
 * Lays the photographs of a sitting beside the places of a set. What is known stands; between two known ones the order proposes, but only
 * where the number of photographs is the number of places and every frame lies as it should. A shot that was skipped makes the numbers
 * differ, so it proposes nothing rather than shifting the rest (trade facts F-68).
 */
final class SetAlignment {

    /** A photograph nobody knows the view of. */
    private static final int UNKNOWN = -1;

    private final List<PhotoSet.Place> places;
    private final ViewCatalogue catalogue;

    SetAlignment(PhotoSet set, ViewCatalogue catalogue) {
        this.places = set.places();
        this.catalogue = catalogue;
    }

    /**
     * A photograph of the sitting.
     *
     * @param known whether its view is known
     * @param place the index of the place it fills; empty if it fills none
     * @param frame how its frame lies
     */
    record Row(boolean known, Optional<Integer> place, Optional<Frame> frame) {}

    /**
     * What the order proposes.
     *
     * @param places index of the row to index of the place
     * @param frames whether every frame that was proposed for lies as its place wants it
     */
    record Proposal(Map<Integer, Integer> places, boolean frames) {}

    /** Proposals for the unknown rows; none where the known ones are not in the order of the set. */
    Proposal propose(List<Row> rows) {
        Map<Integer, Integer> proposed = new TreeMap<>();
        boolean[] taken = new boolean[places.size()];
        List<int[]> line = line(rows, taken);
        if (line.isEmpty()) {
            return new Proposal(proposed, false);
        }
        boolean frames = true;
        int from = 0;
        int firstPlace = 0;
        for (int i = 0; i <= line.size(); i++) {
            boolean end = i == line.size();
            if (end || line.get(i)[1] != UNKNOWN) {
                int lastPlace = end ? places.size() : line.get(i)[1];
                List<Integer> open = open(firstPlace, lastPlace, taken);
                List<Integer> unknown =
                        line.subList(from, i).stream().map(row -> row[0]).toList();
                if (!severalAt(firstPlace - 1) && !severalAt(lastPlace)) {
                    frames &= pair(rows, unknown, open, proposed);
                }
                from = i + 1;
                firstPlace = lastPlace + 1;
            }
        }
        return new Proposal(proposed, frames);
    }

    /** A photograph beside a place that may hold several may be one more of it, so its number tells nothing. */
    private boolean severalAt(int place) {
        return place >= 0 && place < places.size() && places.get(place).repeat();
    }

    /** Row and place of each photograph that is unknown or fills a place; empty if the known ones are in another order. */
    private List<int[]> line(List<Row> rows, boolean[] taken) {
        List<int[]> line = new ArrayList<>();
        int last = -1;
        for (int i = 0; i < rows.size(); i++) {
            Row row = rows.get(i);
            if (!row.known()) {
                line.add(new int[] {i, UNKNOWN});
            } else if (row.place().isPresent() && !taken[row.place().get()]) {
                int place = row.place().get();
                if (place < last) {
                    return List.of();
                }
                last = place;
                taken[place] = true;
                line.add(new int[] {i, place});
            }
        }
        return line;
    }

    private static List<Integer> open(int from, int to, boolean[] taken) {
        List<Integer> open = new ArrayList<>();
        for (int place = from; place < to; place++) {
            if (!taken[place]) {
                open.add(place);
            }
        }
        return open;
    }

    /** Pairs run by run of equal frames where every frame is known and the runs are the same; else all together, by number alone. */
    private boolean pair(List<Row> rows, List<Integer> unknown, List<Integer> open, Map<Integer, Integer> proposed) {
        List<List<Integer>> shots = runs(unknown, row -> rows.get(row).frame());
        List<List<Integer>> wanted = runs(open, place -> frame(place));
        boolean comparable = unknown.stream()
                .allMatch(row ->
                        rows.get(row).frame().filter(one -> one != Frame.SQUARE).isPresent());
        if (!comparable) {
            pairAll(unknown, open, proposed);
            return unknown.isEmpty();
        }
        boolean same = shots.size() == wanted.size();
        for (int run = 0; same && run < shots.size(); run++) {
            same = rows.get(shots.get(run).get(0))
                    .frame()
                    .equals(frame(wanted.get(run).get(0)));
        }
        for (int run = 0; same && run < shots.size(); run++) {
            pairAll(shots.get(run), wanted.get(run), proposed);
        }
        return same || unknown.isEmpty();
    }

    /** Where a place may hold several photographs, their number tells nothing. */
    private void pairAll(List<Integer> rows, List<Integer> open, Map<Integer, Integer> proposed) {
        boolean several = open.stream().anyMatch(place -> places.get(place).repeat());
        if (rows.size() == open.size() && !several) {
            for (int i = 0; i < rows.size(); i++) {
                proposed.put(rows.get(i), open.get(i));
            }
        }
    }

    private Optional<Frame> frame(int place) {
        return catalogue.view(places.get(place).views().get(0)).map(View::frame);
    }

    private static List<List<Integer>> runs(
            List<Integer> items, java.util.function.IntFunction<Optional<Frame>> frame) {
        List<List<Integer>> runs = new ArrayList<>();
        Optional<Frame> last = Optional.empty();
        for (int item : items) {
            Optional<Frame> own = frame.apply(item);
            if (runs.isEmpty() || !own.equals(last)) {
                runs.add(new ArrayList<>());
            }
            runs.get(runs.size() - 1).add(item);
            last = own;
        }
        return runs;
    }
}
