package vestibule.conformance.job;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import vestibule.conformance.peer.Tool;

@DisplayName("A picture that is begun while the program ends")
class EndingTest {

    @TempDir
    private Path folder;

    @Test
    @DisplayName("is put off as anything is that cannot be read or written now, and leaves nothing")
    void putOff() throws IOException {
        Tool.Said said = new Tool(Path.of(System.getProperty("java.home"), "bin", "java"))
                .run(List.of(
                        "-cp",
                        System.getProperty("java.class.path"),
                        EndingProgram.class.getName(),
                        folder.toString()));
        assertThat(said.err()).isEmpty();
        assertThat(said.out()).isEqualToIgnoringNewLines("refused: the program is ending");
        assertThat(folder).isEmptyDirectory();
    }
}
