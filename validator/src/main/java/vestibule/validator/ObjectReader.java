package vestibule.validator;

import java.io.IOException;

/** Takes the reports on the objects of a batch, one after the other. */
@FunctionalInterface
public interface ObjectReader {

    /**
     * Takes the next report.
     *
     * @throws IOException if it cannot be written down; the batch ends there
     */
    void accept(ObjectReport report) throws IOException;
}
