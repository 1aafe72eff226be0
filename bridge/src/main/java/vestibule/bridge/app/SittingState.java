package vestibule.bridge.app;

import java.io.IOException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import tools.jackson.core.JacksonException;
import tools.jackson.databind.json.JsonMapper;
import vestibule.bridge.outbox.Outbox;
import vestibule.bridge.outbox.Rulings;
import vestibule.bridge.view.PhotoSet;
import vestibule.bridge.view.SittingReport;
import vestibule.bridge.view.ViewCatalogue;

/**
 * How a sitting stands against its set, for a person while the patient still sits there. It names no patient.
 *
 * @param source the card or folder
 * @param photos its photographs by their hashes, in the order they were taken
 * @param first the name of the first of them
 * @param takenIn when the last of them was taken in
 * @param set the set's name in words; empty where none was named
 * @param missing required views of which there is nothing, in words
 * @param proposed required views that are only proposed, in words
 * @param twice names of photographs of a view that the set has once and that is there already
 */
record SittingState(
        String source,
        List<String> photos,
        String first,
        Instant takenIn,
        Optional<String> set,
        List<String> missing,
        List<String> proposed,
        List<String> twice) {

    private static final JsonMapper JSON = JsonMapper.builder().build();

    SittingState {
        photos = List.copyOf(photos);
        missing = List.copyOf(missing);
        proposed = List.copyOf(proposed);
        twice = List.copyOf(twice);
    }

    /** How a sitting stands that has just been decided. */
    static SittingState of(Sitting sitting, SittingReport report, ViewCatalogue views) {
        List<Deciding.Candidate> candidates =
                sitting.shots().stream().map(Sitting.Shot::candidate).toList();
        return new SittingState(
                candidates.get(0).source(),
                candidates.stream().map(Deciding.Candidate::photo).toList(),
                candidates.get(0).name(),
                candidates.stream()
                        .map(Deciding.Candidate::takenIn)
                        .max(Instant::compareTo)
                        .orElseThrow(),
                report.set().map(PhotoSet::name),
                report.missing().stream().map(place -> place.words(views)).toList(),
                report.gaps().stream()
                        .filter(SittingReport.Gap::proposed)
                        .map(gap -> gap.place().words(views))
                        .toList(),
                candidates.stream()
                        .filter(candidate -> report.repeats().contains(candidate.photo()))
                        .map(Deciding.Candidate::name)
                        .toList());
    }

    /** As the outbox keeps it. */
    Rulings.SittingKept kept() {
        return new Rulings.SittingKept(photos.get(0), takenIn, JSON.writeValueAsString(this));
    }

    /** Sittings of which a photograph was taken in since then, in the order of time. */
    static List<SittingState> since(Outbox outbox, Instant moment) throws IOException {
        List<SittingState> sittings = new ArrayList<>();
        for (String state : outbox.overview().sittings(moment)) {
            try {
                sittings.add(JSON.readValue(state, SittingState.class));
            } catch (JacksonException e) {
                throw new IOException("the outbox holds a sitting that this program cannot read", e);
            }
        }
        return sittings;
    }

    /** For programs. */
    Map<String, Object> described() {
        Map<String, Object> described = new LinkedHashMap<>();
        described.put("source", source);
        described.put("first", first);
        described.put("photos", photos);
        set.ifPresent(name -> described.put("set", name));
        described.put("missing", missing);
        described.put("proposed", proposed);
        described.put("twice", twice);
        return described;
    }

    /** For people: one line if there is a set to hold it against, else none. */
    List<String> lines() {
        if (set.isEmpty()) {
            return List.of();
        }
        List<String> parts = new ArrayList<>();
        part(parts, "missing: ", missing);
        part(parts, "to be confirmed: ", proposed);
        part(parts, "taken twice: ", twice);
        return List.of("sitting from %s (%s), %s: %s"
                .formatted(
                        first,
                        Counted.of(photos.size(), "photograph"),
                        set.get(),
                        parts.isEmpty() ? "complete" : String.join("; ", parts)));
    }

    private static void part(List<String> parts, String name, List<String> things) {
        if (!things.isEmpty()) {
            parts.add(name + String.join(", ", things));
        }
    }
}
