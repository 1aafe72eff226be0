package vestibule.validator;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

@DisplayName("A ZIP file in a batch")
class ZipContentsTest {

    @TempDir
    Path folder;

    private Path zip;
    private byte[] good;

    @BeforeEach
    void object() throws IOException {
        Path file = folder.resolve("object");
        Example.of(Photographs.good()).write(file);
        good = Files.readAllBytes(file);
        Files.delete(file);
        zip = folder.resolve("batch.zip");
    }

    private void write(Map<String, byte[]> entries) throws IOException {
        try (OutputStream out = Files.newOutputStream(zip);
                ZipOutputStream target = new ZipOutputStream(out)) {
            for (Map.Entry<String, byte[]> entry : entries.entrySet()) {
                target.putNextEntry(new ZipEntry(entry.getKey()));
                target.write(entry.getValue());
                target.closeEntry();
            }
        }
    }

    private List<String> said() throws IOException {
        return Validator.standard().validate(List.of(zip)).objects().stream()
                .map(object -> object.name().replace(zip.toString(), "ZIP") + " "
                        + object.verdict().word()
                        + object.reason().map(reason -> ": " + reason).orElse(""))
                .toList();
    }

    @Test
    @DisplayName("is judged entry by entry, by name, and leaves nothing behind")
    void entries() throws IOException {
        Map<String, byte[]> entries = new LinkedHashMap<>();
        entries.put("b/2.dcm", good);
        entries.put("a/", new byte[0]);
        entries.put("a/1.dcm", good);
        entries.put("readme.txt", new byte[] {'h', 'i'});
        write(entries);
        long before = temporaryFiles();
        assertThat(said())
                .satisfiesExactly(
                        said -> assertThat(said).isEqualTo("ZIP!/a/1.dcm pass"),
                        said -> assertThat(said).isEqualTo("ZIP!/b/2.dcm pass"),
                        said -> assertThat(said).startsWith("ZIP!/readme.txt unreadable: not a readable DICOM object"));
        assertThat(temporaryFiles()).isEqualTo(before);
    }

    private static long temporaryFiles() throws IOException {
        try (Stream<Path> files = Files.list(Path.of(System.getProperty("java.io.tmpdir")))) {
            return files.filter(file -> file.getFileName().toString().startsWith("vestibule-entry-"))
                    .count();
        }
    }

    @Test
    @DisplayName("never lends an entry's name to a path")
    void names() throws IOException {
        write(Map.of("../../outside.dcm", good, "/etc/x\u001B[2J.dcm", good));
        assertThat(said()).containsExactly("ZIP!/../../outside.dcm pass", "ZIP!//etc/x\\u001B[2J.dcm pass");
        assertThat(folder.resolve("../../outside.dcm")).doesNotExist();
    }

    @Test
    @DisplayName("inside another is not opened")
    void nested() throws IOException {
        write(Map.of("1.dcm", good));
        byte[] inner = Files.readAllBytes(zip);
        write(Map.of("inner.zip", inner));
        assertThat(said())
                .containsExactly(
                        "ZIP!/inner.zip unreadable: a ZIP file inside a ZIP file is not opened; unpack it and check it by itself");
    }

    @Test
    @DisplayName("that unpacks to hundreds of times its length is refused at that entry, the others are judged")
    void bomb() throws IOException {
        write(new java.util.TreeMap<>(Map.of("1.dcm", new byte[64 << 20], "2.dcm", good)));
        assertThat(said())
                .satisfiesExactly(
                        said -> assertThat(said)
                                .startsWith("ZIP!/1.dcm unreadable: the entry unpacks to more than 500"),
                        said -> assertThat(said).isEqualTo("ZIP!/2.dcm pass"));
    }

    @Test
    @DisplayName("that claims more entries than there may be is refused before they are read")
    void tooMany() throws IOException {
        write(Map.of("1.dcm", good));
        byte[] bytes = Files.readAllBytes(zip);
        // Zip64 end record and locator in front of the end record (APPNOTE 4.3.14, 4.3.15): 2^40 entries
        java.nio.ByteBuffer changed =
                java.nio.ByteBuffer.allocate(bytes.length + 76).order(java.nio.ByteOrder.LITTLE_ENDIAN);
        changed.put(bytes, 0, bytes.length - 22);
        int at = changed.position();
        changed.putInt(0x06064B50).putLong(44).putInt(0x002D002D).putInt(0).putInt(0);
        changed.putLong(1L << 40).putLong(1L << 40).putLong(100).putLong(0);
        changed.putInt(0x07064B50).putInt(0).putLong(at).putInt(1);
        changed.put(bytes, bytes.length - 22, 22);
        Files.write(zip, changed.array());
        assertThat(said())
                .singleElement()
                .satisfies(said -> assertThat(said).startsWith("ZIP unreadable: the ZIP file has more than 100000"));
    }

    @Test
    @DisplayName("that is cut short or empty is said to be")
    void broken() throws IOException {
        write(Map.of("1.dcm", good));
        byte[] bytes = Files.readAllBytes(zip);
        Files.write(zip, java.util.Arrays.copyOf(bytes, bytes.length - 30));
        assertThat(said())
                .containsExactly("ZIP unreadable: the ZIP file has no end record; it is cut short, copy it again");
        write(Map.of());
        assertThat(said()).containsExactly("ZIP unreadable: a ZIP file without files; nothing was checked");
    }

    @Test
    @DisplayName("is none when a DICOM file's preamble looks like one")
    void preamble() throws IOException {
        good[0] = 'P';
        good[1] = 'K';
        good[2] = 3;
        good[3] = 4;
        Files.write(zip, good);
        assertThat(said()).containsExactly("ZIP warn");
    }
}
