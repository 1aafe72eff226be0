package vestibule.bridge.app;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.io.TempDir;
import vestibule.dicom.data.Value;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.io.DicomFile;
import vestibule.dicom.io.TransferSyntax;

@DisplayName("Odd JPEG streams")
class OddPicturesTest {

    /** Decoders may round differently; the mean of a picture shows a wrong colour at once. */
    private static final int ROUNDING = 2;

    private static final String STILL_TO_COME = "still to come";

    @TempDir
    Path folder;

    private Ran wrap(Path photo, String... more) {
        return Ran.vestibule(Stream.concat(
                        Stream.of(
                                "wrap",
                                photo.toString(),
                                "--out",
                                folder.resolve("object.dcm").toString(),
                                "--view",
                                "teeth-front-occlusion",
                                "--capture",
                                "direct",
                                "--patient-id",
                                "PG-0001",
                                "--patient-name",
                                "Exempel^Zoë"),
                        Stream.of(more))
                .toArray(String[]::new));
    }

    private DicomFile object() throws IOException {
        return DicomFile.read(folder.resolve("object.dcm"));
    }

    /** The samples that the object holds, laid as they were recorded, decoded by the reference where they are coded. */
    private byte[] samples(PeerTools.Row row) throws IOException {
        Value value =
                object().dataSet().find(Attributes.PIXEL_DATA).orElseThrow().value();
        if (value instanceof Value.Binary binary) {
            return binary.bulk().bytes(1 << 26);
        }
        Path stream = Files.write(
                folder.resolve("stream.jpg"),
                ((Value.Fragments) value).fragments().get(0).bytes(1 << 26));
        if (isTurned(row)) {
            Files.write(stream, turnedBack(stream, row.column("orientation")));
        }
        return PeerTools.samples(stream);
    }

    private static boolean isTurned(PeerTools.Row row) {
        return row.column("orientation").matches("[2-8]");
    }

    /** Undoes what lays a picture upright that notes this orientation (Exif 2.32, 4.6.4 A, tag 0112). */
    private static byte[] turnedBack(Path stream, String orientation) throws IOException {
        String back = switch (orientation) {
            case "2" -> "-flip horizontal";
            case "3" -> "-rotate 180";
            case "4" -> "-flip vertical";
            case "5" -> "-transpose";
            case "6" -> "-rotate 270";
            case "7" -> "-transverse";
            case "8" -> "-rotate 90";
            default -> throw new IllegalArgumentException(orientation);
        };
        List<String> words = new ArrayList<>(List.of("jpegtran", "-perfect"));
        words.addAll(List.of(back.split(" ")));
        words.add(stream.toString());
        return PeerTools.run(words.toArray(String[]::new)).orElseThrow();
    }

    @TestFactory
    @DisplayName(
            "go in with every sample kept, or are refused in one sentence that names the reason; nothing else is left behind")
    Stream<DynamicTest> corpus() throws IOException {
        return PeerTools.corpus("jpeg-odd").stream()
                .map(row -> dynamicTest(row.toString(), () -> {
                    Files.deleteIfExists(folder.resolve("object.dcm"));
                    Ran ran = wrap(row.file());
                    if (ran.exit() == 0) {
                        // A turn is refused only where it would cost an edge
                        assertThat(isTurned(row) ? Optional.empty() : reason(row))
                                .as("a reason to refuse it")
                                .isEmpty();
                        assertKept(row);
                    } else {
                        assertRefused(row, ran);
                    }
                }));
    }

    private void assertRefused(PeerTools.Row row, Ran ran) throws IOException {
        assertThat(reason(row)).as(ran.err()).isPresent();
        assertThat(ran.err()).contains(reason(row).orElseThrow());
        assertThat(ran.exit()).isEqualTo(ran.err().contains(STILL_TO_COME) ? 1 : 65);
        assertThat(ran.err().strip().lines()).hasSize(1);
        try (Stream<Path> left = Files.list(folder)) {
            assertThat(left).noneMatch(file -> file.toString().contains(".dcm"));
        }
    }

    /** What a refusal has to say, by what the index knows of the file. */
    private static Optional<String> reason(PeerTools.Row row) {
        String special = row.column("special");
        if (special.startsWith("SOF3 ")) {
            return Optional.of("the picture is lossless (SOF3)");
        } else if (special.startsWith("SOF9 ")) {
            return Optional.of("arithmetic coding (SOF9)");
        } else if (special.contains("12-bit")) {
            return Optional.of("the picture has 12 bits a sample");
        } else if (special.contains("16-bit quantisation table")) {
            return Optional.of("a quantization element above 255");
        } else if (special.contains("4 comp")) {
            // The transform that Adobe's segment tells: 2 for YCCK (T.872 6.5.3)
            return Optional.of("the four components are " + (special.contains("transform 2") ? "YCCK" : "CMYK"));
        } else if (isTurned(row)) {
            return Optional.of("without loss the picture cannot be laid the right way round");
        }
        return row.column("exif_datetime_original").startsWith("2099") ? Optional.of(STILL_TO_COME) : Optional.empty();
    }

    private void assertKept(PeerTools.Row row) throws IOException {
        byte[] ours = samples(row);
        byte[] theirs = PeerTools.samples(sequential(row));
        if (!object().transferSyntax().equals(TransferSyntax.JPEG_BASELINE)) {
            assertClose(ours, Arrays.copyOfRange(theirs, theirs.length - ours.length, theirs.length));
            return;
        }
        assertThat(ours).isEqualTo(theirs);
        // The digest is that of the decoder which made the index, so it counts where the one at hand makes the same
        String indexed = row.column("decoded_md5");
        boolean smoothed = row.toString().matches(".*\\.scan00\\d\\.jpeg");
        if (!smoothed && indexed.equals(digest(PeerTools.samples(row.file())))) {
            assertThat(digest(ours)).isEqualTo(indexed);
        }
    }

    private static String digest(byte[] bytes) {
        try {
            return HexFormat.of().formatHex(MessageDigest.getInstance("MD5").digest(bytes));
        } catch (NoSuchAlgorithmException e) {
            throw new AssertionError(e);
        }
    }

    /** The reference decoder smooths a progression that ends early, so both are compared as sequential streams. */
    private Path sequential(PeerTools.Row row) throws IOException {
        return row.column("sof").contains("progressive")
                ? Files.write(
                        folder.resolve("sequential.jpg"),
                        PeerTools.run("jpegtran", row.file().toString()).orElseThrow())
                : row.file();
    }

    private static void assertClose(byte[] ours, byte[] theirs) {
        assertThat(ours).hasSameSizeAs(theirs);
        int worst = 0;
        for (int index = 0; index < ours.length; index++) {
            worst = Math.max(worst, Math.abs((ours[index] & 0xFF) - (theirs[index] & 0xFF)));
        }
        assertThat(worst).isLessThanOrEqualTo(ROUNDING);
    }

    private static Optional<PeerTools.Row> row(String name) throws IOException {
        return PeerTools.corpus("jpeg-odd").stream()
                .filter(row -> row.toString().equals(name))
                .findFirst();
    }

    @Test
    @DisplayName("of red, green and blue are stored unpacked and never mislabelled (PS3.3 C.8.12.1.1.1)")
    void redGreenBlue() throws IOException {
        Ran ran = wrap(row("libjxl_flower.png.im_q85_rgb.jpg").orElseThrow().file());
        assertThat(ran.exit()).as(ran.err()).isZero();
        assertThat(object().transferSyntax()).isEqualTo(TransferSyntax.EXPLICIT_VR_LITTLE_ENDIAN);
        assertThat(object().dataSet().text(Attributes.PHOTOMETRIC_INTERPRETATION))
                .contains("RGB");
        assertThat(object().dataSet().text(Attributes.LOSSY_IMAGE_COMPRESSION)).contains("01");
        assertThat(object().dataSet().texts(Attributes.IMAGE_TYPE)).containsExactly("ORIGINAL", "PRIMARY");
    }

    @Test
    @DisplayName("of four inks are refused by name, and become red, green and blue where the settings say so")
    void fourInks() throws IOException {
        Path photo = row("jpeg-decoder_jpg-cmyk-2.jpg").orElseThrow().file();
        Ran refused = wrap(photo);
        assertThat(refused.exit()).isEqualTo(65);
        assertThat(refused.err()).contains("CMYK");
        Path config = Files.writeString(folder.resolve("settings.toml"), "[pictures]\ninks = \"convert\"\n");
        Ran ran = wrap(photo, "--config", config.toString());
        assertThat(ran.exit()).as(ran.err()).isZero();
        assertThat(object().dataSet().texts(Attributes.IMAGE_TYPE)).containsExactly("DERIVED", "PRIMARY");
        assertThat(object().dataSet().text(Attributes.DERIVATION_DESCRIPTION).orElseThrow())
                .contains("four inks");
        assertThat(object().dataSet().contains(Attributes.ICC_PROFILE)).isFalse();
    }

    /** The machine's own folder for temporary files may hold what others left, so the test has one of its own. */
    @Test
    @DisplayName("leave nothing in scratch, whether they go in or not")
    void scratchIsEmpty() throws IOException {
        Path scratchParent = Files.createDirectory(folder.resolve("scratch"));
        String machines = System.setProperty("java.io.tmpdir", scratchParent.toString());
        try {
            for (String name : List.of("image-size_progressive.jpg", "libjpeg-turbo_testimgari.jpg")) {
                wrap(row(name).orElseThrow().file());
            }
        } finally {
            System.setProperty("java.io.tmpdir", machines);
        }
        assertThat(scratchParent).isEmptyDirectory();
    }
}
