package vestibule.bridge.delivery;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import vestibule.dicom.data.Attribute;
import vestibule.dicom.data.Bulk;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Uid;
import vestibule.dicom.data.Value;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.io.DicomFile;
import vestibule.dicom.jpeg.Coefficients;
import vestibule.dicom.jpeg.JpegFormatException;
import vestibule.dicom.jpeg.JpegLimits;
import vestibule.dicom.net.AeTitle;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.AssociationException;
import vestibule.dicom.net.SupportedContext;
import vestibule.dicom.service.QueryLevel;
import vestibule.dicom.service.RetrieveOutcome;
import vestibule.dicom.service.RetrieveUser;
import vestibule.dicom.service.Status;
import vestibule.dicom.service.StorageProvider;

/**
 * Fetches an object back by C-GET (PS3.4 C.4.3) and compares it with what was sent: the proof for archives without storage commitment.
 * What it says of the patient, the side and the picture has to be the same, value by value, and the picture too, byte for byte or, where the
 * archive wrote the stream anew without loss, coefficient for coefficient.
 */
public final class ReadBack {

    private static final QueryLevel.Model MODEL = QueryLevel.Model.STUDY_ROOT;
    private static final String FETCHED = "fetched.dcm";

    /** What a comparison came to. */
    public sealed interface Outcome {

        /** The archive keeps what was sent. */
        record Same() implements Outcome {}

        /**
         * It keeps something else.
         *
         * @param what what differs, without any value
         * @param patient whether the patient's data are among it
         */
        record Different(String what, boolean patient) implements Outcome {}

        /**
         * It could not be fetched.
         *
         * @param reason why, in a sentence without a full stop
         */
        record Unsaid(String reason) implements Outcome {}
    }

    private final ArchiveSession.Line line;

    /** From that archive. */
    public ReadBack(ArchiveSession.Line line) {
        this.line = line;
    }

    /**
     * Fetches and compares one object.
     *
     * @param ours what was sent
     * @param folder a folder of its own for what is fetched
     */
    public Outcome compare(DicomFile ours, Path folder) throws IOException {
        Optional<Uid> sopClass = ours.sopClass();
        Optional<DataSet> keys = ArchiveSession.keys(ours);
        if (sopClass.isEmpty() || keys.isEmpty()) {
            return new Outcome.Unsaid("the object lacks the identifiers it is fetched by");
        }
        SupportedContext context = SupportedContext.provider(
                sopClass.get(), List.of(ours.transferSyntax().uid()));
        Path fetched = folder.resolve(FETCHED);
        StorageProvider storage = new StorageProvider(
                List.of(sopClass.get()),
                List.of(ours.transferSyntax().uid()),
                folder,
                2 * ours.length() + (1 << 20),
                received -> {
                    Files.move(received.file(), fetched, StandardCopyOption.REPLACE_EXISTING);
                    return Status.SUCCESS;
                });
        RetrieveOutcome outcome;
        try (Association association = Association.open(
                RetrieveUser.getRequest(new AeTitle(line.callingAe()), MODEL, List.of(context)),
                line.archive().entity(),
                line.deadlines())) {
            outcome = new RetrieveUser(association, MODEL).get(QueryLevel.IMAGE, keys.get(), storage);
        } catch (AssociationException e) {
            return new Outcome.Unsaid(String.valueOf(e.getMessage()));
        }
        return Files.exists(fetched)
                ? compare(ours, DicomFile.read(fetched), folder)
                : new Outcome.Unsaid("the archive did not send it back: " + words(outcome));
    }

    private static String words(RetrieveOutcome outcome) {
        if (outcome instanceof RetrieveOutcome.Refused refused) {
            return refused.status().toString();
        }
        if (outcome instanceof RetrieveOutcome.NotSent notSent) {
            return notSent.reason();
        }
        return outcome instanceof RetrieveOutcome.Unknown unknown
                ? String.valueOf(unknown.cause().getMessage())
                : "it says that it has sent what it has";
    }

    private static Outcome compare(DicomFile ours, DicomFile theirs, Path folder) throws IOException {
        if (!ours.sopInstance().equals(theirs.sopInstance()) || !ours.sopClass().equals(theirs.sopClass())) {
            return new Outcome.Different("it is another object", false);
        }
        Map<Comparison.Kind, List<Attribute>> changed = Comparison.changed(ours.dataSet(), theirs.dataSet());
        List<String> differences = new ArrayList<>();
        if (!changed.isEmpty()) {
            differences.add(Comparison.words(changed));
        }
        if (!samePicture(ours, theirs, folder)) {
            differences.add("its picture is not the one that was sent");
        }
        return differences.isEmpty()
                ? new Outcome.Same()
                : new Outcome.Different(String.join("; ", differences), changed.containsKey(Comparison.Kind.PATIENT));
    }

    private static boolean samePicture(DicomFile ours, DicomFile theirs, Path folder) throws IOException {
        List<Bulk> here = picture(ours);
        List<Bulk> there = picture(theirs);
        if (here.isEmpty() || there.isEmpty()) {
            return here.isEmpty() && there.isEmpty();
        }
        boolean jpeg = ours.transferSyntax().uid().equals(Uids.JPEG_BASELINE8_BIT)
                && theirs.transferSyntax().uid().equals(Uids.JPEG_BASELINE8_BIT);
        return Comparison.sameBytes(here, there) || (jpeg && sameCoefficients(here, there, folder));
    }

    private static List<Bulk> picture(DicomFile file) {
        return file.dataSet()
                .find(Attributes.PIXEL_DATA)
                .map(element -> {
                    if (element.value() instanceof Value.Fragments fragments) {
                        return fragments.fragments();
                    }
                    return element.value() instanceof Value.Binary binary ? List.of(binary.bulk()) : List.<Bulk>of();
                })
                .orElse(List.of());
    }

    private static boolean sameCoefficients(List<Bulk> here, List<Bulk> there, Path folder) throws IOException {
        List<Path> streams = new ArrayList<>();
        for (List<Bulk> picture : List.of(here, there)) {
            Path stream = folder.resolve("stream-%d.jpg".formatted(streams.size()));
            try (InputStream bytes = Bulk.concat(picture).open()) {
                Files.copy(bytes, stream, StandardCopyOption.REPLACE_EXISTING);
            }
            streams.add(stream);
        }
        try {
            return Coefficients.read(streams.get(0), JpegLimits.DEFAULT)
                    .equals(Coefficients.read(streams.get(1), JpegLimits.DEFAULT));
        } catch (JpegFormatException e) {
            // A stream that cannot be read is not the one that was sent.
            return false;
        }
    }
}
