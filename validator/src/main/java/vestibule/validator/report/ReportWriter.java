package vestibule.validator.report;

import java.io.Closeable;
import java.io.IOException;
import vestibule.validator.ObjectReport;
import vestibule.validator.Summary;

/** Writes one report while the batch is being judged: objects in their order, then the summary. */
public interface ReportWriter extends Closeable {

    /** Adds an object. */
    void object(ObjectReport object) throws IOException;

    /** Ends the report. */
    void end(Summary summary) throws IOException;

    /** Lets go of what the report held on the way; its target stays open. */
    @Override
    default void close() throws IOException {}
}
