package vestibule.validator.rules;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import vestibule.validator.Findings;
import vestibule.validator.Location;
import vestibule.validator.ViewSet;

/** What a batch has seen of one series. */
final class SeriesSeen {

    private static final int MOST_LISTED = 10;
    /** Wider runs of numbers are no numbering but some other number. */
    private static final int WIDEST = 10_000;

    private static final int TEN = 10;

    private final String name;
    private final String study;
    private final int modality;
    private final Optional<LocalDate> day;
    private final Map<String, String> numbers = new HashMap<>();
    private final Set<String> views = new HashSet<>();

    /** A series whose first object that is. */
    SeriesSeen(BatchEntry first) {
        this.name = first.name();
        this.study = first.study();
        this.modality = first.modality();
        this.day = first.day();
    }

    /** The name of its first object. */
    String name() {
        return name;
    }

    /** When its first object was taken. */
    Optional<LocalDate> day() {
        return day;
    }

    /** In what an object differs that says it belongs to this series. */
    Optional<String> otherThan(BatchEntry entry) {
        if (!study.equals(entry.study())) {
            return Optional.of("study");
        }
        return modality == entry.modality() ? Optional.empty() : Optional.of("modality");
    }

    /** Adds an object; gives the name of one that has its number already. */
    Optional<String> add(BatchEntry entry) {
        if (!entry.view().isEmpty()) {
            views.add(entry.view());
        }
        return entry.instanceNumber().isEmpty()
                ? Optional.empty()
                : Optional.ofNullable(numbers.putIfAbsent(entry.instanceNumber(), entry.name()));
    }

    void reportGap(Location where, Findings findings) {
        TreeSet<Integer> known = new TreeSet<>();
        for (String number : numbers.keySet()) {
            if (number.strip().matches("[0-9]{1,9}")) {
                known.add(Integer.parseInt(number.strip()));
            }
        }
        if (known.size() < 2 || known.last() - known.first() > WIDEST) {
            return;
        }
        List<String> missing = new ArrayList<>();
        int step = step(known);
        for (int i = known.first(); i < known.last(); i += step) {
            if (!known.contains(i)) {
                missing.add(Integer.toString(i));
            }
        }
        if (!missing.isEmpty()) {
            findings.report(
                    BatchRules.NUMBER_GAP,
                    where,
                    "first",
                    known.first().toString(),
                    "last",
                    known.last().toString(),
                    "missing",
                    listed(missing));
        }
    }

    /**
     * Who numbers in tens leaves room for pictures that are found or taken again later, which get the next numbers; then only whole tens can
     * be missing.
     */
    private static int step(Set<Integer> numbers) {
        boolean tens = numbers.stream().anyMatch(number -> number % TEN == 0)
                && numbers.stream().allMatch(number -> number % TEN == 0 || numbers.contains(number - 1));
        return tens ? TEN : 1;
    }

    /** A series is compared with the set of which it has most views, if it has at least half of them. */
    void reportMissing(List<ViewSet> sets, Location where, Findings findings) {
        Optional<ViewSet> nearest = Optional.empty();
        long most = 0;
        for (ViewSet set : sets) {
            long count = set.views().stream().filter(views::contains).count();
            if (count > most && 2 * count >= set.views().size()) {
                nearest = Optional.of(set);
                most = count;
            }
        }
        if (nearest.isPresent() && most < nearest.get().views().size()) {
            findings.report(
                    BatchRules.MISSING_VIEWS,
                    where,
                    "count",
                    Long.toString(most),
                    "set",
                    nearest.get().name(),
                    "missing",
                    listed(nearest.get().views().stream()
                            .filter(view -> !views.contains(view))
                            .toList()));
        }
    }

    private static String listed(List<String> all) {
        String start = String.join(", ", all.subList(0, Math.min(MOST_LISTED, all.size())));
        return all.size() > MOST_LISTED ? start + " and " + (all.size() - MOST_LISTED) + " more" : start;
    }
}
