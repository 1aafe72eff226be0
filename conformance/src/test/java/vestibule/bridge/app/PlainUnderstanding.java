package vestibule.bridge.app;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import vestibule.bridge.delivery.Destination;
import vestibule.bridge.settings.Settings;
import vestibule.conformance.fault.ScanHash;
import vestibule.dicom.data.Bulk;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Element;
import vestibule.dicom.data.Uid;
import vestibule.dicom.data.VR;
import vestibule.dicom.data.Value;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.io.DicomFile;
import vestibule.dicom.io.TransferSyntax;

/**
 * Understands everything at once: every photograph is the one patient's, and its object is the picture as it is. What is proven here is the
 * way to the archive, not the understanding.
 */
final class PlainUnderstanding implements Understanding, Deciding, Making {

    static final String PATIENT = "PG-0001";

    private static final Uid NAMES = new Uid("2.25.268435456");

    @Override
    public Deciding deciding(Settings settings, Optional<Destination> archive, String ourTitle, Memory memory) {
        return this;
    }

    @Override
    public Making making(Settings settings, Path scratch) {
        return this;
    }

    @Override
    public void decide(Photographs source) throws IOException {
        for (List<Photograph> some : Portions.of(source.all())) {
            List<Candidate> candidates = source.candidates(some);
            List<Ruling> rulings = new ArrayList<>();
            for (Candidate photo : candidates) {
                if (photo.decision().isEmpty()) {
                    rulings.add(new Decided(photo.photo(), "{\"patient\":\"%s\"}".formatted(PATIENT)));
                }
            }
            source.record(candidates, new Round(rulings, List.of()));
        }
    }

    @Override
    public List<Made> make(Path original, String decision, Path into) throws IOException {
        byte[] picture = Files.readAllBytes(original);
        String hash = ScanHash.sha256((ScanHash.sha256(picture) + decision).getBytes(StandardCharsets.UTF_8));
        Uid instance = Uid.ofName(NAMES, hash);
        DataSet object = DataSet.builder()
                .put(Attributes.SOP_CLASS_UID, Uids.VL_PHOTOGRAPHIC_IMAGE_STORAGE.value())
                .put(Attributes.SOP_INSTANCE_UID, instance.value())
                .put(Attributes.PATIENT_ID, PATIENT)
                .put(Attributes.STUDY_INSTANCE_UID, Uid.ofName(NAMES, "study").value())
                .put(Attributes.SERIES_INSTANCE_UID, Uid.ofName(NAMES, "series").value())
                .put(new Element(
                        Attributes.PIXEL_DATA.tag(), VR.OB, new Value.Fragments(List.of(), List.of(Bulk.of(picture)))))
                .build();
        Path file = into.resolve("object.dcm");
        DicomFile.write(file, object, TransferSyntax.of(Uids.JPEG_BASELINE8_BIT).orElseThrow());
        return List.of(new Made(file, Uids.VL_PHOTOGRAPHIC_IMAGE_STORAGE.value(), instance.value()));
    }
}
