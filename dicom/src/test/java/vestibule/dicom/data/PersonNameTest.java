package vestibule.dicom.data;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

@DisplayName("Person names (PS3.5 6.2.1)")
class PersonNameTest {

    @Test
    @DisplayName("have family, given and middle name, prefix and suffix (example of PS3.5 6.2.1.1)")
    void components() {
        PersonName.Group name = PersonName.parse("Adams^John Robert Quincy^^Rev.^B.A. M.Div.")
                .orElseThrow()
                .alphabetic();
        assertThat(name).isEqualTo(new PersonName.Group("Adams", "John Robert Quincy", "", "Rev.", "B.A. M.Div."));
    }

    @Test
    @DisplayName("have an alphabetic, an ideographic and a phonetic group (example of PS3.5 H.3)")
    void groups() {
        PersonName name = PersonName.parse("Yamada^Tarou=山田^太郎=やまだ^たろう").orElseThrow();
        assertThat(name.alphabetic().family()).isEqualTo("Yamada");
        assertThat(name.ideographic().given()).isEqualTo("太郎");
        assertThat(name.phonetic().family()).isEqualTo("やまだ");
        assertThat(name).hasToString("Yamada^Tarou=山田^太郎=やまだ^たろう");
    }

    @ParameterizedTest
    @DisplayName("lose trailing delimiters only, which carry nothing")
    @CsvSource({"Wang^XiaoDong=王^小東=, Wang^XiaoDong=王^小東", "Doe^^^^, Doe", "=山田, =山田", "^Jane, ^Jane", "==, ''"})
    void delimiters(String written, String canonical) {
        assertThat(PersonName.parse(written)).map(PersonName::toString).contains(canonical);
    }

    @ParameterizedTest
    @DisplayName("are refused with too many groups or components, or characters no name has")
    @ValueSource(strings = {"a=b=c=d", "a^b^c^d^e^f", "a\\b", "a\nb", "a\u001Bb", "a\u0085b"})
    void refused(String text) {
        assertThat(PersonName.parse(text)).isEmpty();
    }

    @Test
    @DisplayName("take 64 characters in each group, delimiters counted")
    void length() {
        String group = "a".repeat(60) + "^bcd";
        assertThat(PersonName.parse(group + "=" + group + "=" + group)).isPresent();
        assertThat(PersonName.parse(group + "e")).isEmpty();
    }

    @Test
    @DisplayName("are empty without a component")
    void empty() {
        assertThat(PersonName.parse("").orElseThrow().isEmpty()).isTrue();
        assertThat(PersonName.parse("^=").orElseThrow().isEmpty()).isTrue();
        assertThat(PersonName.of("Doe", "").isEmpty()).isFalse();
    }
}
