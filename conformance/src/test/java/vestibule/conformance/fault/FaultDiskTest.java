package vestibule.conformance.fault;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import vestibule.conformance.fault.DiskOperation.Kind;
import vestibule.conformance.fault.FaultDisk.Failure;
import vestibule.dicom.io.Durability;

@DisplayName("A disk that loses, tears and refuses")
class FaultDiskTest {

    @TempDir
    Path folder;

    private FaultDisk disk;
    private Path root;

    @BeforeEach
    void over() throws IOException {
        Path real = Files.createDirectories(folder.resolve("disk"));
        Files.writeString(real.resolve("old.txt"), "old");
        disk = FaultDisk.over(real);
        root = disk.root();
    }

    private static void write(Path file, String text, boolean force) throws IOException {
        try (FileChannel channel = FileChannel.open(file, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE)) {
            channel.write(ByteBuffer.wrap(text.getBytes(UTF_8)));
            if (force) {
                channel.force(true);
            }
        }
    }

    private Map<String, String> after(Cut cut) throws IOException {
        Path target = Files.createTempDirectory(folder, "after-");
        disk.layOut(target, cut, null);
        Map<String, String> files = new TreeMap<>();
        try (Stream<Path> all = Files.walk(target)) {
            for (Path file : all.filter(Files::isRegularFile).toList()) {
                files.put(target.relativize(file).toString(), Files.readString(file));
            }
        }
        return files;
    }

    @Test
    @DisplayName("a file that was written and not forced has its name and no bytes")
    void unforcedData() throws IOException {
        write(root.resolve("new.txt"), "bytes", false);
        assertThat(after(Cut.UNSYNCED_DATA)).containsEntry("new.txt", "").containsEntry("old.txt", "old");
        assertThat(after(Cut.UNSYNCED_NAMES)).containsOnlyKeys("old.txt");
        assertThat(Files.readString(root.resolve("new.txt"))).isEqualTo("bytes");
    }

    @Test
    @DisplayName("a file that was forced keeps its bytes, and its name only once its folder was forced")
    void forced() throws IOException {
        write(root.resolve("new.txt"), "bytes", true);
        assertThat(after(Cut.UNSYNCED_DATA)).containsEntry("new.txt", "bytes");
        assertThat(after(Cut.BOTH)).doesNotContainKey("new.txt");
        Durability.forceFolder(root);
        assertThat(after(Cut.BOTH)).containsEntry("new.txt", "bytes");
    }

    @Test
    @DisplayName("bytes written after the last force are gone, those before stay")
    void forcedInPart() throws IOException {
        try (FileChannel channel =
                FileChannel.open(root.resolve("new.txt"), StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE)) {
            channel.write(ByteBuffer.wrap("one".getBytes(UTF_8)));
            channel.force(false);
            channel.write(ByteBuffer.wrap("two".getBytes(UTF_8)));
        }
        Durability.forceFolder(root);
        assertThat(after(Cut.BOTH)).containsEntry("new.txt", "one");
    }

    @Test
    @DisplayName("a move that was not forced has not happened")
    void moved() throws IOException {
        write(root.resolve("temporary"), "bytes", true);
        Durability.forceFolder(root);
        Files.move(root.resolve("temporary"), root.resolve("final"));
        assertThat(after(Cut.UNSYNCED_NAMES)).containsKey("temporary").doesNotContainKey("final");
        Durability.forceFolder(root);
        assertThat(after(Cut.UNSYNCED_NAMES)).containsEntry("final", "bytes").doesNotContainKey("temporary");
    }

    @Test
    @DisplayName("a deletion that was not forced has not happened, and the bytes are still there")
    void deleted() throws IOException {
        write(root.resolve("new.txt"), "bytes", true);
        Durability.forceFolder(root);
        Files.delete(root.resolve("new.txt"));
        assertThat(after(Cut.UNSYNCED_NAMES)).containsEntry("new.txt", "bytes");
        assertThat(after(Cut.UNSYNCED_DATA)).doesNotContainKey("new.txt");
    }

    @Test
    @DisplayName("a new folder that was not forced takes along what is in it")
    void newFolder() throws IOException {
        Path inner = Files.createDirectory(root.resolve("inner"));
        write(inner.resolve("new.txt"), "bytes", true);
        Durability.forceFolder(inner);
        assertThat(after(Cut.UNSYNCED_NAMES)).containsOnlyKeys("old.txt");
        Durability.forceFolder(root);
        assertThat(after(Cut.UNSYNCED_NAMES)).containsKey("inner/new.txt");
    }

    @Test
    @DisplayName("a torn write leaves its first half")
    void torn() throws IOException {
        Path target = Files.createTempDirectory(folder, "torn-");
        disk.watch(operation -> {
            if (operation.kind() == Kind.WRITE) {
                disk.layOut(target, Cut.TORN_WRITE, operation);
            }
        });
        write(root.resolve("new.txt"), "12345678", true);
        assertThat(Files.readString(target.resolve("new.txt"))).isEqualTo("1234");
    }

    @Test
    @DisplayName("what others write behind its back, such as a database, counts as it lies")
    void others() throws IOException {
        Files.writeString(disk.folder().resolve("outbox.db"), "rows");
        Files.writeString(disk.folder().resolve("old.txt"), "changed");
        assertThat(after(Cut.BOTH)).containsEntry("outbox.db", "rows").containsEntry("old.txt", "changed");
    }

    @Test
    @DisplayName("fails one operation, and works again after it")
    void failsOnce() throws IOException {
        disk.failAt(1, Failure.INPUT_OUTPUT_ERROR, false);
        assertThatThrownBy(() -> write(root.resolve("new.txt"), "bytes", true))
                .isInstanceOf(IOException.class)
                .hasMessageContaining("Input/output error");
        write(root.resolve("other.txt"), "bytes", true);
        assertThat(disk.log())
                .extracting(DiskOperation::kind)
                .containsExactly(Kind.CREATE, Kind.WRITE, Kind.CREATE, Kind.WRITE, Kind.FORCE);
    }

    @Test
    @DisplayName("fails for ever, until it is repaired")
    void failsForEver() throws IOException {
        disk.failAt(0, Failure.NO_SPACE, true);
        for (String name : List.of("a", "b")) {
            assertThatThrownBy(() -> write(root.resolve(name), "bytes", true))
                    .hasMessageContaining("No space left on device");
        }
        disk.repair();
        write(root.resolve("c"), "bytes", true);
        assertThat(root.resolve("c")).hasContent("bytes");
    }

    @Test
    @DisplayName("fills up at the byte it was told, and says how much is left")
    void full() throws IOException {
        disk.usableSpace(8);
        write(root.resolve("a"), "12345", true);
        assertThat(Files.getFileStore(root).getUsableSpace()).isEqualTo(3);
        assertThatThrownBy(() -> write(root.resolve("b"), "12345", true)).hasMessageContaining("No space left");
    }

    @Test
    @DisplayName("answers nothing at all once it is pulled out")
    void pulled() throws IOException {
        disk.pullAfterReading(2);
        try (FileChannel channel = FileChannel.open(root.resolve("old.txt"), StandardOpenOption.READ)) {
            assertThat(channel.read(ByteBuffer.allocate(2))).isEqualTo(2);
            assertThatThrownBy(() -> channel.read(ByteBuffer.allocate(2))).isInstanceOf(IOException.class);
        }
        assertThat(Files.exists(root.resolve("old.txt"))).isFalse();
        assertThatThrownBy(() -> {
                    try (Stream<Path> names = Files.list(root)) {
                        names.forEach(name -> assertThat(name).isNull());
                    }
                })
                .isInstanceOf(IOException.class);
        disk.repair();
        assertThat(Files.readString(root.resolve("old.txt"))).isEqualTo("old");
    }

    @Test
    @DisplayName("is a file system like any other to a program")
    void ordinary() throws IOException {
        Path sub = Files.createDirectories(root.resolve("a/b"));
        Files.writeString(sub.resolve("x"), "1");
        Files.copy(sub.resolve("x"), sub.resolve("y"));
        try (Stream<Path> all = Files.walk(root)) {
            assertThat(all.filter(Files::isRegularFile)
                            .map(path -> root.relativize(path).toString()))
                    .containsExactlyInAnyOrder("old.txt", "a/b/x", "a/b/y");
        }
        assertThat(sub.resolve("x").getParent()).isEqualTo(sub);
        assertThat(Files.isSameFile(sub.resolve("x"), root.resolve("a/b/x"))).isTrue();
        assertThat(root.resolve(Path.of("a", "b"))).isEqualTo(sub);
    }
}
