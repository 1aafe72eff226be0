package vestibule.dicom.service;

import java.io.IOException;
import java.nio.file.Path;
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

/** Files to send in tests: photographs in name and transfer syntax, noise inside. */
final class Objects {

    private Objects() {}

    static DicomFile photo(Path folder, int pixelBytes, long seed) throws IOException {
        Random random = new Random(seed);
        byte[] noise = new byte[pixelBytes];
        random.nextBytes(noise);
        DataSet dataSet = DataSet.builder()
                .put(Attributes.SOP_CLASS_UID, Uids.VL_PHOTOGRAPHIC_IMAGE_STORAGE.value())
                .put(Attributes.SOP_INSTANCE_UID, Uid.random(random).value())
                .put(Attributes.STUDY_INSTANCE_UID, Uid.random(random).value())
                .put(Attributes.SERIES_INSTANCE_UID, Uid.random(random).value())
                .put(Attributes.STUDY_DATE, "20260105")
                .put(Attributes.STUDY_ID, "1")
                .put(Attributes.MODALITY, "XC")
                .put(Attributes.PATIENT_NAME, "Wintergreen^Otto")
                .put(Attributes.PATIENT_ID, "P-1")
                .put(new Element(
                        Attributes.PIXEL_DATA.tag(), VR.OB, new Value.Fragments(List.of(), List.of(Bulk.of(noise)))))
                .build();
        Path file = folder.resolve("photo-" + seed + ".dcm");
        DicomFile.write(file, dataSet, TransferSyntax.JPEG_BASELINE);
        return DicomFile.read(file);
    }

    /** The bytes of the one fragment of encapsulated pixel data. */
    static byte[] pixels(Element pixelData) {
        try {
            return ((Value.Fragments) pixelData.value()).fragments().get(0).bytes(1 << 30);
        } catch (IOException e) {
            throw new java.io.UncheckedIOException(e);
        }
    }
}
