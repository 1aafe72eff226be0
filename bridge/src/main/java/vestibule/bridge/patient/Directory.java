package vestibule.bridge.patient;

import java.io.IOException;
import java.time.LocalDate;
import java.util.List;
import vestibule.dicom.data.PersonName;

/** Somebody who knows patients: an archive, a worklist, a day list. Answers may hold more than was asked for; they are looked through. */
public interface Directory {

    /**
     * Everybody with that id, of whatever issuer.
     *
     * @throws IOException if it cannot be asked, or does not answer to the end; then nothing is known, and the question is asked again
     */
    List<Known> withId(String id) throws IOException;

    /**
     * Everybody born on that day of that family name or that given name; a name may have changed since.
     *
     * @throws IOException as for {@link #withId}
     */
    List<Known> named(PersonName name, LocalDate birthDate) throws IOException;
}
