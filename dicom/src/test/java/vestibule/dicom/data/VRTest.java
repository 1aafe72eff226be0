package vestibule.dicom.data;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

@DisplayName("Value representations (PS3.5 6.2, 7.1.2)")
class VRTest {

    private static Set<String> named(String names) {
        return Set.of(names.split(" "));
    }

    @Test
    @DisplayName("with two reserved bytes and a 32-bit length are those of PS3.5 Table 7.1-1")
    void longForm() {
        Set<String> found =
                Arrays.stream(VR.values()).filter(VR::longForm).map(VR::name).collect(Collectors.toSet());
        assertThat(found).isEqualTo(named("OB OD OF OL OV OW SQ SV UC UN UR UT UV"));
    }

    @Test
    @DisplayName("ruled by Specific Character Set are those of PS3.5 6.1.2.3")
    void characterSet() {
        Set<String> found = Arrays.stream(VR.values())
                .filter(VR::followsCharacterSet)
                .map(VR::name)
                .collect(Collectors.toSet());
        assertThat(found).isEqualTo(named("SH LO ST LT PN UC UT"));
    }

    @Test
    @DisplayName("whose text is one value, backslash or not, are ST, LT, UT and UR (PS3.5 6.4)")
    void oneValue() {
        Set<String> found = Arrays.stream(VR.values())
                .filter(vr -> vr.kind() == VR.Kind.TEXT && !vr.severalValues())
                .map(VR::name)
                .collect(Collectors.toSet());
        assertThat(found).isEqualTo(named("ST LT UT UR"));
    }

    @Test
    @DisplayName("are padded with NUL for UI and for bytes, with space elsewhere (PS3.5 6.2)")
    void padding() {
        assertThat(VR.UI.padding()).isZero();
        assertThat(VR.OB.padding()).isZero();
        assertThat(VR.CS.padding()).isEqualTo((byte) ' ');
        assertThat(VR.PN.padding()).isEqualTo((byte) ' ');
    }

    @Test
    @DisplayName("are 34, and found by their two letters only")
    void parse() {
        assertThat(VR.values()).hasSize(34);
        assertThat(VR.parse("XC")).isEmpty();
        assertThat(VR.parse("pn")).isEmpty();
        assertThat(VR.parse("PN")).contains(VR.PN);
    }
}
