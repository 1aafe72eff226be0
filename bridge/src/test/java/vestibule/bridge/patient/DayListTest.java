package vestibule.bridge.patient;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDateTime;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

@DisplayName("The day list of a practice system (RFC 4180)")
class DayListTest {

    private static final String HEADER = "patient-id,name,issuer,birth-date,sex,start\r\n";

    @TempDir
    Path folder;

    private DayList read(byte[] bytes) throws IOException, DayListException {
        return DayList.read(Files.write(folder.resolve("day.csv"), bytes));
    }

    private DayList read(String text) throws IOException, DayListException {
        return read(text.getBytes(StandardCharsets.UTF_8));
    }

    @Test
    @DisplayName("is read with quotes, a byte order mark, columns in any order and empty fields")
    void good() throws Exception {
        String rows = """
                name,patient-id,start
                "Exempel^Zoë, the elder",PG-0001,2026-03-12T09:00

                Mihon^Hanako=見本^花子,PG-0005,
                """;
        DayList list = read("\uFEFF" + rows.replace("\n", "\r\n"));
        assertThat(list.all()).hasSize(2);
        assertThat(list.withId("PG-0001").get(0).patient().name()).hasToString("Exempel^Zoë, the elder");
        assertThat(list.withId("PG-0001").get(0).appointment().orElseThrow().start())
                .contains(LocalDateTime.parse("2026-03-12T09:00"));
        assertThat(list.withId("PG-0005").get(0).appointment().orElseThrow().start())
                .isEmpty();
        assertThat(list.withId("PG-000")).isEmpty();
    }

    static Stream<Arguments> hostile() {
        return Stream.of(
                Arguments.of("", "line 1"),
                Arguments.of("patient-id\r\nPG-0001\r\n", "expected patient-id and name"),
                Arguments.of("patient-id,name,password\r\nPG-0001,A^B,x\r\n", "1 columns are not known"),
                Arguments.of("patient-id,name,name\r\nPG-0001,A^B,C^D\r\n", "row 2: the number of its fields"),
                Arguments.of(HEADER + "PG-0001,A^B\r\n", "row 2: the number of its fields"),
                Arguments.of(HEADER + "PG-0001,A^B,,,,,,\r\n", "row 2: the number of its fields"),
                Arguments.of(HEADER + ",A^B,,,,\r\n", "row 2: patient-id"),
                Arguments.of(HEADER + "PG-0001,,,,,\r\n", "row 2: name"),
                Arguments.of(HEADER + "PG-0001,^^^,,,,\r\n", "row 2: name"),
                Arguments.of(HEADER + "PG-0001,A^B,,12.03.1980,,\r\n", "row 2: birth-date"),
                Arguments.of(HEADER + "PG-0001,A^B,,1987-02-30,,\r\n", "row 2: birth-date"),
                Arguments.of(HEADER + "PG-0001,A^B,,,female,\r\n", "row 2: sex"),
                Arguments.of(HEADER + "PG-0001,A^B,,,,9 o'clock\r\n", "row 2: start"),
                Arguments.of(HEADER + "x".repeat(65) + ",A^B,,,,\r\n", "row 2: patient-id"),
                Arguments.of(HEADER + "PG\\0001,A^B,,,,\r\n", "row 2: patient-id"),
                Arguments.of(HEADER + "\"PG-0001,A^B,,,,\r\n", "RFC 4180"),
                Arguments.of(HEADER + "PG-0001,A^B,,,,\r\n".repeat(5_001), "more than 5000 rows"),
                Arguments.of(HEADER + "x".repeat(1 << 20), "larger than 1 MB"));
    }

    @ParameterizedTest
    @MethodSource
    @DisplayName(
            "is refused as a whole where anything in it is not understood; the sentence names the place and nobody on it")
    void hostile(String text, String said) {
        assertThatThrownBy(() -> read(text))
                .isInstanceOf(DayListException.class)
                .hasMessageContaining(said)
                .hasMessageNotContainingAny("A^B", "PG-0001");
    }

    @Test
    @DisplayName("in another encoding is refused, never read with letters exchanged")
    void encoding() {
        assertThatThrownBy(() ->
                        read("patient-id,name\r\nPG-0001,Exempel^Zo\u00eb\r\n".getBytes(StandardCharsets.ISO_8859_1)))
                .isInstanceOf(DayListException.class)
                .hasMessageContaining("UTF-8");
    }
}
