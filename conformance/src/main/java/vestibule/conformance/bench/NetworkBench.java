package vestibule.conformance.bench;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.StandardSocketOptions;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.channels.ServerSocketChannel;
import java.nio.channels.SocketChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.io.DicomFile;
import vestibule.dicom.net.AcceptorSettings;
import vestibule.dicom.net.AeTitle;
import vestibule.dicom.net.ApplicationEntity;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.AssociationListener;
import vestibule.dicom.net.AssociationRequest;
import vestibule.dicom.net.Deadlines;
import vestibule.dicom.service.ServiceProvider;
import vestibule.dicom.service.Status;
import vestibule.dicom.service.StorageProvider;
import vestibule.dicom.service.StorageUser;
import vestibule.dicom.service.StoreOutcome;

/**
 * 100 objects of 4.4 MB over loopback, sent and received by us and by DCMTK's programs. By turns, so that both meet the same machine; the best
 * run of each counts.
 */
public final class NetworkBench {

    private static final int OBJECTS = 100;
    private static final int BYTES = 4_400_000;
    private static final int OPENED = 20_000;
    private static final AeTitle ANY = new AeTitle("ANY");
    private static final Map<String, String> STOCK = Map.of();
    private static final Map<String, String> NO_DELAY = Map.of("TCP_NODELAY", "1");

    private final Path folder;
    private final int rounds;
    private final List<DicomFile> files;

    private NetworkBench(Path folder, int rounds) throws IOException {
        this.folder = folder;
        this.rounds = rounds;
        this.files = SampleObjects.write(folder.resolve("objects"), OBJECTS, BYTES);
    }

    /** Arguments: how many rounds (default 3). */
    public static void main(String[] arguments) throws IOException {
        int rounds = arguments.length > 0 ? Integer.parseInt(arguments[0]) : 3;
        Path folder = Files.createTempDirectory("vestibule-network");
        try {
            new NetworkBench(folder, rounds).run();
        } finally {
            SampleObjects.delete(folder);
        }
    }

    private interface Work {
        void run() throws IOException;
    }

    private static double perSecond(int count, Work work) throws IOException {
        long start = System.nanoTime();
        work.run();
        return count / ((System.nanoTime() - start) / 1e9);
    }

    private void run() throws IOException {
        opening();
        double plain = 0;
        for (int i = 0; i < rounds; i++) {
            plain = Math.max(plain, perSecond(OBJECTS, this::plainTransfer));
        }
        System.out.printf("plain transferTo of the same bytes: %.0f objects/s%n", plain);
        sending("stock, thrown away (aim 10)", STOCK, plain, "--ignore");
        sending("stock, to disk (aim 7)", STOCK, plain);
        sending("Nagle off, thrown away (aim 1.0)", NO_DELAY, plain, "--ignore", "--max-pdu", "131072");
        sending("Nagle off, to disk (aim 1.0)", NO_DELAY, plain, "--max-pdu", "131072");
        receiving(plain);
    }

    private void opening() throws IOException {
        double best = 0;
        for (int round = 0; round <= rounds; round++) {
            double rate = perSecond(OPENED, () -> {
                for (int i = 0; i < OPENED; i++) {
                    DicomFile.read(files.get(i % OBJECTS).path());
                }
            });
            best = Math.max(best, rate);
        }
        System.out.printf("opening a header without pixel data: %.0f files/s (aim 5000)%n", best);
    }

    private void sending(String name, Map<String, String> environment, double plain, String... options)
            throws IOException {
        Path received = SampleObjects.emptied(folder.resolve("received"));
        int port = DcmtkProgram.freePort();
        List<String> command = new ArrayList<>(List.of("storescp", "+xa", "+B", "+uf", "-od", received.toString()));
        command.addAll(List.of(options));
        command.add(String.valueOf(port));
        double theirs = 0;
        double ours = 0;
        try (DcmtkProgram receiver = DcmtkProgram.serve(folder, port, environment, command)) {
            for (int i = 0; i < rounds; i++) {
                theirs = Math.max(theirs, perSecond(OBJECTS, () -> storescu(environment, port)));
                SampleObjects.emptied(received);
                ours = Math.max(ours, perSecond(OBJECTS, () -> send(port)));
                SampleObjects.emptied(received);
                receiver.stillRuns();
            }
        }
        System.out.printf(
                "sending to storescp, %s: ours %.0f, storescu %.0f objects/s, ratio %.2f; %.2f of plain%n",
                name, ours, theirs, ours / theirs, ours / plain);
    }

    private void storescu(Map<String, String> environment, int port) throws IOException {
        DcmtkProgram.run(
                folder,
                environment,
                List.of(
                        "storescu",
                        "-xy",
                        "+sd",
                        "--max-send-pdu",
                        "131072",
                        "-aec",
                        ANY.value(),
                        "127.0.0.1",
                        String.valueOf(port),
                        folder.resolve("objects").toString()));
    }

    private void send(int port) throws IOException {
        AssociationRequest request = AssociationRequest.of(ANY, StorageUser.proposals(files));
        try (Association association =
                Association.open(request, new ApplicationEntity(ANY, "127.0.0.1", port), Deadlines.DEFAULT)) {
            StorageUser user = new StorageUser(association);
            for (DicomFile file : files) {
                StoreOutcome outcome = user.store(file);
                if (!(outcome instanceof StoreOutcome.Stored)) {
                    throw new IOException("not stored: " + outcome);
                }
            }
        }
    }

    private void receiving(double plain) throws IOException {
        Path received = SampleObjects.emptied(folder.resolve("received"));
        int port = DcmtkProgram.freePort();
        List<String> command = List.of(
                "storescp",
                "+xa",
                "+B",
                "+uf",
                "--max-pdu",
                "131072",
                "-od",
                received.toString(),
                String.valueOf(port));
        double theirs = 0;
        double ours = 0;
        double both = 0;
        double disk = 0;
        try (DcmtkProgram storescp = DcmtkProgram.serve(folder, port, NO_DELAY, command);
                AssociationListener listener = new ServiceProvider(List.of(keeping(received)))
                        .listen(
                                new InetSocketAddress(InetAddress.getLoopbackAddress(), 0),
                                AcceptorSettings.of(ANY, List.of()))) {
            int own = listener.address().getPort();
            for (int i = 0; i < rounds; i++) {
                theirs = Math.max(theirs, perSecond(OBJECTS, () -> storescu(NO_DELAY, port)));
                SampleObjects.emptied(received);
                ours = Math.max(ours, perSecond(OBJECTS, () -> storescu(NO_DELAY, own)));
                SampleObjects.emptied(received);
                both = Math.max(both, perSecond(OBJECTS, () -> send(own)));
                SampleObjects.emptied(received);
                disk = Math.max(disk, perSecond(OBJECTS, () -> copiesOnDisk(received)));
                SampleObjects.emptied(received);
                storescp.stillRuns();
            }
        }
        System.out.printf(
                "receiving from storescu to disk: ours with fsync %.0f, storescp without %.0f objects/s, ratio %.2f (aim 1.0)%n",
                ours, theirs, ours / theirs);
        System.out.printf(
                "copying the same files with fsync, no network: %.0f objects/s; receiving with fsync is %.2f of that%n",
                disk, ours / disk);
        System.out.printf("ours to ours, with fsync: %.0f objects/s, %.2f of plain%n", both, both / plain);
    }

    /** What the disk lets anybody do who forces each file: no receiver that does can be faster. */
    private void copiesOnDisk(Path folderOfCopies) throws IOException {
        for (DicomFile file : files) {
            Path copy = folderOfCopies.resolve(file.path().getFileName());
            try (FileChannel from = FileChannel.open(file.path());
                    FileChannel to = FileChannel.open(copy, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE)) {
                from.transferTo(0, from.size(), to);
                to.force(true);
            }
        }
    }

    private static StorageProvider keeping(Path received) {
        return new StorageProvider(
                List.of(Uids.VL_PHOTOGRAPHIC_IMAGE_STORAGE),
                List.of(Uids.JPEG_BASELINE8_BIT),
                received,
                1 << 30,
                object -> {
                    Path kept = received.resolve(object.sopInstance().value() + ".dcm");
                    Files.move(object.file(), kept, StandardCopyOption.REPLACE_EXISTING);
                    return Status.SUCCESS;
                });
    }

    private void plainTransfer() throws IOException {
        try (ServerSocketChannel server =
                ServerSocketChannel.open().bind(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0))) {
            Thread reader = new Thread(() -> drain(server), "drain");
            reader.start();
            try (SocketChannel socket = SocketChannel.open(server.getLocalAddress())) {
                socket.setOption(StandardSocketOptions.TCP_NODELAY, true);
                for (DicomFile file : files) {
                    try (FileChannel channel = FileChannel.open(file.path())) {
                        long done = 0;
                        while (done < channel.size()) {
                            done += channel.transferTo(done, channel.size() - done, socket);
                        }
                    }
                }
                socket.shutdownOutput();
                if (socket.read(ByteBuffer.allocate(1)) >= 0) {
                    throw new IOException("the reader answered, which it does not do");
                }
            }
        }
    }

    private static void drain(ServerSocketChannel server) {
        try (SocketChannel socket = server.accept()) {
            ByteBuffer buffer = ByteBuffer.allocateDirect(1 << 18);
            while (socket.read(buffer) >= 0) {
                buffer.clear();
            }
        } catch (IOException e) {
            throw new java.io.UncheckedIOException(e);
        }
    }
}
