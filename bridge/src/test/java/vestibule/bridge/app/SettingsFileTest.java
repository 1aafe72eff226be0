package vestibule.bridge.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

@DisplayName("A settings file that cannot be used ends a command with 78 and one sentence that names it")
class SettingsFileTest {

    @TempDir
    Path folder;

    private static void refused(Path file, String sentence) {
        Ran ran = Ran.vestibule("sets", "--config", file.toString());
        assertThat(ran.exit()).as(ran.err()).isEqualTo(78);
        assertThat(ran.out()).isEmpty();
        assertThat(ran.err()).isEqualTo("vestibule sets: %s.%n".formatted(sentence));
    }

    @Test
    @DisplayName("if it is not there")
    void missing() {
        Path file = folder.resolve("gone.toml");
        refused(file, "there is no settings file " + file + "; name one that is there");
    }

    @Test
    @DisplayName("if it is a folder")
    void directory() {
        refused(folder, folder + " is a folder, expected a settings file; name the file in it");
    }

    @Test
    @DisplayName("if it is no text in UTF-8")
    void otherEncoding() throws IOException {
        Path file = Files.write(folder.resolve("latin.toml"), new byte[] {'#', (byte) 0xE9});
        refused(file, file + " is not text in UTF-8; save it in that encoding");
    }
}
