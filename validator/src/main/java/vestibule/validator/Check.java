package vestibule.validator;

import java.io.IOException;
import java.util.List;

/** Looks for breaches of its rules in one object. It holds no state between objects and may be used by several threads. */
public interface Check {

    /** The rules it can report. */
    List<Rule> rules();

    /**
     * Looks at one object.
     *
     * @throws IOException if the bytes behind the object cannot be read any more
     */
    void run(Subject subject, Findings findings) throws IOException;
}
