package vestibule.bridge.app;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Optional;
import vestibule.bridge.delivery.Destination;
import vestibule.bridge.settings.Settings;

/** Who understands photographs, by the settings of a practice: the two sides of the door to what keeps them safe. */
interface Understanding {

    /**
     * Who decides.
     *
     * @param archive the archive that photographs are sent to, which may know patients
     * @param ourTitle our own application entity title
     * @param memory what was read in photographs before
     */
    Deciding deciding(Settings settings, Optional<Destination> archive, String ourTitle, Memory memory)
            throws Failure, IOException;

    /**
     * Who makes objects.
     *
     * @param scratch a folder where pictures in the making may lie for a moment
     */
    Making making(Settings settings, Path scratch) throws Failure, IOException;
}
