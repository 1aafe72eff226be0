package vestibule.bridge.view;

import java.util.List;
import java.util.Optional;

/** Which view a photograph shows, or why nobody knows. */
public sealed interface ViewRuling {

    /** The photograph it is about. */
    String photo();

    /**
     * Decided.
     *
     * @param photo the photograph
     * @param placement where on the body, which side, which way round
     * @param like the view whose direction a close-up shares
     * @param correction the correction that a person or the camera's set-up named; else it follows from view and capture
     * @param place its place in the set, from 1; empty for a photograph beside the set
     * @param stage the stage of treatment
     * @param number Instance Number (0020,0013), in the order of the set
     * @param evidence why it is believed, a few words each: {@code view: a person}, {@code capture: settings}
     */
    record Placed(
            String photo,
            Placement placement,
            Optional<View> like,
            Optional<Correction> correction,
            Optional<Integer> place,
            Optional<String> stage,
            int number,
            List<String> evidence)
            implements ViewRuling {

        /** With a list that nobody can change. */
        public Placed {
            evidence = List.copyOf(evidence);
        }

        Placed numbered(int other) {
            return new Placed(photo, placement, like, correction, place, stage, other, evidence);
        }
    }

    /**
     * A person has to say.
     *
     * @param photo the photograph
     * @param reason why
     * @param message one sentence: what is in doubt and what to do; it names no patient
     * @param proposal what would be decided if a person agreed
     */
    record InDoubt(String photo, ViewReason reason, String message, Optional<Placed> proposal) implements ViewRuling {}
}
