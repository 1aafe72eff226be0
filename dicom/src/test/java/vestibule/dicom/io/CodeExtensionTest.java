package vestibule.dicom.io;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import vestibule.dicom.data.VR;

/** The names are the examples of PS3.5 H.3.1, H.3.2 and I.2; ISO/IEC 2022 escape sequences of PS3.3 Tables C.12-3 and C.12-4. */
@DisplayName("Code extension by escape sequences (PS3.5 6.1.2.4, 6.1.2.5)")
class CodeExtensionTest {

    /** Text in which {@code [} is the escape character and {@code <FB F3>} are bytes. */
    private static byte[] bytes(String notation) {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        for (int at = 0; at < notation.length(); at++) {
            char c = notation.charAt(at);
            if (c == '<') {
                int end = notation.indexOf('>', at);
                for (String pair : notation.substring(at + 1, end).split(" ", -1)) {
                    bytes.write(Integer.parseInt(pair, 16));
                }
                at = end;
            } else {
                bytes.write(c == '[' ? 0x1B : c);
            }
        }
        return bytes.toByteArray();
    }

    static Stream<Arguments> examples() {
        return Stream.of(
                Arguments.of(
                        List.of("", "ISO 2022 IR 87"),
                        "Yamada^Tarou=[$B;3ED[(B^[$BB@O:[(B=[$B$d$^$@[(B^[$B$?$m$&[(B",
                        "Yamada^Tarou=山田^太郎=やまだ^たろう"),
                Arguments.of(
                        List.of("ISO 2022 IR 13", "ISO 2022 IR 87"),
                        "<D4 CF C0 DE>^<C0 DB B3>=[$B;3ED[(J^[$BB@O:[(J=[$B$d$^$@[(J^[$B$?$m$&[(J",
                        "ﾔﾏﾀﾞ^ﾀﾛｳ=山田^太郎=やまだ^たろう"),
                Arguments.of(
                        List.of("", "ISO 2022 IR 149"),
                        "Hong^Gildong=[$)C<FB F3>^[$)C<D1 CE D4 D7>=[$)C<C8 AB>^[$)C<B1 E6 B5 BF>",
                        "Hong^Gildong=洪^吉洞=홍^길동"));
    }

    @ParameterizedTest(name = "{0}: {2}")
    @DisplayName("names of the standard's examples, both ways")
    @MethodSource("examples")
    void examplesOfTheStandard(List<String> terms, String notation, String name) {
        CharacterSet set = CharacterSet.of(terms).orElseThrow();
        assertThat(set.decode(bytes(notation), VR.PN)).contains(name);
        assertThat(set.encode(name, VR.PN)).contains(bytes(notation));
    }

    @Test
    @DisplayName("two alphabets in one name, each designated where it is used")
    void severalAlphabets() {
        CharacterSet set = CharacterSet.of(List.of("ISO 2022 IR 100", "ISO 2022 IR 144", "ISO 2022 IR 126"))
                .orElseThrow();
        for (String name : List.of("Müller^Иван", "Διονυσιος^Jürg", "Ä^Б^Γ=Ω")) {
            byte[] written = set.encode(name, VR.PN).orElseThrow();
            assertThat(set.decode(written, VR.PN)).contains(name);
        }
    }

    @Test
    @DisplayName("the first set is back after a backslash, in every representation")
    void delimitersReset() {
        CharacterSet set =
                CharacterSet.of(List.of("ISO 2022 IR 100", "ISO 2022 IR 144")).orElseThrow();
        assertThat(set.decode(bytes("[-L<B8>\\<E4>"), VR.LO)).contains("И\\ä");
    }

    @Test
    @DisplayName("a byte 5C inside a two-byte character parts no values")
    void trailByteIsNoDelimiter() {
        CharacterSet set = CharacterSet.of(List.of("", "ISO 2022 IR 87")).orElseThrow();
        // JIS X 0208 row 33, cell 60 (bytes 41 5C): by the JDK's table, for the printed one was not at hand
        String decoded = set.decode(bytes("[$B<41 5C>[(B"), VR.LO).orElseThrow();
        assertThat(decoded).hasSize(1).doesNotContain("\\");
    }

    @Test
    @DisplayName("an undeclared escape sequence, a cut character, or a byte without a set is not guessed at")
    void brokenText() {
        CharacterSet set = CharacterSet.of(List.of("", "ISO 2022 IR 87")).orElseThrow();
        assertThat(set.decode(bytes("[-L<B8>"), VR.LO)).isEmpty();
        assertThat(set.decode(bytes("[$B;"), VR.LO)).isEmpty();
        assertThat(set.decode(bytes("<E4>"), VR.LO)).isEmpty();
        assertThat(set.decode(bytes("abc["), VR.LO)).isEmpty();
        assertThat(set.encode("Müller", VR.PN)).isEmpty();
        assertThat(set.decode("plain".getBytes(StandardCharsets.US_ASCII), VR.LO))
                .contains("plain");
    }
}
