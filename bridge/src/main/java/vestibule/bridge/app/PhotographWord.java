package vestibule.bridge.app;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import vestibule.bridge.outbox.Arrivals;
import vestibule.bridge.outbox.Outbox;
import vestibule.bridge.outbox.Overview;
import vestibule.bridge.outbox.PhotoState;

/**
 * Which photograph a word names. Cameras count anew from card to card, so where something is to be said, a file's name means what lies there now
 * or what status asks about; what was filed and is gone takes the hash, lest a word about today's file be kept about that.
 */
final class PhotographWord {

    private PhotographWord() {}

    /** A photograph by the beginning of its hash or by its name; more than one that fits is an error, never a guess. */
    static Overview.Photograph any(Overview overview, String word) throws Failure, IOException {
        List<Overview.Photograph> fitting = overview.named(word);
        if (fitting.size() == 1) {
            return fitting.get(0);
        }
        throw new Failure(
                Exit.USAGE,
                fitting.isEmpty()
                        ? "there is no photograph %s; vestibule status names them by the beginning of their hash, four characters or more."
                                .formatted(word)
                        : "%s may be %s; name it by the beginning of its hash.".formatted(word, candidates(fitting)));
    }

    private static String candidates(List<Overview.Photograph> fitting) {
        return String.join(
                " or ",
                fitting.stream()
                        .limit(5)
                        .map(photo -> shortly(photo) + " (" + photo.name() + ")")
                        .toList());
    }

    /** The photograph that somebody means who says something about it. */
    static Overview.Photograph meant(Outbox outbox, String word) throws Failure, IOException {
        Overview overview = outbox.overview();
        List<Overview.LeftBehind> leftBehind = overview.leftBehind(word);
        if (overview.named(word).isEmpty() && !leftBehind.isEmpty()) {
            throw new Failure(Exit.USAGE, notTakenIn(leftBehind.get(0)) + ".");
        }
        Overview.Photograph photo = likely(overview, word);
        Optional<String> refused = Overview.isByHash(word, photo)
                ? Optional.empty()
                : refused(outbox, photo, word, leftBehind.stream().findFirst());
        if (refused.isPresent()) {
            throw new Failure(Exit.USAGE, refused.get());
        }
        return photo;
    }

    /** Of several that lay under a name, as cards come and go, the one that lies there or is asked about, if it is one. */
    private static Overview.Photograph likely(Overview overview, String word) throws Failure, IOException {
        List<Overview.Photograph> near = new ArrayList<>();
        for (Overview.Photograph photo : overview.named(word)) {
            if (Overview.isByHash(word, photo) || mayBeMeant(overview, photo, word)) {
                near.add(photo);
            }
        }
        return near.size() == 1 ? near.get(0) : any(overview, word);
    }

    private static boolean mayBeMeant(Overview overview, Overview.Photograph photo, String word) throws IOException {
        return photo.state() == PhotoState.NEEDS_ATTENTION
                || photo.state() == PhotoState.REJECTED
                || overview.isTakenBack(photo.photo())
                || overview.lies(photo.photo(), word);
    }

    /** Why a file's name is not taken for that photograph. */
    private static Optional<String> refused(
            Outbox outbox, Overview.Photograph photo, String word, Optional<Overview.LeftBehind> leftBehind)
            throws IOException {
        if (isAnotherByNow(outbox.arrivals().sightings(photo.source()), photo, word)) {
            return Optional.of(
                    "%s in %s is another file than at the last look; have vestibule intake look again, or say %s, %s, if that one is meant."
                            .formatted(word, photo.source(), shortly(photo), known(photo)));
        }
        if (leftBehind.isPresent()) {
            return Optional.of("%s; if another of that name is meant, say %s, %s."
                    .formatted(notTakenIn(leftBehind.get()), shortly(photo), known(photo)));
        }
        return mayBeMeant(outbox.overview(), photo, word)
                ? Optional.empty()
                : Optional.of(
                        "no file %s lies in a source any more, and names come again; if the one is meant that did, say %s, %s."
                                .formatted(word, shortly(photo), known(photo)));
    }

    /** Whether the card was changed since the last look, so that its name means today's file to whoever says it, and a filed one to us. */
    private static boolean isAnotherByNow(List<Arrivals.Sighting> lastSeen, Overview.Photograph photo, String word)
            throws IOException {
        for (Arrivals.Sighting seen : lastSeen) {
            boolean called = seen.name().equals(word) || seen.name().endsWith("/" + word);
            if (called && seen.photo().equals(Optional.of(photo.photo()))) {
                Path file = Path.of(photo.source()).resolve(seen.name());
                return Files.isRegularFile(file)
                        && !seen.isStill(
                                Files.size(file),
                                Files.getLastModifiedTime(file).toInstant());
            }
        }
        return false;
    }

    private static String shortly(Overview.Photograph photo) {
        return photo.photo().substring(0, 12);
    }

    private static String notTakenIn(Overview.LeftBehind file) {
        return "%s in %s was not taken in (%s), so nothing can be said about it"
                .formatted(file.name(), file.source(), file.sentence());
    }

    private static String known(Overview.Photograph photo) {
        return "which was %s in %s and is %s now"
                .formatted(photo.name(), photo.source(), photo.state().word());
    }
}
