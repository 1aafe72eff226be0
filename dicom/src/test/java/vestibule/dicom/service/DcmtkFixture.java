package vestibule.dicom.service;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.io.TempDir;
import vestibule.dicom.net.AcceptorSettings;
import vestibule.dicom.net.AeTitle;
import vestibule.dicom.net.ApplicationEntity;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.AssociationListener;
import vestibule.dicom.net.AssociationRequest;
import vestibule.dicom.net.Deadlines;
import vestibule.dicom.net.ProposedContext;

/** What tests against DCMTK share: folders, our listeners and associations, closed at the end. */
abstract class DcmtkFixture {

    static final Duration LONG = Duration.ofSeconds(20);

    @TempDir
    Path folder;

    Path objects;
    Path received;
    private final List<AutoCloseable> opened = new ArrayList<>();

    @BeforeEach
    void folders() throws IOException {
        objects = Files.createDirectories(folder.resolve("objects"));
        received = Files.createDirectories(folder.resolve("received"));
    }

    @AfterEach
    void close() throws Exception {
        for (int i = opened.size() - 1; i >= 0; i--) {
            opened.get(i).close();
        }
    }

    <T extends AutoCloseable> T closedLater(T resource) {
        opened.add(resource);
        return resource;
    }

    String listening(ProvidedService... services) throws IOException {
        AssociationListener listener = closedLater(new ServiceProvider(List.of(services))
                .listen(
                        new InetSocketAddress(InetAddress.getLoopbackAddress(), 0),
                        AcceptorSettings.of(new AeTitle("ARCHIVE"), List.of())));
        return String.valueOf(listener.address().getPort());
    }

    Association associate(int port, String called, List<ProposedContext> contexts) throws IOException {
        return closedLater(Association.open(
                AssociationRequest.of(new AeTitle("VESTIBULE"), contexts),
                new ApplicationEntity(new AeTitle(called), "127.0.0.1", port),
                Deadlines.DEFAULT));
    }
}
