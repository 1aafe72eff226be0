package vestibule.conformance.bench;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.List;
import java.util.Random;
import vestibule.dicom.data.Bulk;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Element;
import vestibule.dicom.data.VR;
import vestibule.dicom.data.Value;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.io.DicomFile;
import vestibule.dicom.io.TransferSyntax;
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
 * Writes an object whose pixel data is a file region of 2 GB, sends it, receives it, and compares marks along the way; to be run with 64 MB of
 * heap. A program, for it needs 4 GB of disk.
 */
public final class LargeObject {

    private static final long PIXELS = 2L << 30;
    private static final long MARK_EVERY = (256L << 20) + 8;
    private static final AeTitle TITLE = new AeTitle("LARGE");

    private LargeObject() {}

    /** Arguments: how many bytes of pixel data (default 2 GB). */
    public static void main(String[] arguments) throws IOException {
        long size = arguments.length > 0 ? Long.parseLong(arguments[0]) : PIXELS;
        Path folder = Files.createTempDirectory("vestibule-large");
        try {
            run(folder, size);
        } finally {
            SampleObjects.delete(folder);
        }
    }

    private static void run(Path folder, long size) throws IOException {
        Path pixels = marked(folder.resolve("pixels"), size);
        DataSet dataSet = SampleObjects.header(new Random(1))
                .put(new Element(Attributes.PIXEL_DATA.tag(), VR.OB, new Value.Binary(Bulk.of(pixels, 0, size))))
                .build();
        Path file = folder.resolve("object.dcm");
        long start = System.nanoTime();
        DicomFile.write(file, dataSet, TransferSyntax.EXPLICIT_VR_LITTLE_ENDIAN);
        long written = System.nanoTime();
        Files.delete(pixels);
        DicomFile object = DicomFile.read(file);
        check(object, size);
        long read = System.nanoTime();
        sendAndReceive(folder, object, size);
        System.out.printf(
                "%d bytes of pixel data, heap of %d MB: written in %.1f s, sent and received to disk in %.1f s%n",
                size,
                Runtime.getRuntime().maxMemory() >> 20,
                (written - start) / 1e9,
                (System.nanoTime() - read) / 1e9);
    }

    /** A sparse file with its own offset at every mark. */
    private static Path marked(Path file, long size) throws IOException {
        try (FileChannel channel = FileChannel.open(
                file, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE, StandardOpenOption.SPARSE)) {
            for (long offset = 0; offset <= size - Long.BYTES; offset += MARK_EVERY) {
                channel.write(
                        ByteBuffer.allocate(Long.BYTES).putLong(offset + 1).flip(), offset);
            }
            channel.write(ByteBuffer.allocate(1).put((byte) 0x55).flip(), size - 1);
        }
        return file;
    }

    private static void check(DicomFile object, long size) throws IOException {
        Value value = object.dataSet().find(Attributes.PIXEL_DATA).orElseThrow().value();
        if (!(value instanceof Value.Binary binary) || binary.bulk().length() != size) {
            throw new IOException("the pixel data has not the %d bytes it was written with".formatted(size));
        }
        for (long offset = 0; offset <= size - Long.BYTES; offset += MARK_EVERY) {
            long mark = ByteBuffer.wrap(binary.bulk().part(offset, Long.BYTES).bytes(Long.BYTES))
                    .getLong();
            if (mark != offset + 1) {
                throw new IOException("the pixel data is another at byte " + offset);
            }
        }
        if (binary.bulk().part(size - 1, 1).bytes(1)[0] != 0x55) {
            throw new IOException("the pixel data ends otherwise");
        }
    }

    private static void sendAndReceive(Path folder, DicomFile object, long size) throws IOException {
        Path arriving = Files.createDirectories(folder.resolve("arriving"));
        StorageProvider storage = new StorageProvider(
                List.of(Uids.VL_PHOTOGRAPHIC_IMAGE_STORAGE),
                List.of(Uids.EXPLICIT_VR_LITTLE_ENDIAN),
                arriving,
                2 * size + (1 << 20),
                received -> {
                    check(DicomFile.read(received.file()), size);
                    return Status.SUCCESS;
                });
        try (AssociationListener listener = new ServiceProvider(List.of(storage))
                        .listen(
                                new InetSocketAddress(InetAddress.getLoopbackAddress(), 0),
                                AcceptorSettings.of(TITLE, List.of()));
                Association association = Association.open(
                        AssociationRequest.of(TITLE, StorageUser.proposals(List.of(object))),
                        new ApplicationEntity(
                                TITLE, "127.0.0.1", listener.address().getPort()),
                        Deadlines.DEFAULT)) {
            StoreOutcome outcome = new StorageUser(association).store(object);
            if (!(outcome instanceof StoreOutcome.Stored)) {
                throw new IOException("the object was not stored: " + outcome);
            }
        }
    }
}
