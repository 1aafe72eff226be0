package vestibule.bridge.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

@DisplayName("support names the place that its file cannot go to, and leaves it as it is")
class SupportCommandTest {

    @TempDir
    Path folder;

    private Ran support(Path out) {
        return Ran.vestibule("support", "--out", out.toString(), "--home", folder.toString());
    }

    @Test
    @DisplayName("if a file is there")
    void existing() throws IOException {
        Path out = Files.writeString(folder.resolve("help.zip"), "kept");
        Ran ran = support(out);
        assertThat(ran.exit()).isEqualTo(74);
        assertThat(ran.err())
                .isEqualTo("vestibule support: --out %s: is there already and is not written over; name another.%n"
                        .formatted(out));
        assertThat(out).hasContent("kept");
    }

    @Test
    @DisplayName("if its folder is not there")
    void missingFolder() {
        Path out = folder.resolve("gone").resolve("help.zip");
        Ran ran = support(out);
        assertThat(ran.exit()).isEqualTo(74);
        assertThat(ran.err())
                .isEqualTo("vestibule support: --out %s: its folder is not there; make it first.%n".formatted(out));
    }
}
