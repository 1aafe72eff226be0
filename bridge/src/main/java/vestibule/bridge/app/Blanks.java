package vestibule.bridge.app;

import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import vestibule.bridge.patient.CardReader;
import vestibule.bridge.patient.Evidence;
import vestibule.bridge.patient.Frame;
import vestibule.bridge.patient.Reason;

/**
 * Files of a source that nobody can read. Each may be the card of the patient who follows, so it ends the one before; who took it and when
 * is not known, so it stands in the frames of every camera, by its name and by the time of its file.
 */
final class Blanks {

    private final PatientEvidence evidence;
    private final ZoneId zone;
    private final List<Blank> all = new ArrayList<>();

    private record Blank(String key, String name, int medium, Instant fileTime, Optional<Evidence> said) {}

    /** @param zone that the times of files are told in */
    Blanks(PatientEvidence evidence, ZoneId zone) {
        this.evidence = evidence;
        this.zone = zone;
    }

    /** A file that was not taken in. */
    void add(Deciding.Unread file) {
        all.add(new Blank(
                "file %d %s %s".formatted(file.medium(), file.name(), file.fileTime()),
                file.name(),
                file.medium(),
                file.fileTime(),
                Optional.empty()));
    }

    /** A photograph that was taken in and cannot be read, unless it was looked at before and no card was in it. */
    void add(Deciding.Photograph photograph, FrameReader.Unusable unusable) {
        if (evidence.mark(photograph, unusable.code().orElse(new CardReader.Unreadable()))
                .isPresent()) {
            all.add(new Blank(
                    photograph.photo(),
                    photograph.name(),
                    photograph.medium(),
                    photograph.fileTime(),
                    evidence.said(photograph)));
        }
    }

    /** With those among other frames; where nobody photographs cards, none of them is one. */
    List<Frame> among(List<Frame> frames) {
        boolean cards = frames.stream().anyMatch(frame -> frame.mark().isPresent())
                || all.stream().anyMatch(blank -> blank.said().isPresent());
        if (!cards || all.isEmpty()) {
            return frames;
        }
        Set<String> cameras = new TreeSet<>();
        frames.forEach(frame -> cameras.add(frame.camera()));
        List<Frame> together = new ArrayList<>(frames);
        for (Blank blank : all) {
            // A person's word on it counts for what follows, where there is no question which camera's
            Frame.Mark mark = cameras.size() == 1 && blank.said().isPresent()
                    ? new Frame.Start(blank.said().get())
                    : new Frame.Broken(Reason.CARD_UNREADABLE);
            Optional<LocalDateTime> time = Optional.of(LocalDateTime.ofInstant(blank.fileTime(), zone));
            cameras.forEach(camera -> together.add(new Frame(
                    blank.key() + " " + camera, blank.name(), camera, blank.medium(), time, Optional.of(mark))));
        }
        return together;
    }
}
