package vestibule.validator;

import java.time.Instant;
import java.util.Optional;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Uid;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.io.DicomFile;
import vestibule.dicom.io.TransferSyntax;

/**
 * One object to be judged: a file, or a data set that is not written yet.
 *
 * @param dataSet its attributes
 * @param transferSyntax how it is, or is to be, encoded
 * @param file the file it was read from; empty if it was made here
 * @param now the moment it is judged at; nothing it tells of can be later
 * @param depth how far its stream is read
 */
public record Subject(
        DataSet dataSet, TransferSyntax transferSyntax, Optional<DicomFile> file, Instant now, StreamDepth depth) {

    /** A file that was read. */
    public static Subject of(DicomFile file, Instant now, StreamDepth depth) {
        return new Subject(file.dataSet(), file.transferSyntax(), Optional.of(file), now, depth);
    }

    /** A data set that is not written yet. */
    public static Subject of(DataSet dataSet, TransferSyntax transferSyntax, Instant now, StreamDepth depth) {
        return new Subject(dataSet, transferSyntax, Optional.empty(), now, depth);
    }

    /** SOP Class UID of the data set, else of the meta information. */
    public Optional<Uid> sopClass() {
        return dataSet.text(Attributes.SOP_CLASS_UID).flatMap(Uid::parse).or(() -> file.flatMap(DicomFile::sopClass));
    }

    /** SOP Instance UID of the data set, else of the meta information. */
    public Optional<Uid> sopInstance() {
        return dataSet.text(Attributes.SOP_INSTANCE_UID)
                .flatMap(Uid::parse)
                .or(() -> file.flatMap(DicomFile::sopInstance));
    }

    /** Whether it is a VL Photographic Image (PS3.3 A.32.4), whose modules are checked in full. */
    public boolean isPhotograph() {
        return sopClass().filter(Uids.VL_PHOTOGRAPHIC_IMAGE_STORAGE::equals).isPresent();
    }
}
