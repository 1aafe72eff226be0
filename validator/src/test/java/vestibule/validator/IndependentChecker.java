package vestibule.validator;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;

/** The validator {@code dciodvfy} of the Debian package dicom3tools, run as a process: an oracle that we did not write. */
final class IndependentChecker {

    private IndependentChecker() {}

    /** Whether it is installed. */
    static boolean isThere() {
        for (String folder : System.getenv("PATH").split(":", -1)) {
            if (Files.isExecutable(Path.of(folder, "dciodvfy"))) {
                return true;
            }
        }
        return false;
    }

    /** The lines that start with Error, for each of some files. */
    static List<List<String>> errors(List<Path> files) throws IOException, InterruptedException {
        return lines(files, "Error");
    }

    /** The lines that start with Error or Warning, for each of some files. */
    static List<List<String>> remarks(List<Path> files) throws IOException, InterruptedException {
        return lines(files, "Error", "Warning");
    }

    private static List<List<String>> lines(List<Path> files, String... starts)
            throws IOException, InterruptedException {
        List<Process> running = new ArrayList<>();
        List<List<String>> errors = new ArrayList<>();
        for (int i = 0; i < files.size(); i++) {
            if (i % 16 == 0) {
                running.clear();
                for (Path file : files.subList(i, Math.min(files.size(), i + 16))) {
                    running.add(new ProcessBuilder("dciodvfy", "-new", file.toString())
                            .redirectErrorStream(true)
                            .start());
                }
            }
            Process process = running.get(i % 16);
            String output = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
            if (!process.waitFor(20, TimeUnit.SECONDS)) {
                process.destroyForcibly();
            }
            errors.add(output.lines()
                    .filter(line -> Stream.of(starts).anyMatch(line::startsWith))
                    .toList());
        }
        return errors;
    }
}
