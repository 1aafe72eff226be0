package vestibule.dicom.data;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayOutputStream;
import java.io.EOFException;
import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.channels.Channels;
import java.nio.channels.SeekableByteChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

@DisplayName("Runs of bytes in memory and in files")
class BulkTest {

    @TempDir
    private Path folder;

    private Bulk mixed;

    @BeforeEach
    void threePieces() throws IOException {
        Path file = Files.write(folder.resolve("bytes"), new byte[] {90, 3, 4, 5, 91});
        mixed = Bulk.concat(List.of(Bulk.of(new byte[] {0, 1, 2}), Bulk.of(file, 1, 3), Bulk.of(new byte[] {6, 7})));
    }

    private static byte[] transferred(Bulk bulk) throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        bulk.transferTo(Channels.newChannel(out));
        return out.toByteArray();
    }

    @Test
    @DisplayName("are joined in order, whether read, streamed or transferred")
    void joined() throws IOException {
        byte[] expected = {0, 1, 2, 3, 4, 5, 6, 7};
        assertThat(mixed.length()).isEqualTo(8);
        assertThat(mixed.bytes(8)).isEqualTo(expected);
        assertThat(transferred(mixed)).isEqualTo(expected);
        try (InputStream in = mixed.open()) {
            for (byte b : expected) {
                assertThat(in.read()).isEqualTo(b);
            }
            assertThat(in.read()).isEqualTo(-1);
        }
    }

    @Test
    @DisplayName("are cut anywhere, across pieces")
    void parts() throws IOException {
        for (int start = 0; start <= 8; start++) {
            for (int length = 0; length <= 8 - start; length++) {
                byte[] expected = new byte[length];
                for (int i = 0; i < length; i++) {
                    expected[i] = (byte) (start + i);
                }
                Bulk part = mixed.part(start, length);
                assertThat(part.bytes(8)).as("%d+%d", start, length).isEqualTo(expected);
                assertThat(transferred(part)).isEqualTo(expected);
            }
        }
    }

    @Test
    @DisplayName("are not cut beyond their ends")
    void beyond() {
        assertThatThrownBy(() -> mixed.part(5, 4)).isInstanceOf(IndexOutOfBoundsException.class);
        assertThatThrownBy(() -> mixed.part(-1, 2)).isInstanceOf(IndexOutOfBoundsException.class);
        assertThatThrownBy(() -> mixed.part(1, Long.MAX_VALUE)).isInstanceOf(IndexOutOfBoundsException.class);
    }

    @Test
    @DisplayName("are not taken into memory beyond what the caller is ready to hold")
    void most() {
        assertThatThrownBy(() -> mixed.bytes(7)).isInstanceOf(IOException.class).hasMessageContaining("8 bytes");
    }

    @Test
    @DisplayName("say so when their file has become shorter, in every way of reading")
    void shortened() throws IOException {
        Files.write(folder.resolve("bytes"), new byte[] {90, 3});
        assertThatThrownBy(() -> mixed.bytes(8))
                .isInstanceOf(EOFException.class)
                .hasMessageContaining("2 bytes early");
        assertThatThrownBy(() -> transferred(mixed)).isInstanceOf(EOFException.class);
        Files.write(folder.resolve("bytes"), new byte[0]);
        assertThatThrownBy(() -> transferred(mixed)).isInstanceOf(EOFException.class);
    }

    @Test
    @DisplayName("are a copy of the array they were made of")
    void copied() throws IOException {
        byte[] array = {1, 2};
        Bulk bulk = Bulk.of(array);
        array[0] = 9;
        assertThat(bulk.bytes(2)).containsExactly(1, 2);
    }

    @Test
    @DisplayName("are equal with equal bytes in memory, or the same range of the same file")
    void equality() {
        Path file = folder.resolve("bytes");
        assertThat(Bulk.of(new byte[] {1, 2}))
                .isEqualTo(Bulk.of(new byte[] {1, 2}))
                .hasSameHashCodeAs(Bulk.of(new byte[] {1, 2}));
        assertThat(Bulk.of(file, 1, 3)).isEqualTo(Bulk.of(file, 1, 3)).isNotEqualTo(Bulk.of(file, 1, 2));
        assertThat(Bulk.of(new byte[0])).isEqualTo(Bulk.EMPTY);
        assertThat(Bulk.concat(List.of())).isEqualTo(Bulk.EMPTY);
    }

    @Test
    @DisplayName("are read by a channel from wherever it is set, across pieces and back again")
    void channel() throws IOException {
        Random random = new Random(20261126);
        try (SeekableByteChannel channel = mixed.channel()) {
            for (int i = 0; i < 500; i++) {
                int from = random.nextInt(9);
                ByteBuffer target = ByteBuffer.allocate(1 + random.nextInt(8));
                int count = channel.position(from).read(target);
                assertThat(count).as("from %d", from).isEqualTo(from == 8 ? -1 : Math.min(target.capacity(), 8 - from));
                for (int at = 0; at < count; at++) {
                    assertThat(target.get(at)).as("byte %d", from + at).isEqualTo((byte) (from + at));
                }
            }
        }
    }
}
