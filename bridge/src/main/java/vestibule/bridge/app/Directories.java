package vestibule.bridge.app;

import java.io.IOException;
import java.time.LocalDate;
import java.util.List;
import java.util.Set;
import vestibule.bridge.patient.Diary;
import vestibule.bridge.patient.Directory;

/** Who can be asked about patients, opened anew for each round of decisions. */
@FunctionalInterface
interface Directories {

    /** Nobody. */
    Directories NONE = days -> new Opened(List.of(), Diary.EMPTY);

    /**
     * Those to ask, those that are believed first in front.
     *
     * @param days the days on which the photographs were taken
     * @throws IOException if one of them cannot be read or asked
     */
    Opened open(Set<LocalDate> days) throws IOException;

    /**
     * Directories of one round.
     *
     * @param all those to ask
     * @param diary the appointments of the chair, if they are of one chair
     */
    record Opened(List<Directory> all, Diary diary) {

        /** With a list that nobody can change. */
        public Opened {
            all = List.copyOf(all);
        }
    }
}
