package vestibule.dicom.data;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

/** The names, and the ages, dates and times beside them, are examples of PS3.5 Table 6.2-1, 6.2.1.1 and Annexes H and J. */
@DisplayName("The form of one text value (PS3.5 Table 6.2-1)")
class TextFormTest {

    // Representation and value; leading spaces of a value count from the bar.
    private static final String TAKEN = """
            AE|STORE_SCP
            AE|lower case too
            AE| leading space
            AS|018M
            AS|003D
            CS|ISO_IR 192
            CS|ORIGINAL
            DA|19930822
            DA|20240229
            DS|1
            DS|-.5
            DS|1.
            DS|+1.25E-12
            DS| 3.5
            DS|1234567890123456
            DT|20070630235959.999999+1400
            DT|2007
            DT|200706
            DT|20070630-1200
            DT|2007+0100
            IS|-2147483648
            IS|2147483647
            IS|+0
            LO|Größe ≥ 5 mm
            LT|any \\ backslash
            PN|Adams^John Robert Quincy^^Rev.^B.A. M.Div.
            PN|Morrison-Jones^Susan^^^Ph.D., Chief Executive Officer
            PN|Wang^XiaoDong=王^小東=
            PN|Yamada^Tarou=山田^太郎=やまだ^たろう
            SH|sixteen letters!
            ST|a \\ b
            TM|070907.0705
            TM|1010
            TM|07
            TM|235960
            UC|a text without end
            UI|1.2.840.10008.1.1
            UI|0.0
            UR|https://dental.example/a?b=c&d=%20#e
            UT|anything
            """;

    // Representation, value, and words of the reason.
    private static final String REFUSED = """
            AE|SEVENTEEN_LETTERS|17 characters
            AE|backslash\\no|printable ASCII
            AE|Zähne|printable ASCII
            AE|   |only spaces
            AS|18M|three digits
            AS|018m|three digits
            AS|018H|three digits
            CS|lower|capital letters
            CS|NO-HYPHEN|capital letters
            CS|SEVENTEEN_LETTERS|17 characters
            DA|1993.08.22|10 characters
            DA|199308|YYYYMMDD
            DA|20230229|calendar
            DA|19931301|calendar
            DS|12345678901234567|17 characters
            DS|1,5|decimal number
            DS|1 5|decimal number
            DS|NaN|decimal number
            DS|.|decimal number
            DT|20070631|calendar
            DT|2007063024|calendar
            DT|20070630120000-0000|calendar
            DT|20070630120000+1401|calendar
            DT|20070630120000-1201|calendar
            DT|2007-06-30|form of DT
            IS|2147483648|32 bits
            IS|-2147483649|32 bits
            IS|1.0|whole number
            IS|1E3|whole number
            LO|back\\slash|backslash
            PN|a=b=c=d|3 groups
            PN|a^b^c^d^e^f|5 components
            SH|seventeen letters|17 characters
            TM|07:09:07|HHMMSS
            TM|0|HHMMSS
            TM|2400|no time of day
            TM|1260|no time of day
            TM|120061|no time of day
            TM|070907.1234567|HHMMSS
            UI|1.02.3|leading zero
            UI|1..2|unique identifier
            UI|1.2.|unique identifier
            UI|1|unique identifier
            UI|1.2.a|unique identifier
            UR|a b|URI
            """;

    @TestFactory
    @DisplayName("takes what the table allows")
    Stream<DynamicTest> takes() {
        return TAKEN.lines()
                .map(line -> line.split("\\|", -1))
                .map(row -> dynamicTest(
                        row[0] + " " + row[1],
                        () -> assertThat(TextForm.problem(VR.valueOf(row[0]), row[1]))
                                .isEmpty()));
    }

    @TestFactory
    @DisplayName("says what is wrong with what the table does not allow")
    Stream<DynamicTest> refuses() {
        return REFUSED.lines()
                .map(line -> line.split("\\|", -1))
                .map(row -> dynamicTest(
                        row[0] + " " + row[1],
                        () -> assertThat(TextForm.problem(VR.valueOf(row[0]), row[1]))
                                .get()
                                .asString()
                                .contains(row[2])));
    }

    @Test
    @DisplayName("counts characters, not bytes or UTF-16 units (PS3.5 6.2)")
    void countsCharacters() {
        String outsideTheBasicPlane = "𠮷".repeat(16);
        assertThat(TextForm.problem(VR.SH, outsideTheBasicPlane)).isEmpty();
        assertThat(TextForm.problem(VR.SH, outsideTheBasicPlane + "a")).isPresent();
        assertThat(TextForm.problem(VR.PN, "田".repeat(64))).isEmpty();
        assertThat(TextForm.problem(VR.PN, "田".repeat(65))).isPresent();
    }

    @Test
    @DisplayName("takes TAB, LF, FF and CR in free text only, other control characters nowhere (PS3.5 6.1.3)")
    void controlCharacters() {
        assertThat(TextForm.problem(VR.LT, "a\tb\r\nc\f")).isEmpty();
        assertThat(TextForm.problem(VR.LO, "a\tb")).isPresent();
        for (VR vr : new VR[] {VR.LO, VR.SH, VR.UC, VR.PN, VR.ST, VR.LT, VR.UT}) {
            for (String control : new String[] {"\u0007", "\u0000", "\u007F", "\u0085"}) {
                assertThat(TextForm.problem(vr, "a" + control))
                        .as("%s with U+%04X", vr, (int) control.charAt(0))
                        .isPresent();
            }
        }
    }

    @Test
    @DisplayName("never repeats the value, which may name a patient")
    void keepsTheValueToItself() {
        assertThat(TextForm.problem(VR.LO, "Vandermeer\u0007").orElseThrow()).doesNotContain("Vandermeer");
        assertThat(TextForm.problem(VR.PN, "Vandermeer=a=b=c").orElseThrow()).doesNotContain("Vandermeer");
    }
}
