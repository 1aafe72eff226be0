package vestibule.bridge.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDateTime;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import vestibule.samples.PhotoSize;
import vestibule.samples.Samples;

@DisplayName("A camera whose clock began anew, on any day of its first year")
class ClockBegunAnewTest {

    private static final Clock CLOCK = PracticeFolder.clockOf(Instant.parse("2026-11-25T18:00:00Z"));
    private static final Understanding WORKSHOP = new Workshop(CLOCK);
    private static final String SAMPLE = "hanako-face-front-smile";
    private static final String CARD = "IMG_0001.JPG";
    private static final String PHOTO = "IMG_0002_teeth-front-occlusion.JPG";
    private static final LocalDateTime LONG_AGO = LocalDateTime.parse("2020-01-02T09:00");

    @TempDir
    Path folder;

    @BeforeEach
    void open() throws IOException {
        settings("");
    }

    private PracticeFolder practice() {
        return new PracticeFolder(folder);
    }

    private void settings(String cameras) throws IOException {
        practice().settings("""
                [home]
                reserve = "1 MB"
                [intake]
                settle = "1 ms"
                [practice]
                zone = "UTC"
                [patients]
                names = ["{id}/**"]
                day-list = '%s'
                ask-archive = false
                %s
                """.formatted(practice().dayList(), cameras));
    }

    private void put(String name, byte[] bytes, LocalDateTime taken) throws IOException {
        Path file = folder.resolve("card").resolve(name);
        Files.createDirectories(file.resolveSibling(""));
        Files.write(file, CardPictures.taken(bytes, taken));
    }

    private void sitting(LocalDateTime taken) throws IOException {
        put(CARD, CardPictures.like(SAMPLE, PracticeFolder.ZOE, false), taken);
        put(PHOTO, Samples.jpeg(Samples.photo(SAMPLE), PhotoSize.THUMBNAIL), taken.plusMinutes(1));
    }

    private Ran intake() {
        return practice().intake(WORKSHOP, CLOCK);
    }

    @ParameterizedTest
    @CsvSource({"2020-01-02T09:00, 1", "2026-10-20T09:00, 1", "2026-10-27T09:00, 0", "2026-11-25T09:00, 0"})
    @DisplayName("what follows a patient card and is more than thirty days old asks")
    void old(LocalDateTime taken, int exit) throws IOException {
        sitting(taken);
        Ran ran = intake();
        assertThat(ran.exit()).isEqualTo(exit);
        assertThat(ran.out().contains("clock-unset")).isEqualTo(exit == 1);
    }

    @Test
    @DisplayName("a person's word on the card counts for all that follows it")
    void word() throws IOException {
        sitting(LONG_AGO);
        intake();
        assertThat(practice()
                        .run(new SettleCommand(WORKSHOP, CLOCK), CARD, "--patient", "PG-0001")
                        .exit())
                .isZero();
        assertThat(intake().exit()).isZero();
    }

    @ParameterizedTest
    @CsvSource({"+00:00:00", "+60456:00:00"})
    @DisplayName("whoever says that the clock is right, or by how much it is wrong, is not asked")
    void clockSaid(String correction) throws IOException {
        settings("[cameras.clocks]\n\"C2007781\" = \"%s\"".formatted(correction));
        sitting(LONG_AGO);
        assertThat(intake().exit()).isZero();
    }

    @Test
    @DisplayName("old photographs that were sorted into folders ask nothing")
    void folders() throws IOException {
        put("PG-0001/" + PHOTO, Samples.jpeg(Samples.photo(SAMPLE), PhotoSize.THUMBNAIL), LONG_AGO);
        assertThat(intake().exit()).isZero();
    }
}
