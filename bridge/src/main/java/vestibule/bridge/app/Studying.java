package vestibule.bridge.app;

import java.io.IOException;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import vestibule.bridge.object.Visit;
import vestibule.dicom.data.Uid;

/** Finds out which study and series a sitting goes into, and numbers its photographs. */
interface Studying {

    /**
     * The place of each photograph.
     *
     * @param sitting of a patient who is decided
     * @param looks what was found out about the view of each shot
     * @throws IOException if an archive cannot be asked; the question is asked again later
     */
    Studied study(Sitting sitting, List<Viewing.Look> looks) throws IOException;

    /** What came of it. */
    sealed interface Studied {}

    /**
     * Decided.
     *
     * @param visits one for each shot, in their order
     * @param why what decided, a few words
     */
    record Visits(List<Visit> visits, String why) implements Studied {

        /** With a list that nobody can change. */
        public Visits {
            visits = List.copyOf(visits);
        }

        /** The studies they are in, each once. */
        Set<Uid> studies() {
            return visits.stream().flatMap(visit -> visit.study().stream()).collect(Collectors.toSet());
        }
    }

    /**
     * A person has to decide; {@code study} is what the answer is about.
     *
     * @param reason a code that stays the same from version to version
     * @param message what is in doubt and what to do, without a full stop
     */
    record Undecided(String reason, String message) implements Studied {}
}
