package vestibule.bridge.patient;

import java.time.Duration;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import vestibule.bridge.intake.NameOrder;

/**
 * Cuts the frames of a source into runs of one patient: at every patient card, at every long pause, at every change of camera. A frame is
 * tied to a card only where the order of names and the order of times agree on it.
 */
public final class Sittings {

    private final Duration pause;
    private final boolean merged;
    private final Diary diary;

    /**
     * @param pause how long nothing is photographed before a card no longer counts
     * @param merged whether a card that one camera took counts for all of them
     * @param diary the appointments of the chair, if they are known
     */
    public Sittings(Duration pause, boolean merged, Diary diary) {
        this.pause = pause;
        this.merged = merged;
        this.diary = diary;
    }

    /**
     * What a frame belongs to.
     *
     * @param run the run it is in; frames of one run are of one sitting
     * @param card the card before it, if one counts
     * @param reason why none counts
     */
    public record Place(int run, Optional<Evidence> card, Optional<Reason> reason) {}

    /** The place of each frame by its key. */
    public Map<String, Place> places(List<Frame> frames) {
        List<List<Frame>> cameras = cameras(frames);
        Map<String, Place> places = new HashMap<>();
        if (merged) {
            together(cameras, 0, places);
            return places;
        }
        int first = 0;
        for (List<Frame> camera : cameras) {
            first = together(List.of(camera), first, places);
        }
        return places;
    }

    private static List<List<Frame>> cameras(List<Frame> frames) {
        Map<String, List<Frame>> groups = new LinkedHashMap<>();
        frames.forEach(frame -> groups.computeIfAbsent(frame.camera(), camera -> new ArrayList<>())
                .add(frame));
        return List.copyOf(groups.values());
    }

    /**
     * Places frames that share their cards: those with a time by time, the others between them.
     *
     * @param first the first run
     * @return the run after the last
     */
    private int together(List<List<Frame>> cameras, int first, Map<String, Place> places) {
        List<Frame> all = cameras.stream().flatMap(List::stream).toList();
        boolean cards = all.stream().anyMatch(frame -> frame.mark().isPresent());
        List<Frame> dated = byTime(all);
        Walk walk = new Walk(first, cards);
        walk.through(dated, places);
        cameras.forEach(camera -> comparedWithNames(camera, places, cameras.size() > 1));
        Undated undated = new Undated(cameras.stream().map(Sittings::byName).toList());
        undated.inDoubt(dated).forEach(frame -> unclear(frame, places));
        undated.place(cards, first, places);
        return walk.run + 1;
    }

    /** Where names say another card than times do, nothing says which of the two is right. */
    private void comparedWithNames(List<Frame> group, Map<String, Place> places, boolean otherCameras) {
        boolean cards = group.stream().anyMatch(frame -> frame.mark().isPresent());
        Map<String, Place> named = new HashMap<>();
        new Walk(0, cards).through(byName(group), named);
        Map<String, Place> timed = places;
        if (otherCameras) {
            timed = new HashMap<>();
            new Walk(0, cards).through(byTime(group), timed);
        }
        for (Frame frame : byTime(group)) {
            if (!who(timed, frame).equals(who(named, frame)) || broken(timed, frame) != broken(named, frame)) {
                unclear(frame, places);
            }
        }
    }

    private static void unclear(Frame frame, Map<String, Place> places) {
        places.computeIfPresent(
                frame.key(),
                (key, place) -> new Place(place.run(), Optional.empty(), Optional.of(Reason.ORDER_UNCLEAR)));
    }

    /** Whether what comes before it is a card that does not say who follows. */
    private static boolean broken(Map<String, Place> places, Frame frame) {
        return Optional.ofNullable(places.get(frame.key()))
                .flatMap(Place::reason)
                .filter(reason -> reason == Reason.CARD_UNREADABLE || reason == Reason.CARD_MIRRORED)
                .isPresent();
    }

    private static Optional<Identity> who(Map<String, Place> places, Frame frame) {
        return Optional.ofNullable(places.get(frame.key())).flatMap(Place::card).map(Evidence::who);
    }

    /** Those that have a time. */
    private static List<Frame> byTime(List<Frame> frames) {
        return frames.stream()
                .filter(frame -> frame.taken().isPresent())
                .sorted(Comparator.comparing((Frame frame) -> frame.taken().orElseThrow())
                        .thenComparing(Frame::name, NameOrder::compare))
                .toList();
    }

    /** Cameras count anew on another memory card, so only names on one of them have an order. */
    private static List<Frame> byName(List<Frame> frames) {
        return frames.stream()
                .sorted(Comparator.comparingInt(Frame::medium).thenComparing(Frame::name, NameOrder::compare))
                .toList();
    }

    /** The order in which these frames were taken: by time where it is known, else after the frame of its camera that is before it by name. */
    public static Comparator<Frame> order(List<Frame> frames) {
        Map<String, LocalDateTime> thought =
                new Undated(cameras(frames).stream().map(Sittings::byName).toList()).thought();
        return Comparator.comparing((Frame frame) ->
                        frame.taken().orElseGet(() -> thought.getOrDefault(frame.key(), LocalDateTime.MIN)))
                .thenComparing(Frame::name, NameOrder::compare);
    }

    /** One pass over frames in an order. */
    private final class Walk {

        private int run;
        private Optional<Evidence> card = Optional.empty();
        private Optional<Reason> reason;
        private Optional<LocalDateTime> last = Optional.empty();
        private Optional<Frame> cardFrame = Optional.empty();

        /** @param cards whether there are any cards at all */
        Walk(int firstRun, boolean cards) {
            this.run = firstRun;
            this.reason = Optional.of(cards ? Reason.BEFORE_FIRST_CARD : Reason.NO_PATIENT);
        }

        void through(List<Frame> frames, Map<String, Place> places) {
            for (Frame frame : frames) {
                if (paused(frame)) {
                    run++;
                    reason = card.isPresent() ? Optional.of(Reason.AFTER_A_PAUSE) : reason;
                    card = Optional.empty();
                }
                frame.mark().ifPresent(this::mark);
                if (frame.mark().isPresent()) {
                    cardFrame = Optional.of(frame);
                } else if (card.isPresent() && isOnAnotherMedium(frame)) {
                    end(Reason.ANOTHER_MEMORY_CARD);
                } else if (another(frame)) {
                    end(Reason.ANOTHER_APPOINTMENT);
                }
                last = frame.taken().or(() -> last);
                places.put(frame.key(), new Place(run, card, reason));
            }
        }

        private void end(Reason why) {
            run++;
            card = Optional.empty();
            reason = Optional.of(why);
        }

        /** Cameras that share their cards have a memory card each. */
        private boolean isOnAnotherMedium(Frame frame) {
            return cardFrame
                    .filter(one -> one.camera().equals(frame.camera()) && one.medium() != frame.medium())
                    .isPresent();
        }

        private boolean another(Frame frame) {
            Optional<String> id = card.flatMap(one -> one.who().id());
            Optional<LocalDateTime> cardTaken = cardFrame.flatMap(Frame::taken);
            return id.isPresent()
                    && cardTaken.isPresent()
                    && frame.taken().isPresent()
                    && diary.another(id.get(), cardTaken.get(), frame.taken().get());
        }

        private boolean paused(Frame frame) {
            return last.isPresent()
                    && frame.taken().isPresent()
                    && Duration.between(last.get(), frame.taken().get()).abs().compareTo(pause) > 0;
        }

        private void mark(Frame.Mark mark) {
            if (mark instanceof Frame.Start start) {
                boolean same =
                        card.map(Evidence::who).equals(Optional.of(start.card().who()));
                run += same ? 0 : 1;
                card = same ? card : Optional.of(start.card());
                reason = Optional.empty();
            } else if (mark instanceof Frame.Broken broken) {
                run++;
                card = Optional.empty();
                reason = Optional.of(broken.reason());
            }
        }
    }
}
