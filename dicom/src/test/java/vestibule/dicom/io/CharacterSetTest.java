package vestibule.dicom.io;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.HexFormat;
import java.util.List;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import vestibule.dicom.data.VR;

@DisplayName("Specific Character Set (PS3.3 C.12.1.1.2)")
class CharacterSetTest {

    private static CharacterSet set(String term) {
        return CharacterSet.of(List.of(term)).orElseThrow();
    }

    /** The Chinese lines are the examples of PS3.5 J.1, J.2 and J.4; the others follow from the tables of ISO 8859 and JIS X 0201. */
    @ParameterizedTest(name = "{0}: {1}")
    @DisplayName("decodes and encodes the single sets and the three that stand alone")
    @CsvSource({
        "ISO_IR 100, Buc^Jérôme, 4275635e4ae972f46d65",
        "ISO_IR 101, Łuczak^Żaneta, a3 75637a616b 5e af 616e657461",
        "ISO_IR 109, Ħal^Ġorġ, a1616c 5e d56f72f5",
        "ISO_IR 110, Ķēniņš, d3ba6e69f1b9",
        "ISO_IR 126, Διονυσιος, c4e9efedf5f3e9eff2",
        "ISO_IR 127, قباني^لنزار, e2c8c7e6ea5ee4e6d2c7d1",
        "ISO_IR 138, שרון^דבורה, f9f8e5ef5ee3e1e5f8e4",
        "ISO_IR 144, Иванов^Пётр, b8d2d0ddded2 5e bff1e2e0",
        "ISO_IR 148, Şahin^Işık, de6168696e 5e 49fefd6b",
        "ISO_IR 166, สม, cac1",
        "ISO_IR 203, Œuvré, bc757672e9",
        "ISO_IR 13, ﾔﾏﾀﾞ^ﾀﾛｳ, d4cfc0de 5e c0dbb3",
        "ISO_IR 192, Wang^XiaoDong=王^小東=, 57616e675e5869616f446f6e673d e78e8b5ee5b08fe69db1 3d",
        "ISO_IR 192, Yamada^Tarou=山田^太郎, 59616d6164615e5461726f753d e5b1b1e794b05ee5a4aae9838e",
        "GB18030, Wang^XiaoDong=王^小东=, 57616e675e5869616f446f6e673d cdf55ed0a1b6ab 3d",
        "GBK, Wang^XiaoDong=王^小东=, 57616e675e5869616f446f6e673d cdf55ed0a1b6ab 3d"
    })
    void bothWays(String term, String text, String hex) {
        byte[] bytes = HexFormat.of().parseHex(hex.replace(" ", ""));
        assertThat(set(term).decode(bytes, VR.LO)).contains(text);
        assertThat(set(term).encode(text, VR.LO)).contains(bytes);
    }

    @Test
    @DisplayName("says when bytes or characters are not of the set, and puts no question mark in their place")
    void outside() {
        assertThat(CharacterSet.DEFAULT.decode(new byte[] {(byte) 0xE9}, VR.LO)).isEmpty();
        assertThat(CharacterSet.UTF_8.decode(new byte[] {(byte) 0xE9}, VR.LO)).isEmpty();
        assertThat(CharacterSet.DEFAULT.encode("é", VR.LO)).isEmpty();
        assertThat(set("ISO_IR 100").encode("山", VR.LO)).isEmpty();
        assertThat(CharacterSet.UTF_8.encode("\uD800", VR.LO)).isEmpty();
    }

    @Test
    @DisplayName("keeps byte 5C a delimiter where the set shows a yen sign (PS3.5 6.1.2.3)")
    void yen() {
        CharacterSet japanese = set("ISO_IR 13");
        assertThat(japanese.decode(new byte[] {(byte) 0xD4, 0x5C, (byte) 0xCF}, VR.LO))
                .contains("ﾔ\\ﾏ");
        assertThat(japanese.encode("ﾔ\\ﾏ", VR.LO)).contains(new byte[] {(byte) 0xD4, 0x5C, (byte) 0xCF});
        assertThat(japanese.encode("¥", VR.LO)).isEmpty();
    }

    @Test
    @DisplayName("is the default repertoire when absent or empty")
    void absent() {
        assertThat(CharacterSet.of(List.of())).contains(CharacterSet.DEFAULT);
        assertThat(CharacterSet.of(List.of(""))).contains(CharacterSet.DEFAULT);
    }

    @Test
    @DisplayName("is not known under a name the standard does not have, or beside a set that stands alone")
    void unknown() {
        assertThat(CharacterSet.of(List.of("", "ISO 2022 IR 9"))).isEmpty();
        assertThat(CharacterSet.of(List.of("ISO_IR 192", "ISO_IR 100"))).isEmpty();
        assertThat(CharacterSet.of(List.of("ISO-IR 100"))).isEmpty();
        assertThat(CharacterSet.of(List.of("UTF-8"))).isEmpty();
    }

    @Test
    @DisplayName("to write is the default repertoire while it suffices, else UTF-8")
    void toWrite() {
        assertThat(CharacterSet.toWrite("Jerome").terms()).isEmpty();
        assertThat(CharacterSet.toWrite("Jérôme").terms()).containsExactly("ISO_IR 192");
    }
}
