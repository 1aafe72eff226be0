package vestibule.dicom.io;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.channels.WritableByteChannel;
import java.nio.file.AtomicMoveNotSupportedException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.util.List;
import java.util.Optional;
import vestibule.dicom.data.Attribute;
import vestibule.dicom.data.Bulk;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Element;
import vestibule.dicom.data.Uid;
import vestibule.dicom.dict.Attributes;

/**
 * A DICOM file (PS3.10 7): preamble, meta information, data set. Reading forgives what can be understood and notes it; writing is strict,
 * goes to a temporary file first, and leaves nothing behind when it refuses.
 *
 * @param path where it was read from
 * @param preamble the 128 bytes before the prefix; empty where there are none
 * @param meta the file meta information, group 0002; empty where there is none
 * @param transferSyntax how the data set is encoded, as declared, else as guessed
 * @param dataSet the data set
 * @param dataSetOffset where the data set starts, in bytes from the beginning
 * @param length how many bytes the file has
 * @param notes what was forgiven
 */
public record DicomFile(
        Path path,
        Bulk preamble,
        DataSet meta,
        TransferSyntax transferSyntax,
        DataSet dataSet,
        long dataSetOffset,
        long length,
        List<ReadNote> notes) {

    public DicomFile {
        notes = List.copyOf(notes);
    }

    /**
     * Reads a file under the default limits.
     *
     * @throws DicomFormatException if it is no DICOM file that can be understood
     */
    public static DicomFile read(Path path) throws IOException {
        return read(path, Limits.DEFAULT);
    }

    /**
     * Reads a file.
     *
     * @throws DicomFormatException if it is no DICOM file that can be understood, or beyond the limits
     */
    public static DicomFile read(Path path, Limits limits) throws IOException {
        try (ByteSource source = ByteSource.of(path)) {
            return new FileReader(path, source, limits).read();
        }
    }

    /** SOP Class UID of the data set, else of the meta information; empty if neither has one. */
    public Optional<Uid> sopClass() {
        return dataSet.text(Attributes.SOP_CLASS_UID)
                .or(() -> meta.text(Attributes.MEDIA_STORAGE_SOP_CLASS_UID))
                .flatMap(Uid::parse);
    }

    /** SOP Instance UID of the data set, else of the meta information; empty if neither has one. */
    public Optional<Uid> sopInstance() {
        return dataSet.text(Attributes.SOP_INSTANCE_UID)
                .or(() -> meta.text(Attributes.MEDIA_STORAGE_SOP_INSTANCE_UID))
                .flatMap(Uid::parse);
    }

    /** The bytes of the data set as they stand in the file: what a C-STORE in the same transfer syntax carries. */
    public Bulk encodedDataSet() {
        return Bulk.of(path, dataSetOffset, length - dataSetOffset);
    }

    /**
     * Writes a file with its meta information (PS3.10 7.1). The target appears whole or not at all, and is on the disk when this returns.
     *
     * @throws DicomFormatException if the data set has no SOP Class or Instance UID, or a value breaks the form it must have
     */
    public static void write(Path target, DataSet dataSet, TransferSyntax syntax) throws IOException {
        DataSet meta = metaInformation(dataSet, syntax);
        for (Element element : dataSet) {
            int group = element.tag().group();
            if (group == 0 || group == 2) {
                throw new DicomFormatException(
                        element.tag() + " belongs to a command or to the meta information, not to a data set");
            }
        }
        writeWhole(target, channel -> {
            writePrefix(channel, meta);
            DataSetCodec.write(dataSet, syntax, DataSetCodec.Strictness.OBJECT, channel);
        });
    }

    /** Writes a received data set, whose bytes stay as they came, with meta information around it (PS3.10 7.1). */
    public static void writeReceived(Path target, DataSet meta, Bulk encodedDataSet) throws IOException {
        writeWhole(target, channel -> {
            writePrefix(channel, meta);
            encodedDataSet.transferTo(channel);
        });
    }

    /** Preamble, prefix and meta information, written to a channel. */
    public static void writePrefix(WritableByteChannel channel, DataSet meta) throws IOException {
        byte[] start = new byte[132];
        System.arraycopy(new byte[] {'D', 'I', 'C', 'M'}, 0, start, 128, 4);
        Bulk.of(start).transferTo(channel);
        DataSetCodec.write(meta, TransferSyntax.EXPLICIT_VR_LITTLE_ENDIAN, DataSetCodec.Strictness.OBJECT, channel);
    }

    /**
     * The meta information that belongs to an object (PS3.10 Table 7.1-1); its group length is worked out when it is written.
     *
     * @throws DicomFormatException if the data set has no SOP Class or Instance UID
     */
    public static DataSet metaInformation(DataSet dataSet, TransferSyntax syntax) throws DicomFormatException {
        return metaInformation(
                uid(dataSet, Attributes.SOP_CLASS_UID), uid(dataSet, Attributes.SOP_INSTANCE_UID), syntax);
    }

    private static Uid uid(DataSet dataSet, Attribute attribute) throws DicomFormatException {
        String text = dataSet.text(attribute)
                .orElseThrow(() -> new DicomFormatException("no " + attribute + " in the data set"));
        return Uid.parse(text)
                .orElseThrow(
                        () -> new DicomFormatException(attribute + " has no unique identifier: digits in components"
                                + " parted by dots, none with a leading zero"));
    }

    /** The meta information of an object of that class, instance and encoding (PS3.10 Table 7.1-1). */
    public static DataSet metaInformation(Uid sopClass, Uid sopInstance, TransferSyntax syntax) {
        return DataSet.builder()
                .put(Attributes.FILE_META_INFORMATION_VERSION, Bulk.of(new byte[] {0, 1}))
                .put(Attributes.MEDIA_STORAGE_SOP_CLASS_UID, sopClass.value())
                .put(Attributes.MEDIA_STORAGE_SOP_INSTANCE_UID, sopInstance.value())
                .put(Attributes.TRANSFER_SYNTAX_UID, syntax.uid().value())
                .put(Attributes.IMPLEMENTATION_CLASS_UID, Implementation.CLASS_UID.value())
                .put(Attributes.IMPLEMENTATION_VERSION_NAME, Implementation.VERSION_NAME)
                .build();
    }

    private interface Content {
        void writeTo(FileChannel channel) throws IOException;
    }

    private static void writeWhole(Path target, Content content) throws IOException {
        Path folder = target.toAbsolutePath().getParent();
        if (folder == null) {
            throw new NoSuchFileException(target.toString(), null, "names no file");
        }
        Path temporary = Files.createTempFile(folder, ".vestibule-", ".part");
        try {
            try (FileChannel channel = FileChannel.open(temporary, StandardOpenOption.WRITE)) {
                content.writeTo(channel);
                channel.force(true);
            }
            move(temporary, target);
            Durability.forceFolder(folder);
        } finally {
            Files.deleteIfExists(temporary);
        }
    }

    private static void move(Path temporary, Path target) throws IOException {
        try {
            Files.move(temporary, target, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
        } catch (AtomicMoveNotSupportedException e) {
            Files.move(temporary, target, StandardCopyOption.REPLACE_EXISTING);
        }
    }
}
