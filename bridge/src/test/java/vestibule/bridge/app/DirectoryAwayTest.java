package vestibule.bridge.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.ZoneOffset;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import vestibule.samples.PhotoSize;
import vestibule.samples.Samples;

@DisplayName("Commands while nobody can be asked about patients")
class DirectoryAwayTest {

    private static final Clock CLOCK = Clock.system(ZoneOffset.UTC);
    private static final Understanding WORKSHOP = new Workshop(CLOCK);
    private static final String PHOTO = "IMG_0001_teeth-front-occlusion.JPG";

    @TempDir
    Path folder;

    private PracticeFolder practice() {
        return new PracticeFolder(folder);
    }

    private void settings(String more) throws IOException {
        practice().settings("""
                [intake]
                settle = "1 ms"
                [patients]
                names = ["{id}/*"]
                day-list = '%s'
                ask-archive = false
                %s
                """.formatted(practice().dayList(), more));
    }

    private static int freePort() throws IOException {
        try (ServerSocket socket = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
            return socket.getLocalPort();
        }
    }

    @Test
    @DisplayName(
            "an archive that is away is not asked about studies, where a list of the day says who it is and names no study")
    void archiveNotAsked() throws IOException {
        Path patient = Files.createDirectories(folder.resolve("card/PG-0001"));
        Files.write(
                patient.resolve(PHOTO), Samples.jpeg(Samples.photo("zoe-teeth-front-occlusion"), PhotoSize.THUMBNAIL));
        settings("[archive]\nurl = 'dicom://127.0.0.1:%d/NOBODY'".formatted(freePort()));
        Ran taken = practice().intake(WORKSHOP, CLOCK);
        assertThat(taken.exit()).as(taken.err()).isZero();
    }

    @Test
    @DisplayName("keep everything, say that nothing was decided and why, and intake ends with 75")
    void away() throws IOException {
        Path patient = Files.createDirectories(folder.resolve("card/PG-0001"));
        Files.write(
                patient.resolve(PHOTO), Samples.jpeg(Samples.photo("zoe-teeth-front-occlusion"), PhotoSize.THUMBNAIL));
        settings("worklist = 'dicom://127.0.0.1:%d/NOBODY'".formatted(freePort()));
        Ran taken = practice().intake(WORKSHOP, CLOCK);
        assertThat(taken.exit()).isEqualTo(75);
        assertThat(taken.err()).contains("vestibule intake: photographs cannot be decided: ", "they are safe");
        Ran said = practice().run(new SettleCommand(WORKSHOP, CLOCK), PHOTO, "--patient", "PG-0001");
        assertThat(said.err()).contains("kept, and not decided yet: photographs cannot be decided: ");
        settings("");
        assertThat(practice().intake(WORKSHOP, CLOCK).exit()).isZero();
        assertThat(practice().run(new StatusCommand(CLOCK)).out()).contains("1 photograph: 1 waiting");
    }
}
