package vestibule.conformance.color;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.color.ColorSpace;
import java.awt.color.ICC_ColorSpace;
import java.awt.color.ICC_Profile;
import java.awt.image.BufferedImage;
import java.io.BufferedOutputStream;
import java.io.DataInputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.PrintStream;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import vestibule.bridge.app.Main;
import vestibule.bridge.app.Terminal;
import vestibule.conformance.peer.Tool;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Value;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.io.DicomFile;

/** The source is decoded by libjpeg-turbo's djpeg; every reader of the object must show the same, to the eye. */
@DisplayName("A colour chart, photographed and wrapped")
class ChartTest {
    private static final int CELL = 32;
    private static final int LEVELS = 6;
    private static final int WIDTH = CELL * LEVELS * LEVELS;
    private static final int HEIGHT = CELL * LEVELS;

    /** What a reader may differ by, at most in the mean of any cell. */
    private static final double JUST_NOTICEABLE = 1;

    @TempDir
    private Path folder;

    private Path object;
    private BufferedImage source;

    /** What the photograph says of its colours. */
    private enum Said {
        NOTHING,
        /** A display profile that is far from sRGB, so that whoever mixes the two up shows other colours. */
        DISPLAY_PROFILE,
        SRGB_NOTED
    }

    private void wrap(Said colours) throws IOException {
        Path pixels = folder.resolve("chart.ppm");
        writePixels(pixels, chart());
        Path photo = folder.resolve("chart.jpg");
        Tool.Said coded = Tool.named("cjpeg")
                .run("-quality", "92", "-sample", "2x1", "-outfile", photo.toString(), pixels.toString());
        assertThat(coded.exit()).as(coded.err()).isZero();
        Path decoded = folder.resolve("decoded.ppm");
        assertThat(Tool.named("djpeg")
                        .run("-pnm", "-outfile", decoded.toString(), photo.toString())
                        .exit())
                .isZero();
        source = readPixels(decoded);
        Files.write(photo, withSegment(Files.readAllBytes(photo), segment(colours)));
        object = folder.resolve("chart.dcm");
        int exit = Main.run(
                new String[] {
                    "wrap",
                    photo.toString(),
                    "--out",
                    object.toString(),
                    "--view",
                    "shade-tab",
                    "--patient-id",
                    "PG-0001",
                    "--patient-name",
                    "Exempel^Zoe"
                },
                new Terminal(
                        new PrintStream(OutputStream.nullOutputStream(), true, StandardCharsets.UTF_8),
                        new PrintStream(OutputStream.nullOutputStream(), true, StandardCharsets.UTF_8)));
        assertThat(exit).isZero();
        profileIsThere(colours);
    }

    /** Behind SOI. */
    private static byte[] withSegment(byte[] photo, byte[] segment) {
        return ByteBuffer.allocate(photo.length + segment.length)
                .put(photo, 0, 2)
                .put(segment)
                .put(photo, 2, photo.length - 2)
                .array();
    }

    private static byte[] segment(Said colours) {
        return switch (colours) {
            case NOTHING -> new byte[0];
            // One chunk (ICC.1:2010 Annex B.4)
            case DISPLAY_PROFILE -> {
                byte[] profile = linear().getData();
                yield ByteBuffer.allocate(18 + profile.length)
                        .putShort((short) 0xFFE2)
                        .putShort((short) (16 + profile.length))
                        .put("ICC_PROFILE\0\1\1".getBytes(StandardCharsets.US_ASCII))
                        .put(profile)
                        .array();
            }
            // A pointer to the Exif directory, and there ColorSpace with 1 for sRGB (Exif 2.32, 4.6.5 B, tag A001)
            case SRGB_NOTED ->
                HexFormat.of()
                        .parseHex("ffe100344578696600004d4d002a00000008" + "0001" + "8769000400000001" + "0000001a"
                                + "00000000" + "0001" + "a001000300000001" + "00010000" + "00000000");
        };
    }

    private static ICC_Profile linear() {
        return ICC_Profile.getInstance(ColorSpace.CS_LINEAR_RGB);
    }

    /** The object has the profile that the photograph asks for, and its colours are those of the photograph's own. */
    private void profileIsThere(Said colours) throws IOException {
        DataSet dataSet = DicomFile.read(object).dataSet();
        assertThat(dataSet.contains(Attributes.ICC_PROFILE)).isEqualTo(colours != Said.NOTHING);
        assertThat(dataSet.text(Attributes.COLOR_SPACE))
                .isEqualTo(colours == Said.SRGB_NOTED ? Optional.of("SRGB") : Optional.empty());
        if (colours == Said.NOTHING) {
            return;
        }
        Value value = dataSet.find(Attributes.ICC_PROFILE).orElseThrow().value();
        ICC_Profile carried =
                ICC_Profile.getInstance(((Value.Binary) value).bulk().bytes(1 << 20));
        assertThat(carried.getProfileClass()).isEqualTo(ICC_Profile.CLASS_INPUT);
        ColorSpace ours = new ICC_ColorSpace(carried);
        ColorSpace theirs = colours == Said.DISPLAY_PROFILE
                ? new ICC_ColorSpace(linear())
                : ColorSpace.getInstance(ColorSpace.CS_sRGB);
        for (int cell = 0; cell < LEVELS * LEVELS * LEVELS; cell++) {
            int rgb = mean(source, cell % (LEVELS * LEVELS) * CELL, cell / (LEVELS * LEVELS) * CELL);
            double difference = Ciede2000.between(Ciede2000.lab(shown(theirs, rgb)), Ciede2000.lab(shown(ours, rgb)));
            assertThat(difference).as("%s, colour %06X", colours, rgb).isLessThanOrEqualTo(JUST_NOTICEABLE);
        }
    }

    private static int shown(ColorSpace space, int rgb) {
        float[] shown = space.toRGB(new Color(rgb).getRGBColorComponents(null));
        return new Color(shown[0], shown[1], shown[2]).getRGB() & 0xFFFFFF;
    }

    /** All colours of six levels of red, green and blue. */
    private static BufferedImage chart() {
        BufferedImage chart = new BufferedImage(WIDTH, HEIGHT, BufferedImage.TYPE_INT_RGB);
        Graphics2D graphics = chart.createGraphics();
        for (int cell = 0; cell < LEVELS * LEVELS * LEVELS; cell++) {
            int step = 255 / (LEVELS - 1);
            graphics.setColor(
                    new Color(cell % LEVELS * step, cell / LEVELS % LEVELS * step, cell / LEVELS / LEVELS * step));
            int column = cell % (LEVELS * LEVELS);
            graphics.fillRect(column * CELL, cell / (LEVELS * LEVELS) * CELL, CELL, CELL);
        }
        graphics.dispose();
        return chart;
    }

    @ParameterizedTest
    @EnumSource
    @DisplayName("has the same colours for DCMTK")
    void dcmtk(Said colours) throws IOException {
        wrap(colours);
        Path shown = folder.resolve("dcmtk.ppm");
        Tool.Said said = Tool.named("dcmj2pnm").run("--write-raw-pnm", object.toString(), shown.toString());
        assertThat(said.exit()).as(said.err()).isZero();
        same(readPixels(shown));
    }

    @ParameterizedTest
    @EnumSource
    @DisplayName("has the same colours for pydicom with Pillow")
    void pydicom(Said colours) throws IOException {
        wrap(colours);
        Tool python = new Tool(Path.of("/usr/bin/python3"));
        Assumptions.assumeTrue(
                Files.isExecutable(python.program())
                        && python.run("-c", "import pydicom, PIL").exit() == 0,
                "pydicom with Pillow is not on this machine");
        Path shown = folder.resolve("pydicom.ppm");
        String script = """
                import io, sys, pydicom
                from pydicom.encaps import defragment_data
                from PIL import Image
                data = pydicom.dcmread(sys.argv[1])
                assert data.PhotometricInterpretation == 'YBR_FULL_422', data.PhotometricInterpretation
                Image.open(io.BytesIO(defragment_data(data.PixelData))).convert('RGB').save(sys.argv[2])
                """;
        Tool.Said said = python.run("-c", script, object.toString(), shown.toString());
        assertThat(said.exit()).as(said.err()).isZero();
        same(readPixels(shown));
    }

    @ParameterizedTest
    @EnumSource
    @DisplayName("has the same colours in a browser that is given the stream as an archive renders it (PS3.18 8.7.4)")
    void browser(Said colours) throws IOException {
        wrap(colours);
        Tool chromium = Tool.named("chromium");
        Value value = DicomFile.read(object)
                .dataSet()
                .find(Attributes.PIXEL_DATA)
                .orElseThrow()
                .value();
        Files.write(
                folder.resolve("stream.jpg"),
                ((Value.Fragments) value).fragments().get(0).bytes(1 << 24));
        Path page = Files.writeString(
                folder.resolve("page.html"),
                "<body style='margin:0;background:#fff'><img src='stream.jpg' style='display:block'></body>");
        Path shown = folder.resolve("browser.png");
        List<String> words = new ArrayList<>(List.of("--headless", "--no-sandbox", "--disable-gpu", "--disable-quic"));
        words.addAll(List.of("--no-first-run", "--disable-background-networking", "--disable-component-update"));
        words.addAll(List.of("--disable-sync", "--hide-scrollbars", "--force-device-scale-factor=1"));
        words.addAll(List.of("--force-color-profile=srgb", "--user-data-dir=" + folder.resolve("profile")));
        words.addAll(List.of(
                "--window-size=" + WIDTH + "," + HEIGHT,
                "--screenshot=" + shown,
                page.toUri().toString()));
        Tool.Said said = chromium.run(words);
        assertThat(shown).as(said.err()).exists();
        same(ImageIO.read(shown.toFile()));
    }

    /** The means of all cells; the edges of cells are left out, for readers may widen half resolution either way. */
    private void same(BufferedImage shown) {
        assertThat(shown.getWidth()).isEqualTo(source.getWidth());
        double most = 0;
        for (int cell = 0; cell < LEVELS * LEVELS * LEVELS; cell++) {
            int x = cell % (LEVELS * LEVELS) * CELL;
            int y = cell / (LEVELS * LEVELS) * CELL;
            double difference = Ciede2000.between(Ciede2000.lab(mean(source, x, y)), Ciede2000.lab(mean(shown, x, y)));
            assertThat(difference).as("cell at %d, %d", x, y).isLessThanOrEqualTo(JUST_NOTICEABLE);
            most = Math.max(most, difference);
        }
        System.out.printf(
                java.util.Locale.ROOT, "largest CIEDE2000 of %d cells: %.3f%n", LEVELS * LEVELS * LEVELS, most);
    }

    private static int mean(BufferedImage image, int left, int top) {
        long[] sum = new long[3];
        int count = 0;
        for (int y = top + 6; y < top + CELL - 6; y++) {
            for (int x = left + 6; x < left + CELL - 6; x++) {
                int rgb = image.getRGB(x, y);
                sum[0] += rgb >> 16 & 0xFF;
                sum[1] += rgb >> 8 & 0xFF;
                sum[2] += rgb & 0xFF;
                count++;
            }
        }
        return (int) (Math.round((double) sum[0] / count) << 16
                | Math.round((double) sum[1] / count) << 8
                | Math.round((double) sum[2] / count));
    }

    private static void writePixels(Path target, BufferedImage image) throws IOException {
        try (OutputStream out = new BufferedOutputStream(Files.newOutputStream(target))) {
            String header = "P6\n" + image.getWidth() + " " + image.getHeight() + "\n255\n";
            out.write(header.getBytes(StandardCharsets.US_ASCII));
            for (int y = 0; y < image.getHeight(); y++) {
                for (int x = 0; x < image.getWidth(); x++) {
                    int rgb = image.getRGB(x, y);
                    out.write(rgb >> 16);
                    out.write(rgb >> 8);
                    out.write(rgb);
                }
            }
        }
    }

    /** A portable pixel map in bytes, with or without comments in its header. */
    private static BufferedImage readPixels(Path file) throws IOException {
        try (DataInputStream in = new DataInputStream(Files.newInputStream(file))) {
            assertThat(word(in)).isEqualTo("P6");
            int width = Integer.parseInt(word(in));
            int height = Integer.parseInt(word(in));
            assertThat(word(in)).isEqualTo("255");
            byte[] samples = in.readNBytes(3 * width * height);
            BufferedImage image = new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
            for (int at = 0; at < width * height; at++) {
                int rgb = (samples[3 * at] & 0xFF) << 16
                        | (samples[3 * at + 1] & 0xFF) << 8
                        | (samples[3 * at + 2] & 0xFF);
                image.setRGB(at % width, at / width, rgb);
            }
            return image;
        }
    }

    private static String word(DataInputStream in) throws IOException {
        StringBuilder word = new StringBuilder();
        int next = in.read();
        while (next == '#' || Character.isWhitespace(next)) {
            while (next == '#' && in.read() != '\n') {
                // A comment goes to the end of its line
            }
            next = in.read();
        }
        while (!Character.isWhitespace(next)) {
            word.append((char) next);
            next = in.read();
        }
        return word.toString();
    }
}
