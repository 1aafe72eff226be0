package vestibule.conformance.bench;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Random;
import java.util.stream.Stream;
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

/** Objects to measure with: photographs in name and transfer syntax, noise inside. */
final class SampleObjects {

    private SampleObjects() {}

    /** The attributes every one of them has, but for pixel data. */
    static DataSet.Builder header(Random random) {
        return DataSet.builder()
                .put(Attributes.SOP_CLASS_UID, Uids.VL_PHOTOGRAPHIC_IMAGE_STORAGE.value())
                .put(Attributes.SOP_INSTANCE_UID, Uid.random(random).value())
                .put(Attributes.STUDY_INSTANCE_UID, Uid.random(random).value())
                .put(Attributes.SERIES_INSTANCE_UID, Uid.random(random).value())
                .put(Attributes.STUDY_DATE, "20260105")
                .put(Attributes.MODALITY, "XC")
                .put(Attributes.PATIENT_NAME, "Wintergreen^Otto")
                .put(Attributes.PATIENT_ID, "P-1");
    }

    static List<DicomFile> write(Path folder, int count, int pixelBytes) throws IOException {
        Files.createDirectories(folder);
        List<DicomFile> files = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            Random random = new Random(i);
            byte[] noise = new byte[pixelBytes];
            random.nextBytes(noise);
            DataSet dataSet = header(random)
                    .put(new Element(
                            Attributes.PIXEL_DATA.tag(),
                            VR.OB,
                            new Value.Fragments(List.of(), List.of(Bulk.of(noise)))))
                    .build();
            Path file = folder.resolve("object-" + i + ".dcm");
            DicomFile.write(file, dataSet, TransferSyntax.JPEG_BASELINE);
            files.add(DicomFile.read(file));
        }
        return files;
    }

    static void delete(Path path) throws IOException {
        if (!Files.exists(path)) {
            return;
        }
        try (Stream<Path> paths = Files.walk(path)) {
            for (Path each : paths.sorted(Comparator.reverseOrder()).toList()) {
                Files.delete(each);
            }
        }
    }

    /** An empty folder of that name. */
    static Path emptied(Path folder) throws IOException {
        delete(folder);
        return Files.createDirectories(folder);
    }
}
