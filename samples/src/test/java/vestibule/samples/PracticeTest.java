package vestibule.samples;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.Charset;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

@DisplayName("The patients of the invented practice")
class PracticeTest {
    /** Java's names for the terms of PS3.3 C.12.1.1.2. */
    private static final Map<String, String> CHARSETS = Map.of(
            "", "US-ASCII",
            "ISO_IR 100", "ISO-8859-1",
            "ISO_IR 101", "ISO-8859-2",
            "ISO_IR 144", "ISO-8859-5",
            "ISO_IR 126", "ISO-8859-7",
            "ISO_IR 192", "UTF-8");

    @Test
    void everyNameCanBeWrittenInItsCharacterSet() {
        for (SamplePatient patient : Samples.patients()) {
            Charset charset = Charset.forName(CHARSETS.get(patient.characterSet()));

            assertThat(charset.newEncoder().canEncode(patient.name()))
                    .as(patient.id())
                    .isTrue();
        }
    }

    @Test
    void namesKeepTheLimitsOfPersonName() {
        for (SamplePatient patient : Samples.patients()) {
            List<String> groups = List.of(patient.name().split("=", -1));

            assertThat(groups).as("PS3.5 6.2: at most three groups").hasSizeLessThanOrEqualTo(3);
            assertThat(groups).allSatisfy(group -> {
                assertThat(group.length()).isLessThanOrEqualTo(64);
                assertThat(group.split("\\^", -1).length).isLessThanOrEqualTo(5);
            });
        }
    }

    @Test
    void oneIsAChildWithPrimaryTeethAndOneHasNoBirthDate() {
        assertThat(Samples.patients()).anyMatch(p -> p.birthDate() == null);
        assertThat(Samples.photo("tonik-tooth-closeup").teeth()).containsExactly(61);
    }

    @Test
    void idsAreTheirOwn() {
        assertThat(Samples.patients())
                .hasSizeGreaterThanOrEqualTo(6)
                .extracting(SamplePatient::id)
                .doesNotHaveDuplicates();
        assertThat(Samples.photos()).extracting(SamplePhoto::id).doesNotHaveDuplicates();
    }
}
