package vestibule.conformance.job;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import vestibule.bridge.app.Main;
import vestibule.bridge.app.Terminal;

/** Our command, run in this process. */
final class Commands {

    /** What a command said. */
    record Said(int exit, String out, String err) {
        /** One plain sentence, nothing of the program's insides. */
        void isOnePlainSentence(String command, Path file) {
            assertThat(this.err).startsWith("vestibule " + command + ": ").endsWith("." + System.lineSeparator());
            // The file's own name may hold anything
            String err = this.err.replace(file.toString(), "FILE");
            assertThat(err.lines()).hasSize(1);
            assertThat(err)
                    .doesNotContain("..", "error occurred", "fault of this program")
                    .doesNotContainPattern("\\binvalid\\b|[a-z]Exception\\b");
        }
    }

    private Commands() {}

    static Said run(List<String> words) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        ByteArrayOutputStream err = new ByteArrayOutputStream();
        int exit = Main.run(
                words.toArray(String[]::new),
                new Terminal(
                        new PrintStream(out, true, StandardCharsets.UTF_8),
                        new PrintStream(err, true, StandardCharsets.UTF_8)));
        return new Said(exit, out.toString(StandardCharsets.UTF_8), err.toString(StandardCharsets.UTF_8));
    }

    /** A command with the home and the settings that lie in a folder as {@code home} and {@code vestibule.toml}. */
    static Said at(Path folder, String... words) {
        List<String> all = new ArrayList<>(List.of(words));
        all.addAll(List.of(
                "--home",
                folder.resolve("home").toString(),
                "--config",
                folder.resolve("vestibule.toml").toString()));
        return run(all);
    }

    /** One photograph of an invented patient. */
    static Said wrap(Path photo, Path target) {
        return wrap(photo, target, "PG-0001", "Exempel^Zoe");
    }

    static Said wrap(Path photo, Path target, String patientId, String patientName) {
        return run(List.of(
                "wrap",
                photo.toString(),
                "--out",
                target.toString(),
                "--view",
                "teeth-front-occlusion",
                "--patient-id",
                patientId,
                "--patient-name",
                patientName));
    }

    static Said send(List<Path> files, String url) {
        List<String> words = new ArrayList<>(List.of("send", "--to", url));
        files.forEach(file -> words.add(file.toString()));
        return run(words);
    }
}
