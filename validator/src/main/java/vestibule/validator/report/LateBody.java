package vestibule.validator.report;

import java.io.BufferedReader;
import java.io.Closeable;
import java.io.IOException;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;

/** The body of a report whose head is known at its end only: it waits in a temporary file, however long it gets. */
final class LateBody implements Closeable {

    private final Path file;
    private final Writer writer;

    LateBody() throws IOException {
        file = Files.createTempFile("vestibule-report-", ".part");
        writer = Files.newBufferedWriter(file, StandardCharsets.UTF_8);
    }

    LateBody append(String text) throws IOException {
        writer.append(text);
        return this;
    }

    void copyTo(Appendable target) throws IOException {
        writer.close();
        char[] chunk = new char[1 << 13];
        try (BufferedReader reader = Files.newBufferedReader(file, StandardCharsets.UTF_8)) {
            for (int count = reader.read(chunk); count >= 0; count = reader.read(chunk)) {
                target.append(java.nio.CharBuffer.wrap(chunk, 0, count));
            }
        }
    }

    @Override
    public void close() throws IOException {
        writer.close();
        Files.deleteIfExists(file);
    }
}
