package vestibule.bridge.delivery;

import java.io.IOException;
import java.util.List;
import java.util.Optional;
import vestibule.dicom.data.Uid;
import vestibule.dicom.io.DicomFile;
import vestibule.dicom.service.CommitmentRequest;
import vestibule.dicom.service.OperationOutcome;

/** Who hands over what is to be delivered, and remembers for good what became of it. */
public interface Consignor {

    /**
     * The objects of one photograph, to be sent together.
     *
     * @param photo names the photograph
     * @param revision which of its decisions the objects were made of
     */
    record Parcel(String photo, int revision, List<Item> items) {
        public Parcel {
            items = List.copyOf(items);
        }
    }

    /**
     * One object.
     *
     * @param file the object
     * @param unsure whether it may have been sent before without an answer
     * @param resend whether a person said that it may then be sent again even where the archive cannot be asked
     */
    record Item(String sopInstance, DicomFile file, boolean unsure, boolean resend) {}

    /** Takes the next parcel, which nobody else takes then; empty if none is due. */
    Optional<Parcel> next() throws IOException;

    /** Gives a parcel back, whatever became of it. */
    void done(Parcel parcel) throws IOException;

    /** An object is about to be sent; false if it is not to be sent any more. */
    boolean sending(Parcel parcel, Item item) throws IOException;

    /** The archive has stored it, with a warning or without. */
    void stored(Parcel parcel, Item item, int status, String comment) throws IOException;

    /** The archive has refused it. */
    void refused(Parcel parcel, Item item, int status, String comment, boolean retry) throws IOException;

    /** No answer was seen, and the archive says that it has it. */
    void found(Parcel parcel, Item item) throws IOException;

    /** The archive does not have it. */
    void absent(Parcel parcel, Item item, String cause) throws IOException;

    /** The photograph cannot be delivered now; it is tried again later. */
    void putOff(Parcel parcel, String cause) throws IOException;

    /** A person must see to the photograph. */
    void attention(Parcel parcel, String reason, String message) throws IOException;

    /** A person may want to know it. */
    void note(Parcel parcel, String sentence) throws IOException;

    /** Names stored objects whose commitment is to be asked for, under a new transaction; empty if there are none. */
    Optional<CommitmentRequest> toCommit(String archive) throws IOException;

    /** What became of a request. */
    void asked(CommitmentRequest request, OperationOutcome outcome) throws IOException;

    /** An association ended on which these transactions were asked for, and their reports did not come on it. */
    void unreported(List<Uid> transactions) throws IOException;

    /** What commitment rests on: whether the archive is asked for it, or what it keeps is read back. */
    boolean byCommitment();

    /** A list of the objects whose commitment could not be asked for is kept as it is, and this sentence shown. */
    void notCommitting(List<Parcel> parcels, String sentence) throws IOException;
}
