package vestibule.validator.rules;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import vestibule.validator.iod.TableText;

@DisplayName("The check digit of SNOMED CT codes")
class CheckDigitTest {

    @Test
    @DisplayName("holds for every code that PS3.16 prints, and for none with another last digit")
    void everyPrintedCode() {
        List<String> codes = TableText.read(CodeTable.class, "codes.tsv", 5).rows().stream()
                .filter(row -> row.get(1).equals("SCT"))
                .map(row -> row.get(2))
                .toList();
        assertThat(codes).hasSizeGreaterThan(1000).allMatch(Verhoeff::holds);
        assertThat(codes).allMatch(code -> {
            int last = code.charAt(code.length() - 1) - '0';
            return !Verhoeff.holds(code.substring(0, code.length() - 1) + (last + 1) % 10);
        });
    }

    @Test
    @DisplayName("notices two neighbours in the wrong order")
    void transposition() {
        assertThat(Verhoeff.holds("123851003")).isTrue();
        assertThat(Verhoeff.holds("132851003")).isFalse();
    }
}
