package vestibule.bridge.app;

import static org.assertj.core.api.Assertions.assertThat;

import com.networknt.schema.InputFormat;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
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
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import vestibule.bridge.archive.EmbeddedArchive;
import vestibule.samples.PhotoSize;
import vestibule.samples.Samples;

@DisplayName("intake, run, status and settle, from a card to the verdict on it")
class CardToCommittedTest {

    private static final Understanding PLAINLY = new Plainly();
    private static final Clock CLOCK = Clock.system(ZoneOffset.UTC);

    @TempDir
    Path folder;

    private EmbeddedArchive archive;
    private Path card;

    @BeforeEach
    void start() throws IOException {
        archive = PracticeFolder.archive(folder);
        card = Files.createDirectories(folder.resolve("card/DCIM/100TEST"));
        practice().settings("""
                [intake]
                settle = "1 ms"
                """);
    }

    @AfterEach
    void stop() {
        archive.close();
    }

    private void photo(String name, String sample) throws IOException {
        Files.write(card.resolve(name), Samples.jpeg(Samples.photo(sample), PhotoSize.THUMBNAIL));
    }

    private PracticeFolder practice() {
        return new PracticeFolder(folder);
    }

    private Ran run(Command command, String... words) {
        return practice().run(command, words);
    }

    private Ran intake() {
        return practice().intake(PLAINLY, CLOCK);
    }

    private Ran service() {
        return practice().serve(PLAINLY, CLOCK, archive.port());
    }

    @Test
    @DisplayName("everything committed: the card may be cleared, and nothing of ours is left lying about")
    void wholeWay() throws IOException {
        photo("IMG_0001.JPG", "zoe-teeth-front-occlusion");
        photo("IMG_0002.JPG", "zoe-face-front-smile");
        Ran taken = intake();
        assertThat(taken.exit()).as(taken.err()).isZero();
        assertThat(taken.out()).contains("2 taken in, 0 known before, 0 left behind");
        assertThat(run(new StatusCommand(CLOCK)).out()).contains("2 waiting").contains("must not be cleared");
        Ran served = service();
        assertThat(served.exit()).as(served.err()).isZero();
        Ran status = run(new StatusCommand(CLOCK));
        assertThat(status.out())
                .contains("2 photographs: 0 waiting, 0 needs-attention, 0 sent, 2 committed")
                .contains("may be cleared: all 2 photographs are committed (proof: commitment)");
        try (Stream<Path> left = Files.walk(folder.resolve("home"))) {
            List<String> names = left.filter(Files::isRegularFile)
                    .map(path -> folder.resolve("home").relativize(path).toString())
                    .filter(name -> name.endsWith(".part") || name.startsWith("objects") || name.startsWith("scratch"))
                    .toList();
            assertThat(names).isEmpty();
        }
    }

    @Test
    @DisplayName("committed, but our copies are gone, or the card is empty: it must not be cleared")
    void copiesGone() throws IOException {
        photo("IMG_0001.JPG", "zoe-teeth-front-occlusion");
        assertThat(intake().exit()).isZero();
        assertThat(service().exit()).isZero();
        assertThat(run(new StatusCommand(CLOCK)).out()).contains("may be cleared");
        Path away = Files.move(card, folder.resolve("away"));
        Files.createDirectories(card);
        assertThat(run(new StatusCommand(CLOCK)).out()).contains("must not be cleared: it is empty now");
        Files.delete(card);
        Files.move(away, card);
        try (Stream<Path> copies = Files.walk(folder.resolve("home/originals"))) {
            for (Path copy :
                    copies.filter(path -> path.toString().endsWith(".jpg")).toList()) {
                Files.delete(copy);
            }
        }
        assertThat(run(new StatusCommand(CLOCK)).out())
                .contains("must not be cleared: of 1 photograph the copy that was kept here is gone");
        assertThat(intake().exit()).isZero();
        assertThat(service().exit()).isZero();
        assertThat(run(new StatusCommand(CLOCK)).out()).contains("may be cleared");
    }

    /** As on a disk that goes bad: other bytes, and as many of them. */
    private void damageCopies() throws IOException {
        try (Stream<Path> copies = Files.walk(folder.resolve("home/originals"))) {
            for (Path copy :
                    copies.filter(path -> path.toString().endsWith(".jpg")).toList()) {
                byte[] bytes = Files.readAllBytes(copy);
                bytes[bytes.length / 2]++;
                Files.write(copy, bytes);
            }
        }
    }

    @Test
    @DisplayName("a copy that was damaged in its full length is replaced when the card is taken in again")
    void copyDamaged() throws IOException {
        photo("IMG_0001.JPG", "zoe-teeth-front-occlusion");
        assertThat(intake().exit()).isZero();
        damageCopies();
        assertThat(service().exit()).isZero();
        assertThat(run(new StatusCommand(CLOCK)).out()).contains("original-damaged");
        assertThat(intake().out()).contains("0 taken in, 1 known before");
        assertThat(run(new SettleCommand(PLAINLY, CLOCK), "IMG_0001.JPG", "--retry")
                        .exit())
                .isZero();
        assertThat(service().exit()).isZero();
        assertThat(run(new StatusCommand(CLOCK)).out()).contains("1 committed").contains("may be cleared");
    }

    @Test
    @DisplayName("nor does discarding it free the card, on which the only good copy lies, until it is")
    void copyDamagedAndDiscarded() throws IOException {
        photo("IMG_0001.JPG", "zoe-teeth-front-occlusion");
        assertThat(intake().exit()).isZero();
        damageCopies();
        assertThat(service().exit()).isZero();
        assertThat(run(new SettleCommand(PLAINLY, CLOCK), "IMG_0001.JPG", "--discard")
                        .exit())
                .isZero();
        assertThat(run(new StatusCommand(CLOCK)).out())
                .contains("1 set-aside")
                .contains("must not be cleared: of 1 photograph the copy that was kept here is gone or no longer what");
        assertThat(intake().exit()).isZero();
        assertThat(run(new StatusCommand(CLOCK)).out()).contains("1 set-aside").contains("may be cleared");
    }

    @Test
    @DisplayName("run --until-idle takes in what lies in its folders before it is idle")
    @Timeout(100)
    void folderUntilIdle() throws IOException {
        photo("IMG_0001.JPG", "zoe-teeth-front-occlusion");
        photo("IMG_0002.JPG", "zoe-face-front-smile");
        practice().settings("""
                [intake]
                settle = "300 ms"
                folders = ["%s"]
                """.formatted(folder.resolve("card")));
        Ran served = service();
        assertThat(served.exit()).as(served.err()).isZero();
        assertThat(run(new StatusCommand(CLOCK)).out())
                .contains("2 committed")
                .contains("may be cleared: all 2 photographs are committed (proof: commitment)");
    }

    @Test
    @DisplayName("status names what was not taken in and says why, also where only the service saw it")
    @Timeout(100)
    void namedWhatIsLeft() throws IOException {
        photo("IMG_0001.JPG", "zoe-teeth-front-occlusion");
        Files.writeString(card.resolve("CLIP.MOV"), "no photograph");
        practice().settings("""
                [intake]
                settle = "1 ms"
                folders = ["%s"]
                """.formatted(folder.resolve("card")));
        Ran served = service();
        assertThat(served.exit()).as(served.err()).isZero();
        assertThat(run(new StatusCommand(CLOCK)).out())
                .contains("must not be cleared: 1 file was not taken in")
                .containsPattern("not taken in: DCIM/100TEST/CLIP.MOV: it is no JPEG");
        assertThat(run(new StatusCommand(CLOCK), "--json").out())
                .contains("\"leftBehind\":[{")
                .contains("\"file\":\"DCIM/100TEST/CLIP.MOV\"");
    }

    @ParameterizedTest
    @DisplayName(
            "run --until-idle ends with 75 and says so where a folder is not there, or there is no room for what lies in it")
    @ValueSource(strings = {"folders = [\"%s/nowhere\"]", "folders = [\"%s/card\"]\n[home]\nreserve = \"9000000 GB\""})
    @Timeout(100)
    void notAllReached(String words) throws IOException {
        photo("IMG_0001.JPG", "zoe-teeth-front-occlusion");
        practice().settings("""
                [intake]
                settle = "1 ms"
                """ + words.formatted(folder));
        Ran served = service();
        assertThat(served.exit()).as(served.err()).isEqualTo(75);
        assertThat(served.err()).contains("not every folder was reached; vestibule status says why.");
        assertThat(run(new StatusCommand(CLOCK)).out())
                .contains("0 photographs")
                .contains("must not be cleared: ")
                .containsAnyOf("it cannot be looked at now", "the disk of our originals is full up to its reserve");
    }

    /** Requests for commitment go out with every twenty-fifth photograph, so the last of these is asked for before the end is known. */
    @ParameterizedTest
    @DisplayName("the report of the last request is waited for, however many there were before it")
    @ValueSource(ints = {25, 50, 51})
    @Timeout(100)
    void lastReport(int count) throws IOException {
        byte[] photo = Samples.jpeg(Samples.photo("zoe-teeth-front-occlusion"), PhotoSize.THUMBNAIL);
        for (int i = 0; i < count; i++) {
            byte[] other = Arrays.copyOf(photo, photo.length + 1);
            other[photo.length] = (byte) i;
            Files.write(card.resolve("IMG_%04d.JPG".formatted(i)), other);
        }
        assertThat(intake().out()).contains(count + " taken in");
        Ran served = service();
        assertThat(served.exit()).as(served.err()).isZero();
        assertThat(run(new StatusCommand(CLOCK)).out()).contains("0 sent, " + count + " committed");
    }

    private String json() {
        return run(new StatusCommand(CLOCK), "--json").out();
    }

    private static void fitsItsSchema(String json) throws IOException {
        Schema schema = SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
                .getSchema(Files.readString(Path.of("..", "docs", "status.schema.json")), InputFormat.JSON);
        assertThat(schema.validate(json, InputFormat.JSON)).as(json).isEmpty();
        JsonNode photos = JsonMapper.builder().build().readTree(json).get("photos");
        int sum = 0;
        for (String state : List.of("waiting", "needs-attention", "sent", "committed", "rejected")) {
            sum += photos.get(state).asInt();
        }
        assertThat(photos.get("total").asInt()).isEqualTo(sum);
    }

    @Test
    @DisplayName("status --json fits docs/status.schema.json at every stage, and counts in what was taken in")
    void statusForPrograms() throws IOException {
        photo("IMG_0001.JPG", "zoe-teeth-front-occlusion");
        photo("doubt.JPG", "zoe-face-front-smile");
        photo("card.JPG", "nina-teeth-front-occlusion");
        Files.writeString(card.resolve("notes.txt"), "no photograph");
        assertThat(intake().exit()).isEqualTo(1);
        fitsItsSchema(json());
        assertThat(json())
                .contains("\"total\":2")
                .contains("\"waiting\":1")
                .contains("\"needs-attention\":1")
                .contains("\"set-aside\":1")
                .contains("\"reason\":\"view-unknown\"")
                .contains("\"serving\":0")
                .contains("\"troubles\":[\"no service runs");
        assertThat(service().exit()).isZero();
        fitsItsSchema(json());
        assertThat(json()).contains("\"committed\":1").contains("\"safeToClear\":false");
        assertThat(run(new SettleCommand(PLAINLY, CLOCK), "doubt.JPG", "--view", "teeth-front-occlusion")
                        .exit())
                .isZero();
        Files.delete(card.resolve("notes.txt"));
        assertThat(intake().exit()).isZero();
        assertThat(service().exit()).isZero();
        fitsItsSchema(json());
        assertThat(json())
                .contains("\"committed\":2")
                .contains("\"safeToClear\":true")
                .contains("[\"commitment\"]")
                .contains("\"troubles\":[]");
    }
}
