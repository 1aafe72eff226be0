package vestibule.bridge.app;

import java.io.IOException;
import java.util.List;
import java.util.Optional;
import vestibule.bridge.view.SittingReport;

/** Finds out which view each photograph of a sitting shows, and how it was taken. */
interface Viewing {

    /**
     * Looks at a sitting.
     *
     * @throws IOException if a photograph cannot be read
     */
    Looked look(Sitting sitting) throws IOException;

    /**
     * What came of a sitting.
     *
     * @param looks one for each shot, in their order
     * @param report how the sitting stands against its set
     */
    record Looked(List<Look> looks, SittingReport report) {

        /** With a list that nobody can change. */
        public Looked {
            looks = List.copyOf(looks);
        }
    }

    /** What came of it for one photograph. */
    sealed interface Look {}

    /**
     * The view is decided.
     *
     * @param shown which it is
     * @param set the name of the set that the sitting is checked against
     * @param stage the stage of treatment
     * @param number Instance Number (0020,0013)
     * @param grounds why
     */
    record Seen(
            DecisionText.Shown shown,
            Optional<String> set,
            Optional<String> stage,
            Optional<Integer> number,
            List<Ground> grounds)
            implements Look {

        /** With a list that nobody can change. */
        public Seen {
            grounds = List.copyOf(grounds);
        }
    }

    /**
     * A person has to decide.
     *
     * @param reason a code that stays the same from version to version
     * @param message what is in doubt and what to do, without the name of the photograph and without a full stop
     * @param proposal what would be decided if a person agreed
     */
    record Unsure(String reason, String message, Optional<Seen> proposal) implements Look {}
}
