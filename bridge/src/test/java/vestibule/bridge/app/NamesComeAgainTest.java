package vestibule.bridge.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.ZoneOffset;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import vestibule.bridge.archive.EmbeddedArchive;
import vestibule.samples.PhotoSize;
import vestibule.samples.Samples;

@DisplayName("settle by a file's name, where cameras give names again")
@Timeout(100)
class NamesComeAgainTest {

    private static final Understanding PLAINLY = new Plainly();
    private static final Clock CLOCK = Clock.system(ZoneOffset.UTC);
    private static final String NAME = "IMG_0007.JPG";

    @TempDir
    Path folder;

    private EmbeddedArchive archive;
    private PracticeFolder practice;
    private Path first;
    private Path second;

    @BeforeEach
    void start() throws IOException {
        archive = PracticeFolder.archive(folder);
        practice = new PracticeFolder(folder);
        practice.settings("""
                [intake]
                settle = "1 ms"
                """);
        first = Files.createDirectories(folder.resolve("card/DCIM/100TEST"));
        second = Files.createDirectories(folder.resolve("card/DCIM/101TEST"));
    }

    @AfterEach
    void stop() {
        archive.close();
    }

    private static byte[] picture() throws IOException {
        return Samples.jpeg(Samples.photo("zoe-teeth-front-occlusion"), PhotoSize.THUMBNAIL);
    }

    private void intake() {
        practice.intake(PLAINLY, CLOCK);
    }

    private Ran settle(String... words) {
        return practice.run(new SettleCommand(PLAINLY, CLOCK), words);
    }

    private String status() {
        return practice.run(new StatusCommand(CLOCK)).out();
    }

    /** Committed, and its card was cleared since. */
    private void committedAndGone() throws IOException {
        Files.write(first.resolve(NAME), picture());
        intake();
        assertThat(practice.serve(PLAINLY, CLOCK, archive.port()).exit()).isZero();
        Files.delete(first.resolve(NAME));
        Files.writeString(second.resolve("CLIP.MOV"), "no photograph");
        intake();
        assertThat(status()).contains("1 committed");
    }

    private String hash() throws IOException {
        try (Stream<Path> files = Files.walk(folder.resolve("home/originals"))) {
            return files.map(path -> path.getFileName().toString())
                    .filter(name -> name.endsWith(".jpg"))
                    .findFirst()
                    .orElseThrow()
                    .substring(0, 12);
        }
    }

    @Test
    @DisplayName("what was filed under it and is gone is not meant, whatever is said, and is named by its hash")
    void filedAndGone() throws IOException {
        committedAndGone();
        List<String> words =
                List.of("--patient=PG-0005", "--view=face-front-smile", "--accept", "--retry", "--not-a-photograph");
        for (String word : words) {
            Ran settled = settle(NAME, word);
            assertThat(settled.exit()).as(word).isEqualTo(2);
            assertThat(settled.err())
                    .contains("no file IMG_0007.JPG lies in a source any more")
                    .contains("say " + hash())
                    .contains("is committed now");
        }
        Ran settled = settle(hash(), "--stage", "before");
        assertThat(settled.exit()).as(settled.err()).isZero();
        assertThat(settled.out()).contains("committed");
    }

    @Test
    @DisplayName("where a file of that name was not taken in that one is meant, and nothing is said of another")
    void leftBehind() throws IOException {
        committedAndGone();
        byte[] picture = picture();
        Files.write(second.resolve(NAME), Arrays.copyOf(picture, picture.length / 2));
        intake();
        assertThat(status()).contains("not taken in: DCIM/101TEST/IMG_0007.JPG");
        for (String name : List.of(NAME, "DCIM/101TEST/IMG_0007.JPG")) {
            Ran settled = settle(name, "--patient", "PG-0005");
            assertThat(settled.exit()).isEqualTo(2);
            assertThat(settled.err())
                    .contains("DCIM/101TEST/IMG_0007.JPG in ")
                    .contains("was not taken in (it is no whole JPEG");
        }
        assertThat(status()).contains("1 committed").doesNotContain("to be taken back");
    }

    @Test
    @DisplayName("nor of one that lies there too, unless its folder is said with it")
    void besideAnother() throws IOException {
        byte[] picture = picture();
        Files.write(first.resolve("doubt.JPG"), picture);
        Files.write(second.resolve("doubt.JPG"), Arrays.copyOf(picture, picture.length / 2));
        intake();
        Ran settled = settle("doubt.JPG", "--view", "teeth-front-occlusion");
        assertThat(settled.exit()).isEqualTo(2);
        assertThat(settled.err()).contains("if another of that name is meant, say " + hash());
        assertThat(settle("100TEST/doubt.JPG", "--view", "teeth-front-occlusion")
                        .exit())
                .isZero();
    }

    @Test
    @DisplayName("what waits for a person is named by its file's name also where that is gone")
    void asked() throws IOException {
        Files.write(first.resolve("doubt.JPG"), picture());
        intake();
        Files.delete(first.resolve("doubt.JPG"));
        Files.writeString(second.resolve("CLIP.MOV"), "no photograph");
        intake();
        assertThat(settle("doubt.JPG", "--view", "teeth-front-occlusion").exit())
                .isZero();
    }
}
