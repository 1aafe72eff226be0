package vestibule.dicom.service;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

@DisplayName("A file that is on the disk when its last byte has come")
class DiskFileTest {

    @TempDir
    private Path folder;

    @ParameterizedTest(name = "{0} bytes in portions of up to {1}")
    @CsvSource({
        "0, 10",
        "1, 10",
        "4095, 4095",
        "4096, 100",
        "4097, 4097",
        "1048575, 131072",
        "1048576, 1048576",
        "1048577, 131072",
        "3000001, 77777",
        "4194304, 5000000"
    })
    void has_the_bytes_it_was_given(int length, int portion) throws IOException {
        byte[] bytes = new byte[length];
        Random random = new Random(length);
        random.nextBytes(bytes);
        Path file = Files.createFile(folder.resolve("file"));
        ByteBuffer buffer = DiskFile.buffer();
        try (DiskFile disk = new DiskFile(file, buffer)) {
            for (int done = 0; done < length; ) {
                int next = Math.min(length - done, 1 + random.nextInt(portion));
                ByteBuffer source = ByteBuffer.wrap(bytes, done, next);
                assertThat(disk.write(source)).isEqualTo(next);
                assertThat(source.hasRemaining()).isFalse();
                done += next;
                assertThat(disk.length()).isEqualTo(done);
            }
            disk.force();
            assertThat(disk.length()).isEqualTo(length);
        }
        assertThat(Arrays.equals(Files.readAllBytes(file), bytes)).isTrue();
        assertThat(buffer.capacity()).as("for the next file").isEqualTo(1 << 20);
    }
}
