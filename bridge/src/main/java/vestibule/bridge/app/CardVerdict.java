package vestibule.bridge.app;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import vestibule.bridge.intake.LeaveAlone;
import vestibule.bridge.intake.Listing;
import vestibule.bridge.intake.Originals;
import vestibule.bridge.outbox.Arrivals;
import vestibule.bridge.outbox.Outbox;
import vestibule.bridge.outbox.Overview;
import vestibule.bridge.outbox.PhotoState;

/**
 * Whether a card or folder may be cleared: every file on it now is a photograph that the archive took responsibility for, or one set aside,
 * and we keep a copy of each. Asked anew each time by looking at the source, for what lies there may have changed since the last look.
 *
 * @param source its path
 * @param photos how many photographs lie there
 * @param aside how many of them are set aside and not to be filed
 * @param missing what stands in the way, one sentence without a full stop each; empty if it may be cleared
 * @param leftBehind files that were not taken in
 * @param proofs what commitment rests on
 */
record CardVerdict(
        String source, int photos, int aside, List<String> missing, List<LeftBehind> leftBehind, List<String> proofs) {

    /** A file that was not taken in, and why. */
    record LeftBehind(String file, String sentence) {}

    CardVerdict {
        leftBehind = List.copyOf(leftBehind);
        missing = List.copyOf(missing);
        proofs = List.copyOf(proofs);
    }

    /** Whether it may be cleared. */
    boolean safeToClear() {
        return missing.isEmpty();
    }

    /** The verdict in one sentence. */
    String sentence() {
        if (!safeToClear()) {
            return "must not be cleared: " + String.join("; ", missing);
        }
        String proof = String.join(" and ", proofs);
        if (aside > 0) {
            return "may be cleared: of %s %d committed (proof: %s), %d set aside by a person or as no photograph, and a copy of each is kept"
                    .formatted(
                            Counted.of(photos, "photograph"), photos - aside, proof.isEmpty() ? "none" : proof, aside);
        }
        return photos == 1
                ? "may be cleared: the one photograph is committed (proof: %s) and a copy of it is kept"
                        .formatted(proof)
                : "may be cleared: all %d photographs are committed (proof: %s) and a copy of each is kept"
                        .formatted(photos, proof);
    }

    /**
     * Who asks for verdicts.
     *
     * @param node whose sources are ours
     * @param patience how long a source may take to be listed
     */
    record Asking(Outbox outbox, Originals originals, String node, LeaveAlone leaveAlone, Duration patience) {}

    /** The verdict on a source. */
    static CardVerdict of(Asking asking, Overview.Source source) throws IOException {
        Outbox outbox = asking.outbox();
        Originals originals = asking.originals();
        Overview.Fate fate = outbox.overview().fate(source.name());
        List<String> missing = new ArrayList<>();
        boolean ours = source.node().isEmpty() || source.node().get().equals(asking.node());
        if (!ours || !source.place().equals(originals.place())) {
            missing.add("another node looks at it; ask there");
        } else {
            Listing now = listing(Path.of(source.folder()), asking.leaveAlone(), asking.patience());
            missing.addAll(sinceLastLook(outbox.arrivals(), source.name(), now));
            missing.addAll(copiesGone(outbox.overview(), source.name(), originals));
        }
        if (source.lookedAt().isEmpty() || source.trouble().isPresent()) {
            missing.add(
                    "not all of it was reached (%s)".formatted(source.trouble().orElse("it was not looked at yet")));
        }
        missing.addAll(unproven(fate));
        return new CardVerdict(
                source.name(),
                fate.photos(),
                fate.in(PhotoState.SET_ASIDE),
                missing,
                fate.leftBehind() > 0 ? leftBehind(outbox.arrivals(), source.name()) : List.of(),
                fate.proofs());
    }

    private static List<LeftBehind> leftBehind(Arrivals arrivals, String source) throws IOException {
        return arrivals.sightings(source).stream()
                .filter(sighting -> sighting.photo().isEmpty())
                .map(sighting ->
                        new LeftBehind(sighting.name(), sighting.sentence().orElse("it was not taken in")))
                .toList();
    }

    private static List<String> unproven(Overview.Fate fate) {
        List<String> missing = new ArrayList<>();
        for (PhotoState state : PhotoState.values()) {
            if (state != PhotoState.COMMITTED && state != PhotoState.SET_ASIDE && fate.in(state) > 0) {
                missing.add("%d of %s: %s"
                        .formatted(fate.in(state), Counted.of(fate.photos(), "photograph"), state.word()));
            }
        }
        if (fate.again() > 0) {
            missing.add(
                    "%d of %s: to be decided again".formatted(fate.again(), Counted.of(fate.photos(), "photograph")));
        }
        if (fate.copies() < fate.photos()) {
            missing.add(
                    "of %s no copy is kept here".formatted(Counted.of(fate.photos() - fate.copies(), "photograph")));
        }
        if (fate.leftBehind() > 0) {
            missing.add(Counted.of(fate.leftBehind(), "file") + (fate.leftBehind() == 1 ? " was" : " were")
                    + " not taken in");
        }
        if (fate.photos() == 0) {
            missing.add("no photograph was taken in from it");
        }
        return missing;
    }

    /** Looks at the disk: somebody may have deleted our copies, and one that was damaged is trusted once its bytes are right again. */
    private static List<String> copiesGone(Overview overview, String source, Originals originals) throws IOException {
        int gone = 0;
        for (Overview.Copy copy : overview.copies(source, originals.place())) {
            boolean there = originals.holds(copy.photo(), copy.bytes())
                    && (!copy.doubted() || originals.holdsWhole(copy.photo()));
            gone += there ? 0 : 1;
        }
        return gone == 0
                ? List.of()
                : List.of("of %s the copy that was kept here is gone or no longer what it was, take them in again"
                        .formatted(Counted.of(gone, "photograph")));
    }

    /** What lies there now; a source that does not answer in that time counts as not reached. */
    static Listing listing(Path source, LeaveAlone leaveAlone, Duration patience) throws IOException {
        try {
            return Inquiry.of(() -> Listing.of(source, leaveAlone))
                    .answer(patience)
                    .orElseGet(() -> new Listing(List.of(), Optional.of("it does not answer")));
        } catch (Failure e) {
            throw new IllegalStateException("listing says what failed in its answer", e);
        }
    }

    private static List<String> sinceLastLook(Arrivals arrivals, String source, Listing now) throws IOException {
        if (now.trouble().isPresent()) {
            return List.of("it cannot be looked at now: " + now.trouble().get());
        }
        Map<String, Arrivals.Sighting> before = new HashMap<>();
        arrivals.sightings(source).forEach(sighting -> before.put(sighting.name(), sighting));
        if (now.files().isEmpty() && !before.isEmpty()) {
            return List.of("it is empty now, so nothing is known of what lies there when it is back");
        }
        long changed = now.files().stream()
                .filter(file -> {
                    Arrivals.Sighting sighting = before.get(file.name());
                    return sighting == null || !sighting.isStill(file.bytes(), file.changed());
                })
                .count();
        return changed == 0
                ? List.of()
                : List.of(Counted.of(changed, "file") + (changed == 1 ? " is" : " are")
                        + " new or changed since the last look");
    }
}
