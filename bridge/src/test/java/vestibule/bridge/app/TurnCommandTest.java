package vestibule.bridge.app;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import vestibule.bridge.photo.Photo;
import vestibule.bridge.photo.PhotoException;
import vestibule.dicom.jpeg.SegmentKind;
import vestibule.samples.PhotoSize;
import vestibule.samples.Samples;

@DisplayName("vestibule turn")
class TurnCommandTest {

    @TempDir
    Path folder;

    private Path photo(String id, int width, int height) throws IOException {
        return Files.write(folder.resolve(id + ".jpg"), Samples.jpeg(Samples.photo(id), new PhotoSize(width, height)));
    }

    private Path out() {
        return folder.resolve("out.jpg");
    }

    private Ran turn(Path photo, String by, String... more) {
        List<String> words = new ArrayList<>(List.of("turn", photo.toString(), out().toString(), "--by", by));
        words.addAll(List.of(more));
        return Ran.vestibule(words.toArray(String[]::new));
    }

    @ParameterizedTest(name = "{0}")
    @DisplayName("lays the samples down as jpegtran does, coefficient for coefficient")
    @CsvSource({
        "flip-horizontal, -flip horizontal",
        "flip-vertical, -flip vertical",
        "rotate-90, -rotate 90",
        "rotate-180, -rotate 180",
        "rotate-270, -rotate 270",
        "transpose, -transpose",
        "transverse, -transverse",
    })
    void likeTheReference(String by, String reference) throws IOException {
        Path photo = photo("zoe-teeth-front-occlusion", 320, 240);
        Ran ran = turn(photo, by);
        assertThat(ran.exit()).as(ran.err()).isZero();
        assertThat(ran.out().strip()).isEqualTo(out().toString());
        List<String> command = new ArrayList<>(List.of("jpegtran", "-perfect"));
        command.addAll(Arrays.asList(reference.split(" ")));
        command.add(photo.toString());
        Path theirs = Files.write(
                folder.resolve("theirs.jpg"),
                PeerTools.run(command.toArray(String[]::new)).orElseThrow());
        assertThat(PeerTools.samples(out())).isEqualTo(PeerTools.samples(theirs));
    }

    @Test
    @DisplayName("keeps the camera's notes byte for byte but for what is no longer true: orientation, size, thumbnail")
    void metadata() throws IOException, PhotoException {
        Path photo = photo("zoe-face-front-smile", 320, 240);
        assertThat(turn(photo, "upright").exit()).isZero();
        Photo before = Photo.read(photo);
        Photo after = Photo.read(out());
        assertThat(before.camera().orientation()).contains(8);
        assertThat(after.camera().orientation()).contains(1);
        assertThat(after.camera().captured()).isEqualTo(before.camera().captured());
        assertThat(after.camera().exposure()).isEqualTo(before.camera().exposure());
        assertThat(after.jpeg().exifBlock().orElseThrow())
                .hasSameSizeAs(before.jpeg().exifBlock().orElseThrow());
        assertThat(new String(after.jpeg().exifBlock().orElseThrow(), StandardCharsets.ISO_8859_1))
                .as("the thumbnail, which shows the picture as it was")
                .doesNotContain("\u00ff\u00d8\u00ff");
        String told = new String(
                PeerTools.run(
                                "exiftool",
                                "-s",
                                "-s",
                                "-s",
                                "-ExifImageWidth",
                                "-ExifImageHeight",
                                "-Orientation#",
                                out().toString())
                        .orElseThrow(),
                StandardCharsets.UTF_8);
        assertThat(told.lines())
                .containsExactly(
                        Integer.toString(after.jpeg().frame().samplesPerLine()),
                        Integer.toString(after.jpeg().frame().lines()),
                        "1");
    }

    @Test
    @DisplayName("carries nothing that followed the picture, and no index to it")
    void nothingAfterTheEnd() throws IOException, PhotoException {
        Path photo = photo("myron-teeth-front-occlusion", 320, 240);
        assertThat(Photo.read(photo).jpeg().trailingBytes()).isPositive();
        assertThat(turn(photo, "rotate-180").exit()).isZero();
        Photo after = Photo.read(out());
        assertThat(after.jpeg().trailingBytes()).isZero();
        assertThat(after.jpeg().has(SegmentKind.MULTI_PICTURE)).isFalse();
    }

    @Test
    @DisplayName("four quarter turns, and two flips, give back the coefficients")
    void comesBack() throws IOException {
        Path photo = photo("nina-teeth-front-occlusion", 320, 240);
        Path at = photo;
        for (int quarter = 1; quarter <= 4; quarter++) {
            Path next = folder.resolve("quarter-" + quarter + ".jpg");
            assertThat(Ran.vestibule("turn", at.toString(), next.toString(), "--by", "rotate-90")
                            .exit())
                    .isZero();
            at = next;
        }
        assertThat(PeerTools.samples(at)).isEqualTo(PeerTools.samples(photo));
    }

    @TestFactory
    @DisplayName(
            "upright lays every test card upright: the same size for a series, and exactly as the reference turns it")
    Stream<DynamicTest> uprightCorpus() throws IOException {
        List<String> toUpright = List.of(
                "",
                "-flip horizontal",
                "-rotate 180",
                "-flip vertical",
                "-transpose",
                "-rotate 90",
                "-transverse",
                "-rotate 270");
        return PeerTools.corpus("jpeg-orientation").stream()
                .map(row -> dynamicTest(row.toString(), () -> {
                    String noted = row.column("orientation");
                    int orientation = noted.matches("[1-8]") ? Integer.parseInt(noted) : 1;
                    Path target = folder.resolve(row.toString());
                    Ran ran = Ran.vestibule(
                            "turn", row.file().toString(), target.toString(), "--by", "upright", "--edge", "trim");
                    assertThat(ran.exit()).as(ran.err()).isZero();
                    Path theirs = row.file();
                    if (orientation > 1) {
                        List<String> command = new ArrayList<>(List.of("jpegtran", "-trim"));
                        command.addAll(
                                Arrays.asList(toUpright.get(orientation - 1).split(" ")));
                        command.add(row.file().toString());
                        theirs = Files.write(
                                folder.resolve("theirs.jpg"),
                                PeerTools.run(command.toArray(String[]::new)).orElseThrow());
                    }
                    assertThat(PeerTools.samples(target)).isEqualTo(PeerTools.samples(theirs));
                    assertThat(Photo.read(target).camera().orientation().orElse(1))
                            .isIn(0, 1);
                }));
    }

    @Test
    @DisplayName("all eight cards with the same letter come out with the same samples up to their coding")
    void lettersComeOutAlike() throws IOException {
        List<String> sizes = new ArrayList<>();
        for (PeerTools.Row row : PeerTools.corpus("jpeg-orientation")) {
            if (row.toString().startsWith("goexif_")) {
                Files.deleteIfExists(out());
                assertThat(turn(row.file(), "upright").exit()).isZero();
                byte[] samples = PeerTools.samples(out());
                sizes.add(new String(samples, 0, 9, StandardCharsets.US_ASCII));
            }
        }
        assertThat(sizes).hasSize(8).allMatch(size -> size.equals("P6\n40 80\n"));
    }

    @Test
    @DisplayName("refuses to leave pixels off unless that is allowed, and says how many")
    void edges() throws IOException {
        Path photo = photo("zoe-teeth-front-occlusion", 321, 250);
        Ran refused = turn(photo, "rotate-180");
        assertThat(refused.exit()).isEqualTo(65);
        assertThat(refused.err()).contains("1 column at the right edge and 10 rows at the bottom edge", "--edge trim");
        assertThat(out()).doesNotExist();
        Ran trimmed = turn(photo, "rotate-180", "--edge", "trim");
        assertThat(trimmed.exit()).isZero();
        assertThat(trimmed.err()).contains("left off 1 column at the right edge and 10 rows at the bottom edge");
        assertThat(new String(PeerTools.samples(out()), 0, 10, StandardCharsets.US_ASCII))
                .isEqualTo("P6\n320 240");
    }

    @Test
    @DisplayName("copies what lies right already")
    void upright() throws IOException {
        Path photo = photo("zoe-teeth-front-occlusion", 320, 240);
        Ran ran = turn(photo, "upright");
        assertThat(ran.exit()).isZero();
        assertThat(ran.err()).contains("copied");
        assertThat(out()).hasSameBinaryContentAs(photo);
    }

    @Test
    @DisplayName("never takes the place of a file, and leaves nothing behind where it refuses")
    void refusals() throws IOException {
        Path photo = photo("zoe-teeth-front-occlusion", 320, 240);
        Files.writeString(out(), "precious");
        Ran there = turn(photo, "rotate-90");
        assertThat(there.exit()).isEqualTo(74);
        assertThat(there.err()).contains("is there already");
        assertThat(out()).hasContent("precious");
        Files.delete(out());
        assertThat(turn(photo, "sideways").exit()).isEqualTo(2);
        assertThat(turn(folder.resolve("missing.jpg"), "rotate-90").exit()).isEqualTo(74);
        assertThat(turn(Files.writeString(folder.resolve("no.jpg"), "no picture"), "rotate-90")
                        .exit())
                .isEqualTo(65);
        byte[] whole = Files.readAllBytes(photo);
        byte[] damaged = whole.clone();
        Arrays.fill(damaged, whole.length / 2, whole.length / 2 + 400, (byte) 0x55);
        Ran broken = turn(Files.write(folder.resolve("damaged.jpg"), damaged), "rotate-90");
        assertThat(broken.exit()).isIn(0, 65);
        assertThat(broken.exit() == 0).isEqualTo(Files.exists(out()));
        try (Stream<Path> left = Files.list(folder)) {
            assertThat(left).noneMatch(file -> file.toString().endsWith(".part"));
        }
    }
}
