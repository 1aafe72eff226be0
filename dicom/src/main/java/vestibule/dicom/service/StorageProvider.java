package vestibule.dicom.service;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.Queue;
import java.util.concurrent.ConcurrentLinkedQueue;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Uid;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.io.DicomFile;
import vestibule.dicom.io.TransferSyntax;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.AssociationException;
import vestibule.dicom.net.CommandField;
import vestibule.dicom.net.Message;
import vestibule.dicom.net.SupportedContext;

/**
 * Receives objects (PS3.4 B, C-STORE): the bytes go from the socket to the disk as they come, and success is answered only after the file
 * has been forced to the disk and the handler has taken it.
 */
public final class StorageProvider implements ProvidedService {

    private static final Logger LOG = LoggerFactory.getLogger(StorageProvider.class);

    /** Takes an object that has been received. */
    public interface Handler {
        /**
         * Takes it, usually by moving its file.
         *
         * @return the status to answer, of the class success or warning
         * @throws RefusedException if it is not taken
         * @throws IOException if it cannot be kept; the answer is then that resources ran out
         */
        int store(ReceivedObject received) throws RefusedException, IOException;
    }

    private final List<SupportedContext> contexts;
    private final Path folder;
    private final long longestDataSet;
    private final Handler handler;

    /** One for each object that arrives at a time, used again for later ones. */
    private final Queue<ByteBuffer> buffers = new ConcurrentLinkedQueue<>();

    /**
     * @param sopClasses what is received
     * @param transferSyntaxes in which encodings, best first; all known to {@link TransferSyntax#of}
     * @param folder where files are while they arrive
     * @param longestDataSet how many bytes a data set may have
     * @param handler takes each object
     */
    public StorageProvider(
            Collection<Uid> sopClasses, List<Uid> transferSyntaxes, Path folder, long longestDataSet, Handler handler) {
        transferSyntaxes.forEach(StorageProvider::syntax);
        this.contexts = sopClasses.stream()
                .map(sopClass -> SupportedContext.provider(sopClass, transferSyntaxes))
                .toList();
        this.folder = folder;
        this.longestDataSet = longestDataSet;
        this.handler = handler;
    }

    private StorageProvider(StorageProvider other, List<SupportedContext> contexts) {
        this.contexts = contexts;
        this.folder = other.folder;
        this.longestDataSet = other.longestDataSet;
        this.handler = other.handler;
    }

    /** The same, on contexts on which a requestor may also be sent objects, as a {@link RetrieveProvider} does (PS3.7 D.3.3.4). */
    public StorageProvider givingBack() {
        return new StorageProvider(
                this,
                contexts.stream()
                        .map(context -> new SupportedContext(
                                context.abstractSyntax(), context.transferSyntaxes(), context.asProvider(), true))
                        .toList());
    }

    private static TransferSyntax syntax(Uid uid) {
        return TransferSyntax.of(uid).orElseThrow(() -> new IllegalArgumentException("no transfer syntax: " + uid));
    }

    @Override
    public List<SupportedContext> contexts() {
        return contexts;
    }

    @Override
    public void handle(Association association, Message request) throws IOException {
        if (request.command().field() != CommandField.C_STORE_RQ) {
            ServiceProvider.unrecognized(association, request);
            return;
        }
        int status = Status.SUCCESS;
        String comment = "";
        try {
            status = receive(association, request);
        } catch (RefusedException e) {
            status = e.status();
            comment = e.comment();
        } catch (AssociationException e) {
            throw e;
        } catch (IOException e) {
            LOG.error("an object could not be kept: {}", e.toString());
            status = Status.OUT_OF_RESOURCES;
            comment = "the object could not be written to disk";
        } catch (RuntimeException e) {
            LOG.error("an object was not taken by a fault of ours", e);
            status = Status.PROCESSING_FAILURE;
        }
        ServiceProvider.answer(association, request, status, comment);
    }

    private int receive(Association association, Message request) throws IOException, RefusedException {
        Uid sopClass = sopClass(request);
        Uid sopInstance = request.command()
                .sopInstance()
                .orElseThrow(
                        () -> new RefusedException(Status.MALFORMED_SOP_INSTANCE, "no well-formed SOP Instance UID"));
        if (!request.command().hasDataSet()) {
            throw new RefusedException(Status.MISTYPED_ARGUMENT, "C-STORE without a data set");
        }
        TransferSyntax syntax = syntax(request.context().transferSyntax().orElseThrow());
        DataSet meta = DicomFile.metaInformation(sopClass, sopInstance, syntax).toBuilder()
                .put(
                        Attributes.SOURCE_APPLICATION_ENTITY_TITLE,
                        association.peer().calling().value())
                .build();
        Path file = Files.createTempFile(folder, "receiving-", ".part");
        try {
            long offset = write(association, file, meta);
            return handler.store(new ReceivedObject(
                    sopClass,
                    sopInstance,
                    syntax,
                    association.peer().calling(),
                    file,
                    offset,
                    Files.size(file) - offset));
        } finally {
            Files.deleteIfExists(file);
        }
    }

    /** The SOP class of a C-STORE is the one its presentation context was negotiated for (PS3.4 B.2.1). */
    private static Uid sopClass(Message request) throws RefusedException {
        Optional<Uid> negotiated = request.context().abstractSyntax();
        return request.command()
                .sopClass()
                .filter(named -> negotiated.filter(named::equals).isPresent())
                .orElseThrow(() -> new RefusedException(
                        Status.SOP_CLASS_NOT_SUPPORTED, "the SOP class is not that of the presentation context"));
    }

    private long write(Association association, Path file, DataSet meta) throws IOException, RefusedException {
        ByteBuffer pooled = buffers.poll();
        ByteBuffer buffer = pooled == null ? DiskFile.buffer() : pooled;
        try (DiskFile disk = new DiskFile(file, buffer)) {
            DicomFile.writePrefix(disk, meta);
            long offset = disk.length();
            long length = association.receiveDataSet(disk, longestDataSet);
            if (length > longestDataSet) {
                throw new RefusedException(
                        Status.OUT_OF_RESOURCES, "at most %d bytes are taken".formatted(longestDataSet));
            }
            disk.force();
            return offset;
        } finally {
            buffers.add(buffer);
        }
    }
}
