package vestibule.conformance.peer;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.Assumptions;
import org.testcontainers.DockerClientFactory;
import org.testcontainers.containers.GenericContainer;
import org.testcontainers.containers.wait.strategy.Wait;
import org.testcontainers.images.builder.Transferable;
import org.testcontainers.utility.DockerImageName;

/** Orthanc in a container, where there is a container engine: another version than the one of the system. */
public final class OrthancContainer implements ArchiveUnderTest {

    // Name and version from memory: where this was written there was no container engine to try them.
    private static final DockerImageName IMAGE = DockerImageName.parse("jodogne/orthanc:1.12.4");
    private static final String TITLE = "ARCHIVE";
    private static final int DICOM = 4242;
    private static final int WEB = 8042;
    private static final String SETTINGS = """
            {
              "Name": "an archive for tests",
              "DicomAet": "ARCHIVE",
              "DicomPort": 4242,
              "DicomCheckCalledAet": true,
              "HttpPort": 8042,
              "RemoteAccessAllowed": true,
              "AuthenticationEnabled": false
            }
            """;

    private final GenericContainer<?> container;
    private final OrthancRest rest;

    private OrthancContainer(GenericContainer<?> container) {
        this.container = container;
        this.rest = new OrthancRest(container.getHost(), container.getMappedPort(WEB));
    }

    /** Starts one; the test is skipped where there is no container engine. */
    @SuppressWarnings("resource") // closed with the archive
    public static OrthancContainer start() {
        Assumptions.assumeTrue(
                DockerClientFactory.instance().isDockerAvailable(), "there is no container engine on this machine");
        GenericContainer<?> container = new GenericContainer<>(IMAGE)
                .withExposedPorts(DICOM, WEB)
                .withCopyToContainer(Transferable.of(SETTINGS), "/etc/orthanc/orthanc.json")
                .waitingFor(Wait.forHttp("/system").forPort(WEB).withStartupTimeout(Duration.ofMinutes(3)));
        container.start();
        return new OrthancContainer(container);
    }

    @Override
    public String name() {
        return "Orthanc in a container";
    }

    @Override
    public String host() {
        return container.getHost();
    }

    @Override
    public int port() {
        return container.getMappedPort(DICOM);
    }

    @Override
    public String title() {
        return TITLE;
    }

    @Override
    public Path fetch(String sopInstanceUid, Path folder) throws IOException {
        return rest.fetch(sopInstanceUid, folder);
    }

    @Override
    public List<String> instances() throws IOException {
        return rest.instances();
    }

    @Override
    public List<String> patientNames() throws IOException {
        return rest.patientNames();
    }

    @Override
    public void close() {
        container.stop();
    }
}
