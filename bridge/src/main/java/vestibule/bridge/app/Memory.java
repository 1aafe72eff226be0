package vestibule.bridge.app;

import java.io.IOException;
import java.util.Collection;
import java.util.Map;

/** What was read in the bytes of photographs before, by their hashes; photographs never change, so it stays true. */
interface Memory {

    /** What is remembered of these photographs. */
    Map<String, String> recall(Collection<String> photos) throws IOException;

    /** Remembers what was read. */
    void keep(Map<String, String> readings) throws IOException;
}
