package vestibule.conformance.job;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.stream.Stream;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.ObjectMapper;
import vestibule.conformance.Corpus;
import vestibule.dicom.data.Value;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.io.DicomFile;

/**
 * Photographs with a coloured mark at each edge for the side of the patient that lies there, recorded as the facts on
 * views say the camera records them (trade facts, sections 1 and 2), become objects; the marks are looked for in the
 * pixels of the object. Exif Orientation is that of Exif 2.32, 4.6.4 A, tag 0112, written here by its wording: which
 * side of the scene the first row and the first column of the file are.
 */
@DisplayName("Marks at the edges of a photograph end where Patient Orientation says (PS3.3 C.7.6.1.1.1)")
class MarkedPhotographsTest {
    private static final long SEED = Long.getLong("vestibule.seed", 20261125L);
    private static final int WIDTH = 128;
    private static final int HEIGHT = 96;
    private static final Map<Character, Color> MARKS = Map.of(
            'L', Color.RED,
            'R', Color.GREEN,
            'A', Color.BLUE,
            'P', Color.YELLOW,
            'H', Color.MAGENTA,
            'F', Color.CYAN);

    @TempDir
    private static Path folder;

    /** One way to take a view: what the camera records, and what the command is told. */
    private record Taking(String view, String like, String capture, String recorded, List<String> accepted, int exif) {}

    private static JsonNode facts() throws IOException {
        Path facts = Corpus.shared()
                .map(shared -> shared.resolve("trade/views.json"))
                .orElse(Path.of("absent"));
        Assumptions.assumeTrue(Files.isRegularFile(facts), "the facts on views are not here");
        return new ObjectMapper().readTree(facts.toFile()).get("views");
    }

    private static List<Taking> takings() throws IOException {
        Random random = new Random(SEED);
        List<Taking> takings = new ArrayList<>();
        for (JsonNode view : facts()) {
            // Close-ups and stages follow below; what shows no patient has nothing to compare with
            if (view.get("orientation_mode").asString().equals("fixed")) {
                takings.addAll(takings(view, view.get("id").asString(), "", random));
            }
        }
        return takings;
    }

    /** Close-ups and stages, like each view whose direction they may share. */
    private static List<Taking> inheriting() throws IOException {
        Random random = new Random(SEED);
        List<Taking> takings = new ArrayList<>();
        for (JsonNode view : facts()) {
            if (view.get("orientation_mode").asString().equals("inherit")) {
                for (JsonNode other : facts()) {
                    if (mayShare(view, other)) {
                        takings.addAll(takings(
                                other,
                                view.get("id").asString(),
                                other.get("id").asString(),
                                random));
                    }
                }
            }
        }
        return takings;
    }

    /** A view of which the facts name no others, as a lesion, may lie like any that shows the patient. */
    private static boolean mayShare(JsonNode view, JsonNode other) {
        List<String> named = new ArrayList<>();
        if (view.has("inherits_from")) {
            view.get("inherits_from").forEach(id -> named.add(id.asString()));
        }
        boolean bench = other.get("id").asString().startsWith("cast-");
        return named.isEmpty()
                ? other.get("orientation_mode").asString().equals("fixed") && !bench
                : named.contains(other.get("id").asString());
    }

    /** Both set-ups of a view as the facts have them, told to the command as that view, like another one. */
    private static List<Taking> takings(JsonNode view, String told, String like, Random random) {
        List<Taking> takings = new ArrayList<>();
        boolean mirror = view.get("capture").get("value").asString().equals("mirror");
        List<String> accepted = new ArrayList<>();
        view.get("final").get("accepted").forEach(value -> accepted.add(value.asString()));
        for (int setUp = 0; setUp < 2; setUp++) {
            String recorded =
                    view.get("raw").get(setUp).get("patient_orientation").asString();
            String capture = (mirror ? "mirror" : "direct") + (setUp == 1 ? "-behind" : mirror ? "-front" : "");
            for (int exif : List.of(1, 2 + random.nextInt(7))) {
                takings.add(new Taking(told, like, capture, recorded, accepted, exif));
            }
            // Taken upside down without a mirror by a camera that noted it, a picture is upright after that note
            if (!mirror && setUp == 1) {
                takings.add(new Taking(told, like, "direct", halfTurned(recorded), accepted, 3));
            }
        }
        return takings;
    }

    @TestFactory
    @DisplayName("in every view, in both set-ups, however the camera was held")
    Stream<DynamicTest> everyView() throws IOException {
        List<Taking> takings = takings();
        assertThat(takings).hasSizeGreaterThan(120);
        return takings.stream()
                .map(taking -> dynamicTest(taking.view + " " + taking.capture + " Exif " + taking.exif, () -> {
                    Wrapped wrapped = wrap(taking);
                    assertThat(wrapped.orientation).as("seed %d", SEED).isIn(taking.accepted);
                    wrapped.marksAreWhereItSays();
                }));
    }

    @TestFactory
    @DisplayName("in a close-up or a stage of treatment, like every view whose direction it may share")
    Stream<DynamicTest> everyCloseUp() throws IOException {
        List<Taking> takings = inheriting();
        assertThat(takings.stream().map(Taking::view).distinct()).hasSize(3);
        return takings.stream()
                .map(taking -> dynamicTest(
                        "%s like %s %s Exif %d".formatted(taking.view, taking.like, taking.capture, taking.exif),
                        () -> {
                            Wrapped wrapped = wrap(taking);
                            assertThat(wrapped.orientation).as("seed %d", SEED).isIn(taking.accepted);
                            wrapped.marksAreWhereItSays();
                        }));
    }

    @TestFactory
    @DisplayName("F-15: in every mirror view by a camera that was rolled and noted nothing, finished and as recorded")
    Stream<DynamicTest> everyRolledView() throws IOException {
        List<Taking> takings = takings().stream()
                .filter(taking -> taking.capture.startsWith("mirror") && taking.exif == 1)
                .toList();
        assertThat(takings).hasSizeGreaterThan(15);
        return takings.stream()
                .flatMap(taking -> Stream.of("right", "left")
                        .map(side -> dynamicTest("%s %s rolled %s".formatted(taking.view, taking.capture, side), () -> {
                            for (Wrapped wrapped : wrapRolled(taking, side)) {
                                wrapped.marksAreWhereItSays();
                            }
                        })));
    }

    @Test
    @DisplayName("F-12: the upper arch by mirror ends with the incisors at the top and the patient's right on the left")
    void f12() throws IOException {
        arch("occlusal-maxillary-mirror", "L\\A", "R\\P", "L\\P");
    }

    @Test
    @DisplayName(
            "F-13: the lower arch by mirror ends with the incisors at the bottom and the patient's right on the left")
    void f13() throws IOException {
        arch("occlusal-mandibular-mirror", "L\\P", "R\\A", "L\\A");
    }

    private static void arch(String view, String front, String behind, String finished) throws IOException {
        for (int exif = 1; exif <= 8; exif++) {
            for (String capture : List.of("mirror-front", "mirror-behind")) {
                String recorded = capture.equals("mirror-front") ? front : behind;
                Wrapped wrapped = wrap(new Taking(view, "", capture, recorded, List.of(finished), exif));
                assertThat(wrapped.orientation).isEqualTo(finished);
                wrapped.marksAreWhereItSays();
            }
        }
    }

    @Test
    @DisplayName(
            "F-14: a mirror picture that only looks finished does not go in: not as a direct one, and not by half a turn")
    void f14() throws IOException {
        for (String view : List.of("occlusal-maxillary-mirror", "occlusal-mandibular-mirror")) {
            String behind = view.contains("max") ? "R\\P" : "R\\A";
            Path photo = photograph(new Taking(view, "", "mirror-behind", behind, List.of(), 1));
            for (List<String> wrong : List.of(
                    List.of("--capture", "direct"),
                    List.of("--capture", "mirror-front", "--correct-by", "turn-180"),
                    List.of("--capture", "mirror-behind", "--correct-by", "none"))) {
                Path target = folder.resolve("wrong.dcm");
                Commands.Said said = Commands.run(command(photo, target, view, wrong));
                assertThat(said.exit()).as("%s %s", view, wrong).isIn(1, 2);
                assertThat(said.err()).isNotEmpty();
                assertThat(target).doesNotExist();
            }
        }
    }

    /** The object of a photograph: its Patient Orientation, and its picture as a decoder shows it. */
    private record Wrapped(String orientation, BufferedImage picture) {
        void marksAreWhereItSays() {
            String[] axes = orientation.split("\\\\");
            char right = axes[0].charAt(0);
            char bottom = axes[1].charAt(0);
            assertThat(centre(right)[0]).as("%s at the right edge", right).isGreaterThan(0.85);
            assertThat(centre(opposite(right))[0])
                    .as("%s at the left edge", opposite(right))
                    .isLessThan(0.15);
            assertThat(centre(bottom)[1]).as("%s at the bottom edge", bottom).isGreaterThan(0.85);
            assertThat(centre(opposite(bottom))[1])
                    .as("%s at the top edge", opposite(bottom))
                    .isLessThan(0.15);
        }

        /** Where the mark for a side of the patient is, as shares of width and height. */
        private double[] centre(char side) {
            Color color = MARKS.get(side);
            double x = 0;
            double y = 0;
            int count = 0;
            for (int row = 0; row < picture.getHeight(); row++) {
                for (int column = 0; column < picture.getWidth(); column++) {
                    Color pixel = new Color(picture.getRGB(column, row));
                    int distance = Math.abs(pixel.getRed() - color.getRed())
                            + Math.abs(pixel.getGreen() - color.getGreen())
                            + Math.abs(pixel.getBlue() - color.getBlue());
                    if (distance < 90) {
                        x += column + 0.5;
                        y += row + 0.5;
                        count++;
                    }
                }
            }
            assertThat(count).as("pixels of the mark %s", side).isGreaterThan(200);
            return new double[] {x / count / picture.getWidth(), y / count / picture.getHeight()};
        }
    }

    private static char opposite(char side) {
        return "LRAPHF".charAt("LRAPHF".indexOf(side) ^ 1);
    }

    private static String halfTurned(String orientation) {
        StringBuilder turned = new StringBuilder();
        orientation.chars().forEach(letter -> turned.append(letter == '\\' ? '\\' : opposite((char) letter)));
        return turned.toString();
    }

    private static Wrapped wrap(Taking taking) throws IOException {
        Path target = folder.resolve("object.dcm");
        Files.deleteIfExists(target);
        List<String> options = new ArrayList<>(List.of("--capture", taking.capture));
        if (!taking.like.isEmpty()) {
            options.addAll(List.of("--like", taking.like));
        }
        Commands.Said said = Commands.run(command(photograph(taking), target, taking.view, options));
        assertThat(said.exit()).as(said.err()).isZero();
        return object(target);
    }

    /**
     * The finished object and the one as recorded, by settings that say the roll. Rolled clockwise as its holder sees it, a camera stores
     * the scene as one does that notes a first row on the right-hand side (Exif value 6), rolled anticlockwise as with value 8; it notes 1.
     */
    private static List<Wrapped> wrapRolled(Taking taking, String side) throws IOException {
        Path finished = folder.resolve("rolled.dcm");
        Path recorded = folder.resolve("rolled-recorded.dcm");
        Files.deleteIfExists(finished);
        Files.deleteIfExists(recorded);
        String setUp = "%s-rolled-%s".formatted(taking.capture.substring("mirror-".length()), side);
        Path settings = Files.writeString(folder.resolve("rolled.toml"), "[views]\nmirror = \"%s\"\n".formatted(setUp));
        Path photo = photograph(taking, side.equals("right") ? 6 : 8, 1);
        Commands.Said said = Commands.run(command(
                photo,
                finished,
                taking.view,
                List.of("--config", settings.toString(), "--raw-out", recorded.toString())));
        assertThat(said.exit()).as(said.err()).isZero();
        Wrapped object = object(finished);
        assertThat(object.orientation).isIn(taking.accepted);
        return List.of(object, object(recorded));
    }

    private static Wrapped object(Path target) throws IOException {
        DicomFile file = DicomFile.read(target);
        Value value = file.dataSet().find(Attributes.PIXEL_DATA).orElseThrow().value();
        byte[] stream = ((Value.Fragments) value).fragments().get(0).bytes(1 << 24);
        return new Wrapped(
                String.join("\\", file.dataSet().texts(Attributes.PATIENT_ORIENTATION)),
                ImageIO.read(new ByteArrayInputStream(stream)));
    }

    private static List<String> command(Path photo, Path target, String view, List<String> options) {
        List<String> words = new ArrayList<>(List.of("wrap", photo.toString(), "--out", target.toString()));
        words.addAll(List.of("--view", view, "--patient-id", "PG-0001", "--patient-name", "Exempel^Zoe"));
        words.addAll(options);
        return words;
    }

    /** What the camera records, as it lies upright, in a file that says how the camera was held. */
    private static Path photograph(Taking taking) throws IOException {
        return photograph(taking, taking.exif, taking.exif);
    }

    /**
     * @param held the Exif value by which the file has to be turned upright
     * @param noted the value it says
     */
    private static Path photograph(Taking taking, int held, int noted) throws IOException {
        String[] axes = taking.recorded.split("\\\\");
        BufferedImage scene = new BufferedImage(WIDTH, HEIGHT, BufferedImage.TYPE_INT_RGB);
        Graphics2D graphics = scene.createGraphics();
        graphics.setColor(Color.GRAY);
        graphics.fillRect(0, 0, WIDTH, HEIGHT);
        mark(graphics, axes[0].charAt(0), WIDTH - 16, HEIGHT / 2 - 24, 16, 48);
        mark(graphics, opposite(axes[0].charAt(0)), 0, HEIGHT / 2 - 24, 16, 48);
        mark(graphics, axes[1].charAt(0), WIDTH / 2 - 24, HEIGHT - 16, 48, 16);
        mark(graphics, opposite(axes[1].charAt(0)), WIDTH / 2 - 24, 0, 48, 16);
        graphics.dispose();
        ByteArrayOutputStream jpeg = new ByteArrayOutputStream();
        ImageIO.write(held(scene, held), "jpeg", jpeg);
        byte[] stream = jpeg.toByteArray();
        ByteArrayOutputStream file = new ByteArrayOutputStream();
        file.write(stream, 0, 2);
        file.write(exif(noted));
        file.write(stream, 2, stream.length - 2);
        return Files.write(folder.resolve("photo.jpg"), file.toByteArray());
    }

    private static void mark(Graphics2D graphics, char side, int x, int y, int width, int height) {
        graphics.setColor(MARKS.get(side));
        graphics.fillRect(x, y, width, height);
    }

    /** The rows and columns a camera stores that notes this orientation: 1 top-left, 2 top-right, 3 bottom-right and so on. */
    private static BufferedImage held(BufferedImage scene, int exif) {
        boolean rowsRunAcross = exif >= 5;
        boolean fromRight = List.of(2, 3, 6, 7).contains(exif);
        boolean fromBottom = List.of(3, 4, 7, 8).contains(exif);
        int width = rowsRunAcross ? HEIGHT : WIDTH;
        int height = rowsRunAcross ? WIDTH : HEIGHT;
        BufferedImage stored = new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
        for (int row = 0; row < height; row++) {
            for (int column = 0; column < width; column++) {
                int x = rowsRunAcross ? row : column;
                int y = rowsRunAcross ? column : row;
                stored.setRGB(
                        column, row, scene.getRGB(fromRight ? WIDTH - 1 - x : x, fromBottom ? HEIGHT - 1 - y : y));
            }
        }
        return stored;
    }

    /** An Exif segment with nothing but Orientation. */
    private static byte[] exif(int orientation) {
        return new byte[] {
            (byte) 0xFF,
            (byte) 0xE1,
            0,
            34,
            'E',
            'x',
            'i',
            'f',
            0,
            0,
            'M',
            'M',
            0,
            42,
            0,
            0,
            0,
            8,
            0,
            1,
            0x01,
            0x12,
            0,
            3,
            0,
            0,
            0,
            1,
            0,
            (byte) orientation,
            0,
            0,
            0,
            0,
            0,
            0
        };
    }
}
