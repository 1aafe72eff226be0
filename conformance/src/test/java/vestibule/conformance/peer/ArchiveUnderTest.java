package vestibule.conformance.peer;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.params.provider.Arguments;

/** An imaging archive that nobody here wrote, empty when a test gets it, reachable at a free port of this machine. */
public interface ArchiveUnderTest extends AutoCloseable {

    /** What to call it in a test report. */
    String name();

    /** Where it listens. */
    String host();

    /** On which port. */
    int port();

    /** Its Application Entity title. */
    String title();

    /** The stored file of that instance, written to a folder; absent instances fail the test. */
    Path fetch(String sopInstanceUid, Path folder) throws IOException;

    /** The SOP Instance UIDs it has. */
    List<String> instances() throws IOException;

    /** The names of the patients it has, as it shows them. */
    List<String> patientNames() throws IOException;

    @Override
    void close() throws IOException;

    /** The address for a command line. */
    default String url() {
        return "dicom://%s:%d/%s".formatted(host(), port(), title());
    }

    /** How one of them is started. */
    @FunctionalInterface
    interface Provider {
        /** A new and empty one; the test is skipped, saying so, where this machine cannot start it. */
        ArchiveUnderTest start() throws IOException;
    }

    /** For parameterised tests: a process of this machine, and a container. */
    static Stream<Arguments> providers() {
        Provider process = OrthancProcess::start;
        Provider container = OrthancContainer::start;
        return Stream.of(
                Arguments.argumentSet("Orthanc as a process", process),
                Arguments.argumentSet("Orthanc in a container", container));
    }
}
