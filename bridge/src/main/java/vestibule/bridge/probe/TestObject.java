package vestibule.bridge.probe;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.math.BigDecimal;
import java.math.MathContext;
import java.time.Clock;
import java.time.LocalDateTime;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.random.RandomGenerator;
import javax.imageio.ImageIO;
import vestibule.dicom.data.Bulk;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Element;
import vestibule.dicom.data.Uid;
import vestibule.dicom.data.VR;
import vestibule.dicom.data.Value;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.io.DataSetCodec;
import vestibule.dicom.io.TransferSyntax;

/** An object that says everywhere that it is a test: a small picture of nobody (PS3.3 A.32.4). */
final class TestObject {

    static final String PATIENT_ID = "VESTIBULE-TEST-OBJECT";

    private static final int SIZE = 64;
    private static final DateTimeFormatter DAY = DateTimeFormatter.BASIC_ISO_DATE;
    private static final DateTimeFormatter TIME = DateTimeFormatter.ofPattern("HHmmss");

    private final Clock clock;
    private final RandomGenerator random;

    TestObject(Clock clock, RandomGenerator random) {
        this.clock = clock;
        this.random = random;
    }

    /**
     * One that was made.
     *
     * @param sopInstance its SOP Instance UID
     * @param encoded its data set in JPEG Baseline
     */
    record Made(Uid sopInstance, Bulk encoded) {}

    Made make() throws IOException {
        Uid instance = Uid.random(random);
        byte[] bytes =
                DataSetCodec.encode(dataSet(instance), TransferSyntax.JPEG_BASELINE, DataSetCodec.Strictness.OBJECT);
        return new Made(instance, Bulk.of(bytes));
    }

    DataSet dataSet(Uid instance) throws IOException {
        byte[] picture = picture();
        LocalDateTime now = LocalDateTime.now(clock);
        DataSet.Builder object = DataSet.builder();
        putPatientAndStudy(object, now);
        object.put(Attributes.SOP_CLASS_UID, Uids.VL_PHOTOGRAPHIC_IMAGE_STORAGE.value())
                .put(Attributes.SOP_INSTANCE_UID, instance.value())
                .put(Attributes.MANUFACTURER, "Vestibule")
                .put(Attributes.INSTANCE_NUMBER, "1")
                .put(Attributes.IMAGE_TYPE, "ORIGINAL", "PRIMARY")
                .put(Attributes.PATIENT_ORIENTATION, new String[0])
                .put(Attributes.CONTENT_DATE, DAY.format(now))
                .put(Attributes.CONTENT_TIME, TIME.format(now))
                .put(
                        Attributes.IMAGE_COMMENTS,
                        "Test object of vestibule probe. It shows no patient and may be deleted.")
                .put(Attributes.BURNED_IN_ANNOTATION, "NO")
                .put(Attributes.ACQUISITION_CONTEXT_SEQUENCE, List.of());
        putPixels(object, picture);
        return object.build();
    }

    private void putPatientAndStudy(DataSet.Builder object, LocalDateTime now) {
        object.put(Attributes.PATIENT_NAME, "TEST OBJECT^VESTIBULE")
                .put(Attributes.PATIENT_ID, PATIENT_ID)
                .put(Attributes.PATIENT_BIRTH_DATE, "")
                .put(Attributes.PATIENT_SEX, "")
                .put(Attributes.STUDY_INSTANCE_UID, Uid.random(random).value())
                .put(Attributes.STUDY_DATE, DAY.format(now))
                .put(Attributes.STUDY_TIME, TIME.format(now))
                .put(Attributes.REFERRING_PHYSICIAN_NAME, "")
                .put(Attributes.STUDY_ID, "TEST")
                .put(Attributes.ACCESSION_NUMBER, "")
                .put(Attributes.STUDY_DESCRIPTION, "TEST OBJECT, no patient, may be deleted")
                .put(Attributes.SERIES_INSTANCE_UID, Uid.random(random).value())
                .put(Attributes.SERIES_NUMBER, "1")
                .put(Attributes.MODALITY, "XC");
    }

    private static void putPixels(DataSet.Builder object, byte[] picture) {
        String ratio = BigDecimal.valueOf(3L * SIZE * SIZE)
                .divide(BigDecimal.valueOf(picture.length), new MathContext(4))
                .stripTrailingZeros()
                .toPlainString();
        object.put(Attributes.SAMPLES_PER_PIXEL, 3)
                .put(Attributes.PHOTOMETRIC_INTERPRETATION, "YBR_FULL_422")
                .put(Attributes.PLANAR_CONFIGURATION, 0)
                .put(Attributes.ROWS, SIZE)
                .put(Attributes.COLUMNS, SIZE)
                .put(Attributes.BITS_ALLOCATED, 8)
                .put(Attributes.BITS_STORED, 8)
                .put(Attributes.HIGH_BIT, 7)
                .put(Attributes.PIXEL_REPRESENTATION, 0)
                .put(Attributes.LOSSY_IMAGE_COMPRESSION, "01")
                .put(Attributes.LOSSY_IMAGE_COMPRESSION_RATIO, ratio)
                .put(Attributes.LOSSY_IMAGE_COMPRESSION_METHOD, "ISO_10918_1")
                .put(new Element(
                        Attributes.PIXEL_DATA.tag(), VR.OB, new Value.Fragments(List.of(), List.of(Bulk.of(picture)))));
    }

    /** Two stripes, so that nobody takes it for a photograph. */
    private static byte[] picture() throws IOException {
        BufferedImage image = new BufferedImage(SIZE, SIZE, BufferedImage.TYPE_INT_RGB);
        Graphics2D pen = image.createGraphics();
        pen.setColor(Color.ORANGE);
        pen.fillRect(0, 0, SIZE, SIZE);
        pen.setColor(Color.BLACK);
        pen.fillRect(0, SIZE / 4, SIZE, SIZE / 8);
        pen.fillRect(0, SIZE / 2, SIZE, SIZE / 8);
        pen.dispose();
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        if (!ImageIO.write(image, "jpeg", bytes)) {
            throw new IOException("this Java cannot write JPEG, which the test object needs");
        }
        return bytes.toByteArray();
    }
}
