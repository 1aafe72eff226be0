package vestibule.conformance.bench;

import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import javax.imageio.IIOImage;
import javax.imageio.ImageIO;
import javax.imageio.ImageWriteParam;
import javax.imageio.ImageWriter;
import javax.imageio.stream.ImageOutputStream;
import vestibule.dicom.data.Bulk;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Element;
import vestibule.dicom.data.VR;
import vestibule.dicom.data.Value;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.io.DicomFile;
import vestibule.dicom.io.TransferSyntax;

/** Good VL Photographic Images of 12 megapixels as long as those of a camera, drawn by code: waves and noise of a seed. */
final class NoisyPhotograph {

    static final int COLUMNS = 4000;
    static final int ROWS = 3000;

    private final byte[] stream;

    /** A photograph at a quality between 0 and 1. */
    NoisyPhotograph(long seed, float quality) throws IOException {
        BufferedImage picture = new BufferedImage(COLUMNS, ROWS, BufferedImage.TYPE_INT_RGB);
        Random noise = new Random(seed);
        for (int y = 0; y < ROWS; y++) {
            for (int x = 0; x < COLUMNS; x++) {
                int wave = (int) (128 + 60 * Math.sin(x / 40.0) + 40 * Math.cos(y / 33.0));
                int grain = noise.nextInt(44);
                picture.setRGB(
                        x, y, bounded(wave + grain) << 16 | bounded(wave + grain / 2) << 8 | bounded(wave - grain));
            }
        }
        stream = coded(picture, quality);
    }

    private static int bounded(int value) {
        return Math.max(0, Math.min(255, value));
    }

    private static byte[] coded(BufferedImage picture, float quality) throws IOException {
        ImageWriter writer = ImageIO.getImageWritersByFormatName("jpeg").next();
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        try (ImageOutputStream target = ImageIO.createImageOutputStream(bytes)) {
            ImageWriteParam parameters = writer.getDefaultWriteParam();
            parameters.setCompressionMode(ImageWriteParam.MODE_EXPLICIT);
            parameters.setCompressionQuality(quality);
            writer.setOutput(target);
            writer.write(null, new IIOImage(picture, null, null), parameters);
        } finally {
            writer.dispose();
        }
        return bytes.toByteArray();
    }

    long length() {
        return stream.length;
    }

    /** Writes it as the object of that number, one series for every ten. */
    void write(Path file, int number) throws IOException {
        DataSet.Builder object = DataSet.builder()
                .put(Attributes.SPECIFIC_CHARACTER_SET, "ISO_IR 192")
                .put(Attributes.IMAGE_TYPE, "ORIGINAL", "PRIMARY")
                .put(Attributes.SOP_CLASS_UID, Uids.VL_PHOTOGRAPHIC_IMAGE_STORAGE.value())
                .put(Attributes.SOP_INSTANCE_UID, "2.25.7" + number)
                .put(Attributes.STUDY_DATE, "20260303")
                .put(Attributes.STUDY_TIME, "101500")
                .put(Attributes.ACQUISITION_DATE_TIME, "20260303101612")
                .put(Attributes.ACCESSION_NUMBER, "A-" + number / 10)
                .put(Attributes.MODALITY, "XC")
                .put(Attributes.MANUFACTURER, "Invented Cameras")
                .putEmpty(Attributes.REFERRING_PHYSICIAN_NAME)
                .put(Attributes.PATIENT_NAME, "Bench^Number" + number / 10)
                .put(Attributes.PATIENT_ID, "B-" + number / 10)
                .put(Attributes.PATIENT_BIRTH_DATE, "19870412")
                .put(Attributes.PATIENT_SEX, "F")
                .put(Attributes.STUDY_INSTANCE_UID, "2.25.8" + number / 10)
                .put(Attributes.SERIES_INSTANCE_UID, "2.25.9" + number / 10)
                .put(Attributes.STUDY_ID, "1")
                .put(Attributes.SERIES_NUMBER, "1")
                .put(Attributes.INSTANCE_NUMBER, Integer.toString(number % 10 + 1))
                .put(Attributes.PATIENT_ORIENTATION, "A", "F")
                .put(Attributes.IMAGE_LATERALITY, "R")
                .put(Attributes.BURNED_IN_ANNOTATION, "NO")
                .put(Attributes.LOSSY_IMAGE_COMPRESSION, "01")
                .put(Attributes.LOSSY_IMAGE_COMPRESSION_METHOD, "ISO_10918_1")
                .put(Attributes.LOSSY_IMAGE_COMPRESSION_RATIO, "%.1f".formatted(3.0 * ROWS * COLUMNS / stream.length))
                .put(Attributes.ACQUISITION_CONTEXT_SEQUENCE, List.of());
        DicomFile.write(file, withPixels(object, number), TransferSyntax.JPEG_BASELINE);
    }

    private DataSet withPixels(DataSet.Builder object, int number) {
        return object.put(Attributes.SAMPLES_PER_PIXEL, 3)
                .put(Attributes.PHOTOMETRIC_INTERPRETATION, "YBR_FULL_422")
                .put(Attributes.PLANAR_CONFIGURATION, 0)
                .put(Attributes.ROWS, ROWS)
                .put(Attributes.COLUMNS, COLUMNS)
                .put(Attributes.BITS_ALLOCATED, 8)
                .put(Attributes.BITS_STORED, 8)
                .put(Attributes.HIGH_BIT, 7)
                .put(Attributes.PIXEL_REPRESENTATION, 0)
                .put(new Element(
                        Attributes.PIXEL_DATA.tag(), VR.OB, new Value.Fragments(List.of(), List.of(numbered(number)))))
                .build();
    }

    /** The stream with its number in a comment segment, so that no two pictures are the same. */
    private Bulk numbered(int number) {
        byte[] comment = {
            (byte) 0xFF,
            (byte) 0xFE,
            0,
            6,
            (byte) (number >> 24),
            (byte) (number >> 16),
            (byte) (number >> 8),
            (byte) number
        };
        return Bulk.concat(List.of(
                Bulk.of(Arrays.copyOf(stream, 2)),
                Bulk.of(comment),
                Bulk.of(Arrays.copyOfRange(stream, 2, stream.length))));
    }
}
