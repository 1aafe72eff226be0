package vestibule.dicom.service;

import java.io.IOException;
import java.io.PrintStream;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.StandardSocketOptions;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.channels.ServerSocketChannel;
import java.nio.channels.SocketChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.io.DicomFile;
import vestibule.dicom.net.AcceptorSettings;
import vestibule.dicom.net.AeTitle;
import vestibule.dicom.net.ApplicationEntity;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.AssociationListener;
import vestibule.dicom.net.AssociationRequest;
import vestibule.dicom.net.Deadlines;
import vestibule.dicom.net.Tool;

/**
 * How fast objects are sent and received over loopback, next to DCMTK's programs in the same run. A program, not a test: figures of one run on a
 * shared machine say something as ratios only.
 */
public final class StoreSpeed {

    private static final int OBJECTS = 100;
    private static final int BYTES = 4_400_000;

    private final Path folder;
    private final List<DicomFile> files = new ArrayList<>();
    private final PrintStream out = new PrintStream(System.out, true, StandardCharsets.UTF_8);

    private StoreSpeed(Path folder) {
        this.folder = folder;
    }

    public static void main(String[] arguments) throws IOException {
        Path folder = Files.createTempDirectory("store-speed");
        try {
            new StoreSpeed(folder).run();
        } finally {
            delete(folder);
        }
    }

    private interface Work {
        void run() throws IOException;
    }

    private static double objectsPerSecond(Work work) throws IOException {
        long start = System.nanoTime();
        work.run();
        return OBJECTS / (Duration.ofNanos(System.nanoTime() - start).toNanos() / 1e9);
    }

    private void run() throws IOException {
        Path objects = Files.createDirectories(folder.resolve("objects"));
        for (int i = 0; i < OBJECTS; i++) {
            files.add(Objects.photo(objects, BYTES, i));
        }
        double plain = Math.max(plainTransfer(), plainTransfer());
        out.printf("plain transferTo over loopback          %8.0f objects/s%n", plain);
        sending("stock, thrown away", Map.of(), plain, "--ignore");
        sending("stock, written to disk", Map.of(), plain);
        Map<String, String> noDelay = Map.of("TCP_NODELAY", "1");
        sending("no Nagle, PDU 131072, thrown away", noDelay, plain, "--ignore", "--max-pdu", "131072");
        sending("no Nagle, PDU 131072, written to disk", noDelay, plain, "--max-pdu", "131072");
        receiving();
    }

    private void sending(String name, Map<String, String> environment, double plain, String... options)
            throws IOException {
        Path received = Files.createDirectories(folder.resolve("received"));
        int port = Tool.freePort();
        List<String> command = new ArrayList<>(List.of("storescp", "+xa", "+B", "+uf", "-od", received.toString()));
        command.addAll(List.of(options));
        command.add(String.valueOf(port));
        try (Tool storescp = Tool.serve(folder, port, environment, command.toArray(String[]::new))) {
            double theirs = objectsPerSecond(() -> storescu(environment, "ANY", port));
            delete(received);
            Files.createDirectories(received);
            send(port);
            delete(received);
            Files.createDirectories(received);
            double ours = objectsPerSecond(() -> send(port));
            out.printf(
                    "sending to storescp, %-38s ours %6.0f, storescu %6.0f objects/s: %5.1f times; %.2f of plain%n",
                    name, ours, theirs, ours / theirs, ours / plain);
            if (storescp.output().contains("E: ")) {
                out.println(storescp.output());
            }
        } finally {
            delete(received);
        }
    }

    private void storescu(Map<String, String> environment, String called, int port) throws IOException {
        Tool.run(
                        folder,
                        environment,
                        "storescu",
                        "-xy",
                        "+sd",
                        "--max-send-pdu",
                        "131072",
                        "-aec",
                        called,
                        "127.0.0.1",
                        String.valueOf(port),
                        folder.resolve("objects").toString())
                .succeeded();
    }

    private void send(int port) throws IOException {
        ApplicationEntity peer = new ApplicationEntity(new AeTitle("ANY"), "127.0.0.1", port);
        AssociationRequest request = AssociationRequest.of(new AeTitle("VESTIBULE"), StorageUser.proposals(files));
        try (Association association = Association.open(request, peer, Deadlines.DEFAULT)) {
            StorageUser user = new StorageUser(association);
            for (DicomFile file : files) {
                StoreOutcome outcome = user.store(file);
                if (!(outcome instanceof StoreOutcome.Stored)) {
                    throw new IOException(outcome.toString());
                }
            }
        }
    }

    private void receiving() throws IOException {
        Path received = Files.createDirectories(folder.resolve("received"));
        Map<String, String> noDelay = Map.of("TCP_NODELAY", "1");
        int port = Tool.freePort();
        double theirs;
        try (Tool storescp = Tool.serve(
                folder,
                port,
                noDelay,
                "storescp",
                "+xa",
                "+B",
                "+uf",
                "--max-pdu",
                "131072",
                "-od",
                received.toString(),
                String.valueOf(port))) {
            theirs = objectsPerSecond(() -> storescu(noDelay, "ANY", port));
            out.print(storescp.output());
        }
        delete(received);
        Files.createDirectories(received);
        StorageProvider provider = new StorageProvider(
                List.of(Uids.VL_PHOTOGRAPHIC_IMAGE_STORAGE),
                List.of(Uids.JPEG_BASELINE8_BIT),
                received,
                1 << 30,
                object -> {
                    Path kept = received.resolve(object.sopInstance().value() + ".dcm");
                    Files.move(object.file(), kept, StandardCopyOption.REPLACE_EXISTING);
                    return Status.SUCCESS;
                });
        try (AssociationListener listener = new ServiceProvider(List.of(provider))
                .listen(
                        new InetSocketAddress(InetAddress.getLoopbackAddress(), 0),
                        AcceptorSettings.of(new AeTitle("ANY"), List.of()))) {
            int ownPort = listener.address().getPort();
            storescu(noDelay, "ANY", ownPort);
            double ours = objectsPerSecond(() -> storescu(noDelay, "ANY", ownPort));
            double both = objectsPerSecond(() -> send(ownPort));
            out.printf(
                    "receiving from storescu to disk: ours with fsync %.0f, storescp without %.0f objects/s: %.1f times;"
                            + " ours to ours %.0f%n",
                    ours, theirs, ours / theirs, both);
        }
    }

    private double plainTransfer() throws IOException {
        try (ServerSocketChannel server =
                ServerSocketChannel.open().bind(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0))) {
            Thread reader = new Thread(() -> drain(server), "drain");
            reader.start();
            double rate = objectsPerSecond(() -> {
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
                    socket.read(ByteBuffer.allocate(1));
                }
            });
            return rate;
        }
    }

    private static void drain(ServerSocketChannel server) {
        try (SocketChannel socket = server.accept()) {
            ByteBuffer buffer = ByteBuffer.allocateDirect(1 << 18);
            while (socket.read(buffer.clear()) >= 0) {
                buffer.clear();
            }
        } catch (IOException e) {
            throw new java.io.UncheckedIOException(e);
        }
    }

    private static void delete(Path path) throws IOException {
        if (!Files.exists(path)) {
            return;
        }
        try (Stream<Path> paths = Files.walk(path)) {
            for (Path each : paths.sorted(Comparator.reverseOrder()).toList()) {
                Files.delete(each);
            }
        }
    }
}
