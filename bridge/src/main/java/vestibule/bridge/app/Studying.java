package vestibule.bridge.app;

import java.io.IOException;
import java.util.List;
import vestibule.bridge.object.Visit;

/** Finds out which study and series a sitting goes into, and numbers its photographs. */
interface Studying {

    /**
     * The place of each photograph.
     *
     * @param sitting of a patient who is decided
     * @param looks what was found out about the view of each shot
     * @return one visit for each shot, in their order
     * @throws IOException if an archive cannot be asked; the question is asked again later
     */
    List<Visit> visits(Sitting sitting, List<Viewing.Look> looks) throws IOException;
}
