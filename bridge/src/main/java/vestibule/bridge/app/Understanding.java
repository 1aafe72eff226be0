package vestibule.bridge.app;

import java.io.IOException;
import java.nio.file.Path;
import vestibule.bridge.settings.Settings;

/** Who understands photographs, by the settings of a practice: the two sides of the door to what keeps them safe. */
interface Understanding {

    /** Who decides. */
    Deciding deciding(Settings settings) throws Failure, IOException;

    /**
     * Who makes objects.
     *
     * @param scratch a folder where pictures in the making may lie for a moment
     */
    Making making(Settings settings, Path scratch) throws Failure, IOException;
}
