package vestibule.bridge.intake;

import java.util.Optional;
import vestibule.dicom.jpeg.HalfSize;

/** A look at a photograph while it is taken in: all its codes are decoded then, and need not be once more only to be looked at. */
public interface Glance {

    /**
     * Looks.
     *
     * @return what is to be remembered of the photograph; empty where it has to be looked at more closely later
     */
    Optional<String> at(HalfSize picture);
}
