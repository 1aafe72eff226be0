package vestibule.dicom.data;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.math.BigInteger;
import java.util.HashSet;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

@DisplayName("Unique identifiers (PS3.5 9)")
class UidTest {

    @ParameterizedTest
    @DisplayName("have the form of digits parted by dots (PS3.5 9.1)")
    @ValueSource(strings = {"1.2", "0.0", "1.2.840.10008.1.1", "2.25.329800735698586629295641978511506172918"})
    void wellFormed(String text) {
        assertThat(Uid.parse(text)).map(Uid::value).contains(text);
    }

    @ParameterizedTest
    @DisplayName("are refused in any other form")
    @ValueSource(strings = {"", "1", ".1", "1.", "1..2", "01.2", "1.02", "1.2 ", "1.2\u0000", "1.a", "1.٢", "-1.2"})
    void malformed(String text) {
        assertThat(Uid.parse(text)).isEmpty();
        assertThatThrownBy(() -> new Uid(text)).isInstanceOf(IllegalArgumentException.class);
    }

    @Test
    @DisplayName("have 64 characters at most")
    void length() {
        String longest = "1." + "2".repeat(62);
        assertThat(Uid.isWellFormed(longest)).isTrue();
        assertThat(Uid.isWellFormed(longest + "2")).isFalse();
    }

    @Test
    @DisplayName("made at random carry a version 4 UUID under 2.25 (PS3.5 B.2)")
    void random() {
        Random seeded = new Random(20261125);
        Set<Uid> all = new HashSet<>();
        for (int i = 0; i < 10_000; i++) {
            Uid uid = Uid.random(seeded);
            assertUuid(uid, 4);
            all.add(uid);
        }
        assertThat(all).hasSize(10_000);
    }

    @Test
    @DisplayName(
            "made of a name carry a version 5 UUID, the same one every time, another for another name or namespace")
    void ofName() {
        Uid namespace = new Uid("1.2.3");
        Uid uid = Uid.ofName(namespace, "a photograph");
        assertUuid(uid, 5);
        assertThat(Uid.ofName(namespace, "a photograph")).isEqualTo(uid);
        assertThat(Uid.ofName(namespace, "another")).isNotEqualTo(uid);
        assertThat(Uid.ofName(new Uid("1.2.4"), "a photograph")).isNotEqualTo(uid);
        assertThat(Uid.ofName(new Uid("1.2.31"), "2")).isNotEqualTo(Uid.ofName(new Uid("1.2.3"), "12"));
    }

    private static void assertUuid(Uid uid, int version) {
        assertThat(uid.value()).startsWith("2.25.").hasSizeLessThanOrEqualTo(64);
        BigInteger bits = new BigInteger(uid.value().substring(5));
        assertThat(bits.bitLength()).isLessThanOrEqualTo(128);
        assertThat(bits.shiftRight(76).intValue() & 0xF).as("version").isEqualTo(version);
        assertThat(bits.shiftRight(62).intValue() & 0x3).as("variant").isEqualTo(0b10);
    }
}
