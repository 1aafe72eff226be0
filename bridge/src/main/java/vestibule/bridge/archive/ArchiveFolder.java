package vestibule.bridge.archive;

import java.io.BufferedInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Element;
import vestibule.dicom.data.Uid;
import vestibule.dicom.data.Value;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.io.DicomFile;
import vestibule.dicom.io.DicomFormatException;
import vestibule.dicom.io.Durability;
import vestibule.dicom.service.ReceivedObject;

/**
 * The objects of the embedded archive: one file each, named by its SOP Instance UID. The files are the truth; the index is made from them
 * at every start, so that a kill at any moment loses nothing that was answered with success.
 */
final class ArchiveFolder {

    private static final Logger LOG = LoggerFactory.getLogger(ArchiveFolder.class);
    private static final String ENDING = ".dcm";
    private static final String ARRIVING = "receiving-";

    private final Path folder;
    private final Map<Uid, DataSet> index = new LinkedHashMap<>();

    private ArchiveFolder(Path folder) {
        this.folder = folder;
    }

    /** Opens a folder, makes it if it is not there, and indexes what it holds. */
    static ArchiveFolder open(Path folder) throws IOException {
        Files.createDirectories(folder);
        ArchiveFolder archive = new ArchiveFolder(folder);
        try (Stream<Path> files = Files.list(folder)) {
            for (Path file : files.sorted().toList()) {
                if (file.toString().endsWith(ENDING)) {
                    archive.index(file);
                } else if (String.valueOf(file.getFileName()).startsWith(ARRIVING)) {
                    // It was never answered with success, so its sender still has it.
                    Files.delete(file);
                }
            }
        }
        return archive;
    }

    private void index(Path file) throws IOException {
        try {
            DicomFile object = DicomFile.read(file);
            Optional<Uid> instance = object.sopInstance();
            instance.ifPresent(uid -> index.put(uid, withoutPixels(object.dataSet())));
        } catch (DicomFormatException e) {
            LOG.warn("{} is left out of the index: {}", file.getFileName(), e.getMessage());
        }
    }

    /** What a store came to. */
    enum Stored {
        /** On the disk now. */
        NEW,
        /** The same bytes were there already. */
        KNOWN,
        /** Another object is there under this UID; it stays. */
        CONFLICT
    }

    /**
     * Keeps a received object, whose file is on the disk already; when this returns NEW or KNOWN its name is too.
     *
     * @throws DicomFormatException if it is no object that can be understood, or not the one it was announced as
     */
    synchronized Stored keep(ReceivedObject received) throws IOException {
        DicomFile object = DicomFile.read(received.file());
        if (!object.dataSet()
                .text(Attributes.SOP_INSTANCE_UID)
                .equals(Optional.of(received.sopInstance().value()))) {
            throw new DicomFormatException("the object has another SOP Instance UID than it was announced with");
        }
        Path target = file(received.sopInstance());
        if (Files.exists(target)) {
            return sameDataSet(object, DicomFile.read(target)) ? Stored.KNOWN : Stored.CONFLICT;
        }
        Files.move(received.file(), target);
        Durability.forceFolder(folder);
        index.put(received.sopInstance(), withoutPixels(object.dataSet()));
        return Stored.NEW;
    }

    private static boolean sameDataSet(DicomFile one, DicomFile other) throws IOException {
        if (!one.transferSyntax().equals(other.transferSyntax())
                || one.encodedDataSet().length() != other.encodedDataSet().length()) {
            return false;
        }
        try (InputStream left = new BufferedInputStream(one.encodedDataSet().open());
                InputStream right =
                        new BufferedInputStream(other.encodedDataSet().open())) {
            int a = left.read();
            while (a >= 0 && a == right.read()) {
                a = left.read();
            }
            return a < 0;
        }
    }

    /** The file of an object. A unique identifier is digits and dots, starts with a digit, and so never leads out of the folder. */
    Path file(Uid sopInstance) {
        return folder.resolve(sopInstance.value() + ENDING);
    }

    /** Where objects are while they arrive: on the same disk. */
    Path folder() {
        return folder;
    }

    /** The SOP class of an object that is kept: its file and its name are on the disk. */
    synchronized Optional<Uid> sopClass(Uid sopInstance) {
        return Optional.ofNullable(index.get(sopInstance))
                .flatMap(object -> object.text(Attributes.SOP_CLASS_UID))
                .flatMap(Uid::parse);
    }

    /** Every object without its pixel data. */
    synchronized Collection<DataSet> objects() {
        return List.copyOf(index.values());
    }

    private static DataSet withoutPixels(DataSet dataSet) {
        DataSet.Builder rest = DataSet.builder();
        for (Element element : dataSet) {
            if (!(element.value() instanceof Value.Binary) && !(element.value() instanceof Value.Fragments)) {
                rest.put(new Element(element.tag(), element.vr(), element.value()));
            }
        }
        return rest.build();
    }
}
