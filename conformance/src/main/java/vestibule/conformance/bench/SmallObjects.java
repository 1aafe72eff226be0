package vestibule.conformance.bench;

import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import javax.imageio.ImageIO;
import vestibule.dicom.data.Bulk;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Element;
import vestibule.dicom.data.VR;
import vestibule.dicom.data.Value;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.io.DicomFile;
import vestibule.dicom.io.TransferSyntax;

/**
 * Any number of small good photographs, quickly: one object is made, and in each copy its identifiers, its numbers and the quantisation of
 * its picture are others. Ten belong to a patient, a study and a series; every second one is derived from the one before it.
 */
final class SmallObjects {

    private static final int IN_SERIES = 10;
    private static final int IN_FOLDER = 1000;
    /** Digits that stand for those of each copy, and are nowhere else. */
    private static final String OBJECT = "1111111111";

    private static final String SOURCE = "2222222222";
    private static final String SITTING = "3333333333";
    private static final String NUMBER = "44444";
    private static final int SIDE = 16;

    private final byte[] original;
    private final byte[] derived;

    /** @throws IOException if no object can be written beside the folder */
    SmallObjects() throws IOException {
        byte[] stream = stream();
        Path file = Files.createTempFile("vestibule-", ".dcm");
        try {
            original = written(file, stream, false);
            derived = written(file, stream, true);
        } finally {
            Files.deleteIfExists(file);
        }
    }

    /**
     * Writes that many below a folder.
     *
     * @param withSources whether the sources of derived pictures are among them
     */
    void write(Path folder, int count, boolean withSources) throws IOException {
        for (int i = 0; i < count; i++) {
            Path inside = folder.resolve("%04d".formatted(i / IN_FOLDER));
            if (i % IN_FOLDER == 0) {
                Files.createDirectories(inside);
            }
            Files.write(inside.resolve("photograph-%07d.dcm".formatted(i)), copy(i, withSources));
        }
    }

    private byte[] copy(int number, boolean withSources) {
        boolean second = number % 2 == 1;
        byte[] copy = (second ? derived : original).clone();
        put(copy, NUMBER, "%05d".formatted(number % IN_SERIES + 1));
        put(copy, OBJECT, "7%09d".formatted(number));
        put(copy, SITTING, "8%09d".formatted(number / IN_SERIES));
        if (second) {
            put(copy, SOURCE, (withSources ? "7%09d" : "9%09d").formatted(number - 1));
        }
        // The last values of the first quantisation table, none of which may be 0 (ISO/IEC 10918-1 B.2.4.1)
        int table = indexOf(copy, new byte[] {(byte) 0xFF, (byte) 0xDB}, 0) + 60;
        for (int i = 0, rest = number; i < 4; i++, rest /= 200) {
            copy[table + i] = (byte) (1 + rest % 200);
        }
        return copy;
    }

    private static byte[] stream() throws IOException {
        BufferedImage picture = new BufferedImage(SIDE, SIDE, BufferedImage.TYPE_INT_RGB);
        for (int i = 0; i < SIDE * SIDE; i++) {
            picture.setRGB(i % SIDE, i / SIDE, i * 0x30507);
        }
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        ImageIO.write(picture, "jpeg", bytes);
        return bytes.toByteArray();
    }

    private static byte[] written(Path file, byte[] stream, boolean derived) throws IOException {
        Files.deleteIfExists(file);
        DataSet.Builder object = header(stream.length)
                .put(Attributes.IMAGE_TYPE, derived ? "DERIVED" : "ORIGINAL", "PRIMARY")
                .put(new Element(
                        Attributes.PIXEL_DATA.tag(), VR.OB, new Value.Fragments(List.of(), List.of(Bulk.of(stream)))));
        if (derived) {
            object.put(Attributes.DERIVATION_DESCRIPTION, "Contrast changed")
                    .put(Attributes.SOURCE_IMAGE_SEQUENCE, List.of(source()));
        }
        DicomFile.write(file, object.build(), TransferSyntax.JPEG_BASELINE);
        return Files.readAllBytes(file);
    }

    private static DataSet source() {
        return DataSet.builder()
                .put(Attributes.REFERENCED_SOP_CLASS_UID, Uids.VL_PHOTOGRAPHIC_IMAGE_STORAGE.value())
                .put(Attributes.REFERENCED_SOP_INSTANCE_UID, "2.25." + SOURCE)
                .build();
    }

    private static DataSet.Builder header(int length) {
        return DataSet.builder()
                .put(Attributes.SPECIFIC_CHARACTER_SET, "ISO_IR 192")
                .put(Attributes.SOP_CLASS_UID, Uids.VL_PHOTOGRAPHIC_IMAGE_STORAGE.value())
                .put(Attributes.SOP_INSTANCE_UID, "2.25." + OBJECT)
                .put(Attributes.STUDY_DATE, "20260303")
                .put(Attributes.STUDY_TIME, "101500")
                .put(Attributes.ACQUISITION_DATE_TIME, "20260303101612")
                .put(Attributes.ACCESSION_NUMBER, "A-" + SITTING)
                .put(Attributes.MODALITY, "XC")
                .put(Attributes.MANUFACTURER, "Invented Cameras")
                .putEmpty(Attributes.REFERRING_PHYSICIAN_NAME)
                .put(Attributes.PATIENT_NAME, "Bench^Number" + SITTING)
                .put(Attributes.PATIENT_ID, "B-" + SITTING)
                .put(Attributes.PATIENT_BIRTH_DATE, "19870412")
                .put(Attributes.PATIENT_SEX, "F")
                .put(Attributes.STUDY_INSTANCE_UID, "2.25.5" + SITTING)
                .put(Attributes.SERIES_INSTANCE_UID, "2.25.6" + SITTING)
                .put(Attributes.STUDY_ID, "1")
                .put(Attributes.SERIES_NUMBER, "1")
                .put(Attributes.INSTANCE_NUMBER, NUMBER)
                .put(Attributes.PATIENT_ORIENTATION, "A", "F")
                .put(Attributes.IMAGE_LATERALITY, "R")
                .put(
                        Attributes.ANATOMIC_REGION_SEQUENCE,
                        List.of(DataSet.builder()
                                .put(Attributes.CODE_VALUE, "661005")
                                .put(Attributes.CODING_SCHEME_DESIGNATOR, "SCT")
                                .put(Attributes.CODE_MEANING, "Jaw region")
                                .build()))
                .put(Attributes.BURNED_IN_ANNOTATION, "NO")
                .put(Attributes.LOSSY_IMAGE_COMPRESSION, "01")
                .put(Attributes.LOSSY_IMAGE_COMPRESSION_METHOD, "ISO_10918_1")
                .put(Attributes.LOSSY_IMAGE_COMPRESSION_RATIO, "%.2f".formatted(3.0 * SIDE * SIDE / length))
                .put(Attributes.ACQUISITION_CONTEXT_SEQUENCE, List.of())
                .put(Attributes.ACQUISITION_CONTEXT_DESCRIPTION, "view=teeth-buccal-right-direct; capture=direct")
                .put(Attributes.SAMPLES_PER_PIXEL, 3)
                .put(Attributes.PHOTOMETRIC_INTERPRETATION, "YBR_FULL_422")
                .put(Attributes.PLANAR_CONFIGURATION, 0)
                .put(Attributes.ROWS, SIDE)
                .put(Attributes.COLUMNS, SIDE)
                .put(Attributes.BITS_ALLOCATED, 8)
                .put(Attributes.BITS_STORED, 8)
                .put(Attributes.HIGH_BIT, 7)
                .put(Attributes.PIXEL_REPRESENTATION, 0);
    }

    /** Puts a text of the same length wherever the first one stands. */
    private static void put(byte[] bytes, String found, String other) {
        byte[] before = found.getBytes(StandardCharsets.US_ASCII);
        byte[] after = other.getBytes(StandardCharsets.US_ASCII);
        List<Integer> places = new ArrayList<>();
        for (int at = indexOf(bytes, before, 0); at >= 0; at = indexOf(bytes, before, at + 1)) {
            places.add(at);
        }
        if (before.length != after.length || places.isEmpty()) {
            throw new IllegalStateException("nowhere is " + found + " to become " + other);
        }
        places.forEach(at -> System.arraycopy(after, 0, bytes, at, after.length));
    }

    private static int indexOf(byte[] bytes, byte[] part, int from) {
        for (int i = from; i <= bytes.length - part.length; i++) {
            if (java.util.Arrays.equals(bytes, i, i + part.length, part, 0, part.length)) {
                return i;
            }
        }
        return -1;
    }
}
