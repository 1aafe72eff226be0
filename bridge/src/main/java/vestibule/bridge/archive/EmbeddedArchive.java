package vestibule.bridge.archive;

import java.io.IOException;
import java.net.InetSocketAddress;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Uid;
import vestibule.dicom.dict.Dictionary;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.io.DicomFormatException;
import vestibule.dicom.io.TransferSyntax;
import vestibule.dicom.net.AcceptorSettings;
import vestibule.dicom.net.AeTitle;
import vestibule.dicom.net.ApplicationEntity;
import vestibule.dicom.net.AssociationListener;
import vestibule.dicom.net.Deadlines;
import vestibule.dicom.net.tls.Tls;
import vestibule.dicom.service.CommitmentProvider;
import vestibule.dicom.service.MoveProvider;
import vestibule.dicom.service.QueryLevel;
import vestibule.dicom.service.QueryProvider;
import vestibule.dicom.service.ReceivedObject;
import vestibule.dicom.service.RefusedException;
import vestibule.dicom.service.RetrieveProvider;
import vestibule.dicom.service.ServiceProvider;
import vestibule.dicom.service.Status;
import vestibule.dicom.service.StorageProvider;
import vestibule.dicom.service.VerificationProvider;

/**
 * A small archive over a folder: verification, storage, commitment, study-root queries and retrieval by C-GET
 * and C-MOVE (PS3.4 A, B, C.6.2, J). For
 * demonstration and tests only: it has no rights, no encryption and no backup. A stored object is on the disk before it is answered with
 * success.
 */
public final class EmbeddedArchive implements AutoCloseable {

    private static final long LONGEST_OBJECT = 2L << 30;

    private final AssociationListener listener;
    private final CommitmentOffice office;

    private EmbeddedArchive(AssociationListener listener, CommitmentOffice office) {
        this.listener = listener;
        this.office = office;
    }

    /** Opens the folder and starts to listen, over plain TCP. */
    public static EmbeddedArchive start(Path folder, InetSocketAddress address, AeTitle title) throws IOException {
        return start(folder, address, title, Optional.empty());
    }

    /**
     * Opens the folder and starts to listen.
     *
     * @param folder where objects are kept; made if it is not there
     * @param address where to listen; port 0 for any free one
     * @param title the title it is called by
     * @param tls with what to secure connections; empty for plain TCP
     */
    public static EmbeddedArchive start(Path folder, InetSocketAddress address, AeTitle title, Optional<Tls> tls)
            throws IOException {
        return start(folder, address, title, tls, Map.of(), Map.of());
    }

    /**
     * The same, where the archive knows others and calls them.
     *
     * @param reportTo callers that get their commitment reports on an association of its own, and where
     * @param destinations where objects may be sent by C-MOVE
     */
    public static EmbeddedArchive start(
            Path folder,
            InetSocketAddress address,
            AeTitle title,
            Optional<Tls> tls,
            Map<AeTitle, ApplicationEntity> reportTo,
            Map<AeTitle, ApplicationEntity> destinations)
            throws IOException {
        ArchiveFolder objects = ArchiveFolder.open(folder);
        CommitmentOffice office = CommitmentOffice.open(objects, title, reportTo);
        ServiceProvider services = services(objects, office, title, Map.copyOf(destinations));
        AcceptorSettings settings = AcceptorSettings.of(title, services.contexts());
        try {
            return new EmbeddedArchive(
                    services.listen(address, tls.map(settings::withTls).orElse(settings)), office);
        } catch (IOException e) {
            office.close();
            throw e;
        }
    }

    private static ServiceProvider services(
            ArchiveFolder objects,
            CommitmentOffice office,
            AeTitle title,
            Map<AeTitle, ApplicationEntity> destinations) {
        RetrieveProvider.Handler retrieve = (identifier, calling) -> retrieve(objects, identifier);
        return new ServiceProvider(List.of(
                new VerificationProvider(),
                new CommitmentProvider(office),
                storage(objects),
                new QueryProvider(
                        Uids.STUDY_ROOT_QUERY_RETRIEVE_INFORMATION_MODEL_FIND,
                        (identifier, calling) -> find(objects, identifier)),
                new RetrieveProvider(QueryLevel.Model.STUDY_ROOT, retrieve),
                new MoveProvider(
                        QueryLevel.Model.STUDY_ROOT,
                        retrieve,
                        wanted -> Optional.ofNullable(destinations.get(wanted)),
                        title,
                        Deadlines.DEFAULT)));
    }

    private static StorageProvider storage(ArchiveFolder objects) {
        return new StorageProvider(
                        storageClasses(),
                        transferSyntaxes(),
                        objects.folder(),
                        LONGEST_OBJECT,
                        received -> store(objects, received))
                .givingBack();
    }

    /** The port it listens on. */
    public int port() {
        return listener.address().getPort();
    }

    /** Ends, busy associations after their message. */
    @Override
    public void close() {
        listener.close();
        office.close();
    }

    private static List<Uid> storageClasses() {
        return Dictionary.standard().uids("SOP Class").stream()
                .filter(entry ->
                        entry.keyword().contains("Storage") && !entry.keyword().contains("StorageCommitment"))
                .filter(entry -> !entry.keyword().equals("MediaStorageDirectoryStorage"))
                .map(Dictionary.UidEntry::uid)
                .toList();
    }

    /** The photograph's own first, then plain ones; a file is kept as it comes, so every encoding of the standard will do. */
    private static List<Uid> transferSyntaxes() {
        List<Uid> all = new ArrayList<>(
                List.of(Uids.JPEG_BASELINE8_BIT, Uids.EXPLICIT_VR_LITTLE_ENDIAN, Uids.IMPLICIT_VR_LITTLE_ENDIAN));
        Dictionary.standard().uids("Transfer Syntax").stream()
                .map(Dictionary.UidEntry::uid)
                .filter(uid -> !all.contains(uid) && TransferSyntax.of(uid).isPresent())
                .forEach(all::add);
        return all;
    }

    private static int store(ArchiveFolder objects, ReceivedObject received) throws RefusedException, IOException {
        try {
            return switch (objects.keep(received)) {
                case NEW, KNOWN -> Status.SUCCESS;
                case CONFLICT ->
                    throw new RefusedException(
                            Status.DUPLICATE_SOP_INSTANCE, "another object is stored under this SOP Instance UID");
            };
        } catch (DicomFormatException e) {
            throw new RefusedException(Status.UNABLE_TO_PROCESS, "the data set cannot be understood");
        }
    }

    private static QueryProvider.Answer find(ArchiveFolder objects, DataSet identifier) throws RefusedException {
        try {
            return new QueryProvider.Answer(StudyRootQuery.answers(identifier, objects.objects()).stream(), true);
        } catch (QueryException e) {
            throw new RefusedException(Status.DOES_NOT_MATCH_SOP_CLASS, String.valueOf(e.getMessage()));
        }
    }

    private static List<Path> retrieve(ArchiveFolder objects, DataSet identifier) throws RefusedException {
        try {
            return StudyRootQuery.wanted(identifier, objects.objects()).stream()
                    .map(objects::file)
                    .toList();
        } catch (QueryException e) {
            throw new RefusedException(Status.DOES_NOT_MATCH_SOP_CLASS, String.valueOf(e.getMessage()));
        }
    }
}
