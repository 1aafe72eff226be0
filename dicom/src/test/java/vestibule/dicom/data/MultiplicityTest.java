package vestibule.dicom.data;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.stream.IntStream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

@DisplayName("Value multiplicity (PS3.6 6, column VM)")
class MultiplicityTest {

    @ParameterizedTest(name = "{0} allows {1}")
    @DisplayName("says which numbers of values are allowed, of one to ten")
    @CsvSource({
        "1, 1",
        "3, 3",
        "1-2, 1 2",
        "1-3, 1 2 3",
        "2-4, 2 3 4",
        "1-8, 1 2 3 4 5 6 7 8",
        "1-n, 1 2 3 4 5 6 7 8 9 10",
        "2-n, 2 3 4 5 6 7 8 9 10",
        "2-2n, 2 4 6 8 10",
        "3-3n, 3 6 9",
        "4-4n, 4 8"
    })
    void allows(String form, String expected) {
        Multiplicity multiplicity = Multiplicity.parse(form);
        assertThat(IntStream.rangeClosed(1, 10)
                        .filter(multiplicity::allows)
                        .boxed()
                        .map(String::valueOf))
                .containsExactly(expected.split(" "));
        assertThat(multiplicity).hasToString(form);
    }

    @Test
    @DisplayName("of another form is a mistake in a table")
    void refused() {
        for (String form : new String[] {"", "n", "0", "1-", "a-b", "1 - 2"}) {
            assertThatThrownBy(() -> Multiplicity.parse(form)).isInstanceOf(IllegalArgumentException.class);
        }
    }
}
