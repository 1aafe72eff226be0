package vestibule.conformance.network;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
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

/** Photographs of one invented patient, in one series, with noise for pictures. */
final class NetworkPhotographs {

    static final Uid STUDY = new Uid("2.25.20260105");
    static final Uid SERIES = new Uid("2.25.202601051");

    private NetworkPhotographs() {}

    /** In JPEG Baseline. */
    static List<DicomFile> write(Path folder, int count) throws IOException {
        return write(folder, count, TransferSyntax.JPEG_BASELINE);
    }

    static List<DicomFile> write(Path folder, int count, TransferSyntax syntax) throws IOException {
        List<DicomFile> photographs = new ArrayList<>();
        for (int i = 1; i <= count; i++) {
            Random random = new Random(i);
            byte[] noise = new byte[40_000 * i];
            random.nextBytes(noise);
            DataSet dataSet = DataSet.builder()
                    .put(Attributes.SPECIFIC_CHARACTER_SET, "ISO_IR 192")
                    .put(Attributes.SOP_CLASS_UID, Uids.VL_PHOTOGRAPHIC_IMAGE_STORAGE.value())
                    .put(Attributes.SOP_INSTANCE_UID, SERIES.value() + "." + i)
                    .put(Attributes.STUDY_INSTANCE_UID, STUDY.value())
                    .put(Attributes.SERIES_INSTANCE_UID, SERIES.value())
                    .put(Attributes.STUDY_DATE, "20260105")
                    .put(Attributes.STUDY_ID, "1")
                    .put(Attributes.MODALITY, "XC")
                    .put(Attributes.PATIENT_NAME, "Weiß^Zoë")
                    .put(Attributes.PATIENT_ID, "P-7")
                    .put(new Element(Attributes.PIXEL_DATA.tag(), VR.OB, pixels(syntax, Bulk.of(noise))))
                    .build();
            Path file = folder.resolve("photograph-" + i + ".dcm");
            DicomFile.write(file, dataSet, syntax);
            photographs.add(DicomFile.read(file));
        }
        return photographs;
    }

    private static Value pixels(TransferSyntax syntax, Bulk noise) {
        return syntax.encapsulated() ? new Value.Fragments(List.of(), List.of(noise)) : new Value.Binary(noise);
    }

    static List<Uid> instances(List<DicomFile> files) {
        return files.stream().map(file -> file.sopInstance().orElseThrow()).toList();
    }

    /** The picture, for comparison. */
    static byte[] picture(DicomFile file) throws IOException {
        Value value = file.dataSet().find(Attributes.PIXEL_DATA).orElseThrow().value();
        Bulk bytes = value instanceof Value.Binary binary
                ? binary.bulk()
                : ((Value.Fragments) value).fragments().get(0);
        return bytes.bytes(1 << 24);
    }
}
