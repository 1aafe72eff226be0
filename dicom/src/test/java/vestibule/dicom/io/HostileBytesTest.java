package vestibule.dicom.io;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatCode;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Element;
import vestibule.dicom.data.Value;
import vestibule.samples.Hex;

@Timeout(60)
@DisplayName("Broken files end in one checked exception, or are read as far as they make sense")
class HostileBytesTest {

    @TempDir
    private Path folder;

    private final byte[] whole = HandAssembled.jpegFile();

    /** Reads, and looks at every value, so that nothing is left for later. */
    private void read(byte[] bytes, String what) {
        assertThatCode(() -> {
                    try {
                        walk(DicomFile.read(Files.write(folder.resolve("broken.dcm"), bytes))
                                .dataSet());
                    } catch (DicomFormatException refused) {
                        assertThat(refused.getMessage()).as(what).isNotBlank().doesNotContain("\n");
                    }
                })
                .as(what)
                .doesNotThrowAnyException();
    }

    private static void walk(DataSet dataSet) throws IOException {
        for (Element element : dataSet) {
            if (element.value() instanceof Value.Items items) {
                for (DataSet item : items.all()) {
                    walk(item);
                }
            } else if (element.value() instanceof Value.Binary binary) {
                assertThat(binary.bulk().bytes(1 << 20))
                        .hasSize((int) binary.bulk().length());
            }
        }
    }

    @Test
    @DisplayName("cut at every byte")
    void truncated() {
        for (int length = 0; length < whole.length; length++) {
            read(Arrays.copyOf(whole, length), "cut after " + length + " bytes");
        }
    }

    @Test
    @DisplayName("with every byte replaced by its neighbours and by the extremes")
    void mutated() {
        for (int at = 128; at < whole.length; at++) {
            for (int value : new int[] {0, 0xFF, whole[at] ^ 1, whole[at] ^ 0x80, whole[at] + 1, 'Q'}) {
                byte[] bytes = whole.clone();
                bytes[at] = (byte) value;
                read(bytes, "byte %d set to %02X".formatted(at, value & 0xFF));
            }
        }
    }

    @Test
    @DisplayName("with bytes removed, doubled and replaced at random")
    void shuffled() {
        long seed = 20261125;
        Random random = new Random(seed);
        for (int round = 0; round < 3_000; round++) {
            List<Byte> bytes = new ArrayList<>();
            for (byte b : whole) {
                bytes.add(b);
            }
            for (int change = random.nextInt(1, 5); change > 0; change--) {
                int at = random.nextInt(128, bytes.size());
                switch (random.nextInt(3)) {
                    case 0 -> bytes.remove(at);
                    case 1 -> bytes.add(at, (byte) random.nextInt());
                    default -> bytes.set(at, (byte) random.nextInt());
                }
            }
            byte[] changed = new byte[bytes.size()];
            for (int i = 0; i < changed.length; i++) {
                changed[i] = bytes.get(i);
            }
            read(changed, "round %d of seed %d".formatted(round, seed));
        }
    }

    @Test
    @DisplayName("as messages of the network, cut and mutated, in both syntaxes")
    void messages() {
        byte[] dataSet = Hex.read(HandAssembled.EXPLICIT);
        for (TransferSyntax syntax : List.of(
                TransferSyntax.JPEG_BASELINE,
                TransferSyntax.IMPLICIT_VR_LITTLE_ENDIAN,
                TransferSyntax.EXPLICIT_VR_BIG_ENDIAN)) {
            for (int at = 0; at < dataSet.length; at++) {
                byte[] changed = dataSet.clone();
                changed[at] ^= (byte) 0xFF;
                for (byte[] bytes : List.of(Arrays.copyOf(dataSet, at), changed)) {
                    assertThatCode(() -> {
                                try {
                                    walk(DataSetCodec.decode(bytes, syntax));
                                } catch (DicomFormatException refused) {
                                    assertThat(refused).hasMessageContaining("found");
                                }
                            })
                            .as("byte %d in %s", at, syntax.name())
                            .doesNotThrowAnyException();
                }
            }
        }
    }
}
