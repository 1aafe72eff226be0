package vestibule.conformance.job;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import vestibule.conformance.Corpus;
import vestibule.conformance.peer.Tool;

/** Small files that ask for much: the pictures of the corpus that say so in their names, and some made here by the wording of T.81. */
@DisplayName("JPEG bombs are refused by a program of 64 MB of heap")
class BombsTest {

    /** Turned, checked, and looked at as intake does. */
    private static final int WAYS = 3;

    /** What any of them may allocate, in kB, garbage included; how long each takes is printed. */
    private static final int MOST_ALLOCATED = 8 << 10;

    @TempDir
    private Path folder;

    @Test
    @DisplayName("each of them, by name and not for want of memory")
    void refused() throws IOException {
        List<String> words = new ArrayList<>(
                List.of("-Xmx64m", "-cp", System.getProperty("java.class.path"), BombReader.class.getName()));
        List<Path> bombs = new ArrayList<>(Corpus.rows("jpeg-hostile").stream()
                .map(Corpus.Row::path)
                .filter(path -> path.getFileName().toString().contains("bomb"))
                .toList());
        assertThat(bombs).hasSize(2);
        bombs.add(made("largest-baseline.jpg", 0xC0, 65535, 65535, 1));
        bombs.add(made("largest-progressive.jpg", 0xC2, 65535, 65535, 1));
        bombs.add(made("within-the-limit-without-data.jpg", 0xC0, 16384, 16384, 1));
        bombs.add(made("large-photograph-without-data.jpg", 0xC0, 4000, 6000, 1));
        bombs.add(made("large-progressive-photograph-without-data.jpg", 0xC2, 4000, 6000, 1));
        bombs.add(made("very-many-scans.jpg", 0xC2, 8, 8, 5000));
        bombs.add(segments("very-many-segments.jpg"));
        bombs.forEach(bomb -> words.add(bomb.toString()));
        Tool.Said said = new Tool(Path.of(System.getProperty("java.home"), "bin", "java")).run(words);
        System.out.println(said.out().strip());
        assertThat(said.exit()).as(said.err()).isZero();
        assertThat(said.out().lines())
                .hasSize(WAYS * bombs.size())
                .allMatch(line -> line.startsWith("refused "))
                .allSatisfy(line -> assertThat(Integer.parseInt(line.split(" ")[1]))
                        .as(line)
                        .isLessThanOrEqualTo(MOST_ALLOCATED));
    }

    /** SOI, frame header, scans of one byte each; grey. */
    private Path made(String name, int frame, int lines, int samples, int scans) throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        out.writeBytes(bytes(0xFF, 0xD8, 0xFF, 0xDB, 0, 67, 0));
        byte[] steps = new byte[64];
        Arrays.fill(steps, (byte) 1);
        out.writeBytes(steps);
        out.writeBytes(bytes(0xFF, frame, 0, 11, 8, lines >> 8, lines, samples >> 8, samples, 1, 1, 0x11, 0));
        // One code of one bit, for the category 0, in each table class (T.81 B.2.4.2)
        for (int table : new int[] {0x00, 0x10}) {
            out.writeBytes(bytes(0xFF, 0xC4, 0, 20, table, 1));
            out.writeBytes(new byte[15]);
            out.write(0);
        }
        for (int scan = 0; scan < scans; scan++) {
            boolean first = scan == 0 && frame == 0xC2;
            int spectral = frame == 0xC0 ? 63 : first ? 0 : 1 + scan % 63;
            out.writeBytes(bytes(0xFF, 0xDA, 0, 8, 1, 1, 0, first || frame == 0xC0 ? 0 : spectral, spectral, 0, 0x3F));
        }
        out.writeBytes(bytes(0xFF, 0xD9));
        return Files.write(folder.resolve(name), out.toByteArray());
    }

    /** Half a million comments of no length, four bytes each. */
    private Path segments(String name) throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        out.writeBytes(bytes(0xFF, 0xD8));
        for (int segment = 0; segment < 500_000; segment++) {
            out.writeBytes(bytes(0xFF, 0xFE, 0, 2));
        }
        return Files.write(folder.resolve(name), out.toByteArray());
    }

    private static byte[] bytes(int... values) {
        byte[] bytes = new byte[values.length];
        for (int index = 0; index < values.length; index++) {
            bytes[index] = (byte) values[index];
        }
        return bytes;
    }
}
