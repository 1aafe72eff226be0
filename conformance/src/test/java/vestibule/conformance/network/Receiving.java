package vestibule.conformance.network;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.LinkedBlockingQueue;
import vestibule.dicom.data.Uid;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.io.DicomFile;
import vestibule.dicom.net.AcceptorSettings;
import vestibule.dicom.net.AeTitle;
import vestibule.dicom.net.AssociationListener;
import vestibule.dicom.service.CommitmentReceiver;
import vestibule.dicom.service.CommitmentReport;
import vestibule.dicom.service.ServiceProvider;
import vestibule.dicom.service.Status;
import vestibule.dicom.service.StorageProvider;
import vestibule.dicom.service.VerificationProvider;

/** Our side of what a peer opens: objects, commitment reports and echoes come here. */
final class Receiving implements AutoCloseable {

    static final AeTitle TITLE = new AeTitle("VESTIBULE");

    private final List<Uid> instances = new CopyOnWriteArrayList<>();
    private final List<byte[]> pictures = new CopyOnWriteArrayList<>();
    private final BlockingQueue<CommitmentReport> reports = new LinkedBlockingQueue<>();
    private final StorageProvider storage;
    private final AssociationListener listener;

    Receiving(Path folder) throws IOException {
        storage = new StorageProvider(
                List.of(Uids.VL_PHOTOGRAPHIC_IMAGE_STORAGE),
                List.of(Uids.JPEG_BASELINE8_BIT),
                Files.createDirectories(folder.resolve("arriving")),
                1 << 30,
                received -> {
                    DicomFile file = DicomFile.read(received.file());
                    pictures.add(NetworkPhotographs.picture(file));
                    instances.add(file.sopInstance().orElseThrow());
                    return Status.SUCCESS;
                });
        listener = new ServiceProvider(List.of(
                        new VerificationProvider(),
                        storage,
                        new CommitmentReceiver((report, from) -> reports.add(report))))
                .listen(
                        new InetSocketAddress(InetAddress.getLoopbackAddress(), 0),
                        AcceptorSettings.of(TITLE, List.of()));
    }

    int port() {
        return listener.address().getPort();
    }

    StorageProvider storage() {
        return storage;
    }

    List<Uid> instances() {
        return instances;
    }

    List<byte[]> pictures() {
        return pictures;
    }

    BlockingQueue<CommitmentReport> reports() {
        return reports;
    }

    void forget() {
        instances.clear();
        pictures.clear();
    }

    @Override
    public void close() {
        listener.close();
    }
}
