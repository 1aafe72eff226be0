package vestibule.bridge.app;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Base64;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import vestibule.bridge.object.RejectionNote;
import vestibule.bridge.outbox.Withdrawals;
import vestibule.bridge.settings.Study;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Uid;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.io.DataSetCodec;
import vestibule.dicom.io.DicomFile;
import vestibule.dicom.io.TransferSyntax;

/** Makes the rejection notes of a photograph: one more object for the archive, for everything of it that was decided otherwise since. */
final class TakingBack {

    private final Withdrawals withdrawals;
    private final Study.Rejection way;

    TakingBack(Withdrawals withdrawals, Study.Rejection way) {
        this.withdrawals = withdrawals;
        this.way = way;
    }

    /**
     * A note.
     *
     * @param takesBack SOP Instance UIDs of the objects it names
     */
    record Note(Making.Made made, List<String> takesBack) {}

    private record Occasion(String reason, Instant since) {}

    /** What a note has to know of an object, as the outbox keeps it. */
    static String heading(DataSet object) throws IOException {
        byte[] encoded = DataSetCodec.encode(
                RejectionNote.heading(object),
                TransferSyntax.EXPLICIT_VR_LITTLE_ENDIAN,
                DataSetCodec.Strictness.OBJECT);
        return Base64.getEncoder().encodeToString(encoded);
    }

    private static DataSet read(String heading) throws IOException {
        return DataSetCodec.decode(Base64.getDecoder().decode(heading), TransferSyntax.EXPLICIT_VR_LITTLE_ENDIAN);
    }

    /** What is to be done about an object that nothing took back yet, for people. */
    static String sentence(Withdrawals.Open open, Study.Rejection way) {
        return "%s  %s  to be taken back in the archive: object %s, %s; %s"
                .formatted(
                        open.photo().substring(0, 12),
                        open.name(),
                        open.sopInstance(),
                        RejectionNote.Reason.of(open.reason()).words(),
                        byHand(open, way)
                                ? "do it there by hand, then say settle --taken-back"
                                : "a rejection note does it when it is delivered");
    }

    /** Whether a person has to do it. */
    static boolean byHand(Withdrawals.Open open, Study.Rejection way) {
        return way == Study.Rejection.PERSON || !open.nameable();
    }

    /** The notes of a photograph, the same every time; none where the archive takes none, for then a person sees to it. */
    List<Note> notes(String photo, Path into) throws IOException {
        if (way == Study.Rejection.PERSON) {
            return List.of();
        }
        Map<Occasion, List<DataSet>> occasions = new LinkedHashMap<>();
        for (Withdrawals.Withdrawn one : withdrawals.toName(photo)) {
            occasions
                    .computeIfAbsent(new Occasion(one.reason(), one.since()), occasion -> new ArrayList<>())
                    .add(read(one.heading()));
        }
        List<Note> notes = new ArrayList<>();
        for (Map.Entry<Occasion, List<DataSet>> entry : occasions.entrySet()) {
            for (RejectionNote note : RejectionNote.of(
                    entry.getValue(),
                    RejectionNote.Reason.of(entry.getKey().reason()),
                    entry.getKey().since().truncatedTo(ChronoUnit.SECONDS).atOffset(ZoneOffset.UTC))) {
                notes.add(written(note, entry.getValue(), into));
            }
        }
        return notes;
    }

    private static Note written(RejectionNote note, List<DataSet> named, Path into) throws IOException {
        Uid instance = note.sopInstance();
        Path file = into.resolve(instance.value() + ".dcm");
        DicomFile.write(file, note.dataSet(), note.transferSyntax());
        List<String> takesBack = named.stream()
                .filter(object -> object.text(Attributes.STUDY_INSTANCE_UID)
                        .equals(note.dataSet().text(Attributes.STUDY_INSTANCE_UID)))
                .flatMap(object -> object.text(Attributes.SOP_INSTANCE_UID).stream())
                .toList();
        return new Note(
                new Making.Made(file, Uids.KEY_OBJECT_SELECTION_DOCUMENT_STORAGE.value(), instance.value()), takesBack);
    }
}
