package vestibule.bridge.app;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
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
import vestibule.dicom.jpeg.JpegLimits;
import vestibule.dicom.jpeg.Recoder;
import vestibule.dicom.jpeg.Recoding;
import vestibule.dicom.jpeg.Turn;

/**
 * Understands everything at once: whose a photograph is and whether a mirror was used, {@link Mixture} says by its name, and its object is
 * the picture as it is, with the corrected one beside it after a mirror. What is proven here is the way to the archive, not the understanding.
 */
final class PlainUnderstanding implements Understanding, Deciding, Making {

    private static final String DECISION = "{\"patient\":\"%s\",\"mirror\":%s}";
    private static final Pattern READ = Pattern.compile("\\{\"patient\":\"(.*)\",\"mirror\":(true|false)}");
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
                    rulings.add(new Decided(
                            photo.photo(),
                            DECISION.formatted(Mixture.patientOf(photo.name()), Mixture.isByMirror(photo.name()))));
                }
            }
            source.record(candidates, new Round(rulings, List.of()));
        }
    }

    @Override
    public List<Made> make(Path original, String decision, Path into) throws IOException {
        Matcher read = READ.matcher(decision);
        if (!read.matches()) {
            throw new IllegalArgumentException("a decision that this one did not make: " + decision);
        }
        byte[] picture = Files.readAllBytes(original);
        String hash = ScanHash.sha256((ScanHash.sha256(picture) + decision).getBytes(StandardCharsets.UTF_8));
        Uid recorded = Uid.ofName(NAMES, hash);
        DataSet.Builder object = object(read.group(1), recorded, picture);
        if (read.group(2).equals("false")) {
            return List.of(written(object.build(), recorded, into.resolve("object.dcm")));
        }
        Uid corrected = Uid.ofName(NAMES, hash + " corrected");
        DataSet.Builder source = DataSet.builder()
                .put(Attributes.REFERENCED_SOP_CLASS_UID, Uids.VL_PHOTOGRAPHIC_IMAGE_STORAGE.value())
                .put(Attributes.REFERENCED_SOP_INSTANCE_UID, recorded.value());
        DataSet.Builder other = object(read.group(1), corrected, turned(original))
                .put(Attributes.SOURCE_IMAGE_SEQUENCE, List.of(source.build()));
        return List.of(
                written(object.build(), recorded, into.resolve("recorded.dcm")),
                written(other.build(), corrected, into.resolve("corrected.dcm")));
    }

    private static byte[] turned(Path original) throws IOException {
        ByteArrayOutputStream turned = new ByteArrayOutputStream();
        Recoder.recode(original, Recoding.of(Turn.FLIP_VERTICAL).with(Recoding.Edge.TRIM), JpegLimits.DEFAULT, turned);
        return turned.toByteArray();
    }

    private static DataSet.Builder object(String patient, Uid instance, byte[] picture) {
        return DataSet.builder()
                .put(Attributes.SOP_CLASS_UID, Uids.VL_PHOTOGRAPHIC_IMAGE_STORAGE.value())
                .put(Attributes.SOP_INSTANCE_UID, instance.value())
                .put(Attributes.PATIENT_ID, patient)
                .put(
                        Attributes.STUDY_INSTANCE_UID,
                        Uid.ofName(NAMES, "study of " + patient).value())
                .put(
                        Attributes.SERIES_INSTANCE_UID,
                        Uid.ofName(NAMES, "series of " + patient).value())
                .put(new Element(
                        Attributes.PIXEL_DATA.tag(), VR.OB, new Value.Fragments(List.of(), List.of(Bulk.of(picture)))));
    }

    private static Made written(DataSet object, Uid instance, Path file) throws IOException {
        DicomFile.write(file, object, TransferSyntax.of(Uids.JPEG_BASELINE8_BIT).orElseThrow());
        return new Made(file, Uids.VL_PHOTOGRAPHIC_IMAGE_STORAGE.value(), instance.value());
    }
}
