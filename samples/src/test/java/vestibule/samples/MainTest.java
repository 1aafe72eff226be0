package vestibule.samples;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

@DisplayName("The samples from the command line")
class MainTest {
    private final ByteArrayOutputStream out = new ByteArrayOutputStream();
    private final ByteArrayOutputStream err = new ByteArrayOutputStream();

    @TempDir
    Path folder;

    private int run(String... arguments) {
        return Main.run(
                List.of(arguments),
                new PrintStream(out, true, StandardCharsets.UTF_8),
                new PrintStream(err, true, StandardCharsets.UTF_8));
    }

    @Test
    void listPrintsOneLineForEachPhotographAndTheHeader() {
        assertThat(run("list")).isZero();
        assertThat(out.toString(StandardCharsets.UTF_8).lines())
                .hasSize(1 + Samples.photos().size());
    }

    @Test
    void photoWritesTheFileAtTheWantedSize() throws IOException {
        Path file = folder.resolve("p.jpg");

        assertThat(run("photo", "zoe-tooth-closeup", "--to", file.toString(), "--size", "320x240"))
                .isZero();
        assertThat(Files.readAllBytes(file))
                .isEqualTo(Samples.jpeg(Samples.photo("zoe-tooth-closeup"), PhotoSize.THUMBNAIL));
    }

    @Test
    void fileWritesAHandAssembledFile() throws IOException {
        Path file = folder.resolve("f.dcm");

        assertThat(run("file", "explicit-little-endian", "--to", file.toString()))
                .isZero();
        assertThat(Files.readAllBytes(file)).isEqualTo(Samples.file("explicit-little-endian"));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                "draw",
                "card",
                "card --to",
                "card --to x --size 12",
                "card --to x --size 1200x1600",
                "card --to x --size 99999x3",
                "card --into x",
                "photo",
                "photo --to x",
                "photo nobody --to x",
                "file nothing --to x",
                "list it"
            })
    void wrongUseIsOneSentenceAndExitCode2(String line) {
        assertThat(run(line.isEmpty() ? new String[0] : line.split(" ", -1))).isEqualTo(2);
        assertThat(out.size()).isZero();
        assertThat(err.toString(StandardCharsets.UTF_8).lines())
                .singleElement()
                .asString()
                .contains("found", "expected");
    }

    @Test
    void aPlaceThatCannotBeWrittenToIsExitCode74() throws IOException {
        Path file = Files.writeString(folder.resolve("file"), "in the way");

        assertThat(run("file", "empty", "--to", file.resolve("below").toString()))
                .isEqualTo(74);
        assertThat(err.toString(StandardCharsets.UTF_8).lines()).hasSize(1);
    }
}
