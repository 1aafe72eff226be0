package vestibule.dicom.data;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

@DisplayName("Tags (PS3.5 7.1.1)")
class TagTest {

    @Test
    @DisplayName("are a group and an element number and print the way the standard does")
    void parts() {
        Tag tag = Tag.of(0x7FE0, 0x0010);
        assertThat(tag.group()).isEqualTo(0x7FE0);
        assertThat(tag.element()).isEqualTo(0x0010);
        assertThat(tag).hasToString("(7FE0,0010)");
        assertThat(Tag.of(0xFFFE, 0xE0DD)).hasToString("(FFFE,E0DD)");
    }

    @Test
    @DisplayName("are ordered as unsigned numbers")
    void order() {
        assertThat(Tag.of(0x7FE0, 0x0010)).isLessThan(Tag.of(0xFFFC, 0xFFFC));
        assertThat(Tag.of(0x0008, 0xFFFF)).isLessThan(Tag.of(0x0010, 0));
    }

    @Test
    @DisplayName("are read with and without brackets, in either case")
    void parse() {
        assertThat(Tag.parse("(0008,001a)")).contains(Tag.of(0x0008, 0x001A));
        assertThat(Tag.parse("FFFEE000")).contains(Tag.ITEM);
    }

    @ParameterizedTest
    @DisplayName("are not read from anything else")
    @ValueSource(strings = {"", "0008", "(0008,001", "0008,0018", "(00080018)", "0008001g", "+0080018", "٠٠٠٨٠٠١٨"})
    void refused(String text) {
        assertThat(Tag.parse(text)).isEmpty();
    }

    @Test
    @DisplayName("of an odd group are private; of element 0000 are group lengths")
    void kinds() {
        assertThat(Tag.of(0x0009, 0x0010).isPrivate()).isTrue();
        assertThat(Tag.of(0x0010, 0x0010).isPrivate()).isFalse();
        assertThat(Tag.of(0x0008, 0).isGroupLength()).isTrue();
        assertThat(Tag.of(0x0008, 1).isGroupLength()).isFalse();
    }
}
