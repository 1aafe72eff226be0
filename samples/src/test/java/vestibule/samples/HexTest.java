package vestibule.samples;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

@DisplayName("Commented hex text")
class HexTest {
    @Test
    void pairsQuotedTextRepeatsAndCommentsMakeBytes() {
        assertThat(Hex.read("08 0016ff # a comment \"with\" quotes\n \"Zoë\" 3 * 20\n2*00"))
                .isEqualTo(bytes(0x08, 0x00, 0x16, 0xFF, 'Z', 'o', 0xC3, 0xAB, 0x20, 0x20, 0x20, 0, 0));
    }

    @Test
    void quotedTextMayHoldQuotesBackslashesZerosAndHashes() {
        assertThat(Hex.read("\"a\\\"b\\\\c\\0#\"")).isEqualTo(bytes('a', '"', 'b', '\\', 'c', 0, '#'));
    }

    @ParameterizedTest
    @CsvSource({"'00 0', line 1", "'00\n0G', line 2", "'\"open', line 1", "'99999999 * 00', line 1", "'zz', line 1"})
    void anythingElseIsNamedWithItsLine(String text, String place) {
        assertThatThrownBy(() -> Hex.read(text))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining(place)
                .hasMessageContaining("expected");
    }

    private static byte[] bytes(int... values) {
        byte[] bytes = new byte[values.length];
        for (int i = 0; i < values.length; i++) {
            bytes[i] = (byte) values[i];
        }
        return bytes;
    }
}
