package vestibule.bridge.patient;

import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * Frames whose camera noted no time, among those of which it did. Their names alone say where they lie, and a name alone ties nothing to a
 * card: a photograph gets the card that both of its neighbours have, and a card puts everything in doubt that may have been taken after it.
 */
final class Undated {

    private final List<Gap> gaps = new ArrayList<>();

    /** @param cameras the frames of each camera, by name */
    Undated(List<List<Frame>> cameras) {
        cameras.forEach(this::add);
    }

    /**
     * Where a frame lies by its name.
     *
     * @param frame the frame without a time
     * @param before the last frame of its camera before it that has a time
     * @param after the first one after it
     */
    private record Gap(Frame frame, Optional<Frame> before, Optional<Frame> after) {

        /** Whether the frame may have been taken after a mark, if there is one, and before another frame. */
        boolean mayLie(Optional<Frame> mark, Frame other) {
            Optional<LocalDateTime> marked = mark.flatMap(Frame::taken);
            return earlier(before.flatMap(Frame::taken), other.taken()) && earlier(marked, after.flatMap(Frame::taken));
        }

        /** Whether one is before the other, as far as both are known. */
        private static boolean earlier(Optional<LocalDateTime> one, Optional<LocalDateTime> other) {
            return one.isEmpty() || other.isEmpty() || one.get().isBefore(other.get());
        }

        /** Whether it is the card that the mark is too. */
        boolean saysTheSame(Optional<Frame> mark) {
            return who(frame).isPresent() && who(frame).equals(mark.flatMap(Gap::who));
        }

        private static Optional<Identity> who(Frame frame) {
            return frame.mark()
                    .filter(Frame.Start.class::isInstance)
                    .map(mark -> ((Frame.Start) mark).card().who());
        }
    }

    private void add(List<Frame> named) {
        int first = gaps.size();
        Optional<Frame> before = Optional.empty();
        for (Frame frame : named) {
            if (frame.taken().isPresent()) {
                before = Optional.of(frame);
            } else {
                gaps.add(new Gap(frame, before, Optional.empty()));
            }
        }
        Optional<Frame> after = Optional.empty();
        int at = gaps.size();
        for (int i = named.size() - 1; i >= 0 && at > first; i--) {
            if (named.get(i).taken().isPresent()) {
                after = Optional.of(named.get(i));
            } else {
                at--;
                gaps.set(at, new Gap(gaps.get(at).frame(), gaps.get(at).before(), after));
            }
        }
    }

    /**
     * The frames that a card without a time may lie before, though by time they follow another one.
     *
     * @param dated frames with a time, by time
     */
    List<Frame> inDoubt(List<Frame> dated) {
        List<Gap> marks =
                gaps.stream().filter(gap -> gap.frame().mark().isPresent()).toList();
        List<Frame> doubts = new ArrayList<>();
        Optional<Frame> last = Optional.empty();
        for (Frame frame : dated) {
            if (frame.mark().isPresent()) {
                last = Optional.of(frame);
                continue;
            }
            Optional<Frame> mark = last;
            if (marks.stream().anyMatch(gap -> gap.mayLie(mark, frame) && !gap.saysTheSame(mark))) {
                doubts.add(frame);
            }
        }
        return doubts;
    }

    /**
     * Places them beside the others.
     *
     * @param cards whether there are any cards that could count for them
     * @param first the run of those that have no neighbour
     * @param places where the frames with a time lie; theirs are added
     */
    void place(boolean cards, int first, Map<String, Sittings.Place> places) {
        for (Gap gap : gaps) {
            Optional<Sittings.Place> before =
                    gap.before().flatMap(frame -> Optional.ofNullable(places.get(frame.key())));
            Optional<Sittings.Place> after = gap.after().flatMap(frame -> Optional.ofNullable(places.get(frame.key())));
            int run = before.or(() -> after).map(Sittings.Place::run).orElse(first);
            Optional<Sittings.Place> same = before.filter(place -> after.equals(Optional.of(place)));
            places.put(
                    gap.frame().key(),
                    cards
                            ? same.orElseGet(
                                    () -> new Sittings.Place(run, Optional.empty(), Optional.of(Reason.ORDER_UNCLEAR)))
                            : new Sittings.Place(run, Optional.empty(), Optional.of(Reason.NO_PATIENT)));
        }
    }

    /** The time that each of them is thought to have when photographs are laid in order: that of its neighbour by name. */
    Map<String, LocalDateTime> thought() {
        Map<String, LocalDateTime> times = new HashMap<>();
        for (Gap gap : gaps) {
            gap.before()
                    .or(gap::after)
                    .flatMap(Frame::taken)
                    .ifPresent(time -> times.put(gap.frame().key(), time));
        }
        return times;
    }
}
