package vestibule.validator.report;

import java.io.Closeable;
import java.io.IOException;
import vestibule.validator.BatchReport;
import vestibule.validator.ObjectReport;

/** Writes one report while the batch is being judged: objects in their order, then the whole. */
public interface ReportWriter extends Closeable {

    /** Adds an object. */
    void object(ObjectReport object) throws IOException;

    /** Ends the report with what is said of the batch as a whole. */
    void end(BatchReport whole) throws IOException;

    /** Lets go of what the report held on the way; its target stays open. */
    @Override
    default void close() throws IOException {}
}
