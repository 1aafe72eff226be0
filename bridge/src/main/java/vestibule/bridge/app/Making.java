package vestibule.bridge.app;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;

/** From a photograph and its decision to the DICOM files of it: a pure function, the same bytes every time. */
interface Making {

    /**
     * Makes the objects of a photograph, checked; there are all of them or none.
     *
     * @param original the photograph
     * @param decision as {@link Deciding.Decided#decision} gave it
     * @param into a folder of its own, where the files go
     * @return the files, one or two: where a picture as recorded is kept beside the corrected one it comes first
     * @throws Failure if no object can be made of it, with the reason; then a person has to look at it
     * @throws IOException if a file cannot be read or written
     */
    List<Made> make(Path original, String decision, Path into) throws Failure, IOException;

    /**
     * One DICOM file.
     *
     * @param file where it lies
     * @param sopClass SOP Class UID (0008,0016)
     * @param sopInstance SOP Instance UID (0008,0018)
     */
    record Made(Path file, String sopClass, String sopInstance) {}
}
