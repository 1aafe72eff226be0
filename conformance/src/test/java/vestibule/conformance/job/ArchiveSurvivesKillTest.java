package vestibule.conformance.job;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import vestibule.bridge.app.Main;
import vestibule.bridge.app.Terminal;
import vestibule.samples.PhotoSize;
import vestibule.samples.Samples;

@DisplayName("The embedded archive as a program of its own")
@Timeout(60)
class ArchiveSurvivesKillTest {

    @TempDir
    Path folder;

    private final List<Process> started = new ArrayList<>();

    @AfterEach
    void stop() {
        started.forEach(Process::destroyForcibly);
    }

    /** Starts it and returns the URL it announces. */
    private String start() throws IOException {
        Process process = new ProcessBuilder(
                        Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                        "-cp",
                        System.getProperty("java.class.path"),
                        "vestibule.bridge.app.Main",
                        "archive",
                        "--port",
                        "0",
                        "--folder",
                        folder.resolve("archive").toString())
                .redirectError(ProcessBuilder.Redirect.DISCARD)
                .start();
        started.add(process);
        BufferedReader out = process.inputReader(StandardCharsets.UTF_8);
        String line = out.readLine();
        assertThat(line).startsWith("listening on dicom://127.0.0.1:");
        return line.substring(line.indexOf("dicom://"));
    }

    private static String vestibule(int exit, String... words) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        ByteArrayOutputStream err = new ByteArrayOutputStream();
        int code = Main.run(
                words,
                new Terminal(
                        new PrintStream(out, true, StandardCharsets.UTF_8),
                        new PrintStream(err, true, StandardCharsets.UTF_8)));
        assertThat(code).as(err.toString(StandardCharsets.UTF_8)).isEqualTo(exit);
        return out.toString(StandardCharsets.UTF_8);
    }

    @Test
    @DisplayName("has every object it answered with success after it was killed without warning")
    void killedArchiveLosesNothing() throws Exception {
        Path photo = Files.write(
                folder.resolve("photo.jpg"),
                Samples.jpeg(Samples.photo("zoe-teeth-front-occlusion"), PhotoSize.THUMBNAIL));
        Path object = folder.resolve("object.dcm");
        vestibule(
                0,
                "wrap",
                photo.toString(),
                "--out",
                object.toString(),
                "--view",
                "teeth-front-occlusion",
                "--patient-id",
                "PG-0001",
                "--patient-name",
                "Exempel^Zoë");
        String url = start();
        vestibule(0, "send", object.toString(), "--to", url);
        started.get(0).destroyForcibly();
        assertThat(started.get(0).waitFor(10, TimeUnit.SECONDS)).isTrue();

        String after = start();
        assertThat(vestibule(0, "patients", "--to", after, "--photographs")).contains("Teeth front, in occlusion");
    }

    @Test
    @DisplayName("ends by itself when it is asked to")
    void endsWhenAsked() throws Exception {
        start();
        started.get(0).destroy();
        assertThat(started.get(0).waitFor(15, TimeUnit.SECONDS)).isTrue();
    }
}
