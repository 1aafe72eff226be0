package vestibule.bridge.app;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.security.DigestInputStream;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import vestibule.bridge.outbox.Consignments;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.io.DicomFile;

/** What the outbox remembers of an object that was made, so that one made again can be told from another. */
final class Described {

    private Described() {}

    /** @param read takes the object as it was read, by its identifier */
    static Consignments.Made of(Making.Made object, List<String> takesBack, Map<String, DicomFile> read)
            throws IOException {
        DicomFile file = DicomFile.read(object.file());
        read.put(object.sopInstance(), file);
        return new Consignments.Made(
                object.sopInstance(),
                object.sopClass(),
                sha256(file.encodedDataSet().open()),
                file.encodedDataSet().length(),
                Optional.of(TakingBack.heading(file.dataSet())),
                takesBack,
                place(file.dataSet()));
    }

    private static Optional<Consignments.Place> place(DataSet object) {
        Optional<String> patient = object.text(Attributes.PATIENT_ID).map(String::strip);
        return object.text(Attributes.STUDY_INSTANCE_UID)
                .flatMap(study -> patient.map(id -> new Consignments.Place(
                        study.strip(),
                        id,
                        object.text(Attributes.ISSUER_OF_PATIENT_ID).map(String::strip))));
    }

    private static String sha256(InputStream bytes) throws IOException {
        try (DigestInputStream in = new DigestInputStream(bytes, MessageDigest.getInstance("SHA-256"))) {
            in.transferTo(OutputStream.nullOutputStream());
            return HexFormat.of().formatHex(in.getMessageDigest().digest());
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java platform has SHA-256", e);
        }
    }
}
