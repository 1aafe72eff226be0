package vestibule.bridge.app;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** Tools and files that nobody here made; tests that ask for them skip without them. */
final class PeerTools {

    private PeerTools() {}

    /** Standard output of a tool; empty when it exits with an error. */
    static Optional<byte[]> run(String... command) throws IOException {
        assumeTrue(present(command[0]), command[0] + " is not installed");
        Process process = new ProcessBuilder(command)
                .redirectError(ProcessBuilder.Redirect.DISCARD)
                .start();
        byte[] output = process.getInputStream().readAllBytes();
        try {
            return process.waitFor() == 0 ? Optional.of(output) : Optional.empty();
        } catch (InterruptedException e) {
            throw new IOException(e);
        }
    }

    /** The samples that libjpeg-turbo decodes, as a PNM file. */
    static byte[] samples(Path jpeg) throws IOException {
        return run("djpeg", "-pnm", jpeg.toString()).orElseThrow(() -> new AssertionError("djpeg refuses " + jpeg));
    }

    private static boolean present(String tool) {
        for (String folder : System.getenv("PATH").split(":", -1)) {
            if (Files.isExecutable(Path.of(folder, tool))) {
                return true;
            }
        }
        return false;
    }

    /** One row of the corpus: its file, and what is known of it. */
    record Row(Path file, Map<String, String> columns) {
        String column(String name) {
            return columns.getOrDefault(name, "");
        }

        @Override
        public String toString() {
            return String.valueOf(file.getFileName());
        }
    }

    /** The rows of a folder of real files beside the repository; the test is skipped where there are none. */
    static List<Row> corpus(String folder) throws IOException {
        Optional<Path> index =
                shared().map(shared -> shared.resolve("corpus").resolve(folder).resolve("index.tsv"));
        assumeTrue(index.filter(Files::isRegularFile).isPresent(), "the corpus of real files is not here");
        List<String> lines = Files.readAllLines(index.orElseThrow(), StandardCharsets.UTF_8);
        String[] names = lines.get(0).split("\t", -1);
        assertThat(names).contains("file", "orientation");
        return lines.stream()
                .skip(1)
                .map(line -> {
                    String[] cells = line.split("\t", -1);
                    Map<String, String> columns = new HashMap<>();
                    for (int cell = 0; cell < cells.length; cell++) {
                        columns.put(names[cell], cells[cell]);
                    }
                    return new Row(index.orElseThrow().resolveSibling(cells[0]), columns);
                })
                .toList();
    }

    private static Optional<Path> shared() {
        String named = System.getenv("VESTIBULE_SHARED");
        if (named != null) {
            return Optional.of(Path.of(named));
        }
        Path folder = Path.of("").toAbsolutePath();
        while (folder != null) {
            Path shared = folder.resolveSibling("shared");
            if (Files.isDirectory(shared.resolve("corpus"))) {
                return Optional.of(shared);
            }
            folder = folder.getParent();
        }
        return Optional.empty();
    }
}
