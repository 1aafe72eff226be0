package vestibule.validator.rules;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.List;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.dict.Attributes;
import vestibule.validator.Photographs;
import vestibule.validator.Profile;
import vestibule.validator.Validator;

/** Directions worked out by hand from PS3.3 C.7.6.1.1.1: the first value is that of the rows, the second that of the columns. */
@DisplayName("A picture beside the one it was turned or mirrored from")
class DirectionCheckTest {

    private static DataSet.Builder turned(String source, String correction, String own) {
        DataSet item = DataSet.builder()
                .put(Attributes.REFERENCED_SOP_CLASS_UID, "1.2.840.10008.5.1.4.1.1.77.1.4")
                .put(Attributes.REFERENCED_SOP_INSTANCE_UID, "2.25.5")
                .put(Attributes.SPATIAL_LOCATIONS_PRESERVED, "REORIENTED_ONLY")
                .put(Attributes.PATIENT_ORIENTATION, source.split("/", -1))
                .build();
        return Photographs.good().toBuilder()
                .put(Attributes.ACQUISITION_CONTEXT_DESCRIPTION, "picture=corrected; correction=" + correction)
                .put(Attributes.SOURCE_IMAGE_SEQUENCE, List.of(item))
                .put(Attributes.PATIENT_ORIENTATION, own.split("/", -1));
    }

    private static List<String> rules(DataSet.Builder object) throws IOException {
        return Validator.under(Profile.PRACTICE).validate(object.build(), Photographs.SYNTAX).findings().stream()
                .map(finding -> finding.rule().id().toString())
                .filter(id -> id.equals("PHO-021") || id.equals("PHO-026"))
                .toList();
    }

    @ParameterizedTest(name = "{0} after {1}")
    @CsvSource({
        "L/A, flip-vertical, L/P", "R/A, flip-horizontal, L/A", "P/L, transpose, L/P", "A/R, transverse, L/P",
        "L/F, turn-90, H/L", "R/H, turn-180, L/F", "L/F, turn-270, F/R", "RP/F, flip-horizontal, LA/F"
    })
    @DisplayName("lies as the turn makes it lie; lying as another turn would is an error")
    void lies(String source, String correction, String own) throws IOException {
        assertThat(rules(turned(source, correction, own))).isEmpty();
        List<String> letters = List.of(own.split("/", -1));
        String half = String.join("/", Facing.halfTurned(letters));
        assertThat(rules(turned(source, correction, half))).containsExactly("PHO-026");
        assertThat(rules(turned(source, correction, letters.get(1) + "/" + letters.get(0))))
                .containsExactly("PHO-026");
    }

    @Test
    @DisplayName("along other axes, it is said once")
    void axes() throws IOException {
        assertThat(rules(turned("L/F", "flip-vertical", "L/A"))).containsExactly("PHO-021");
    }

    @Test
    @DisplayName("is not judged by a turn that is not the only one, or that nobody here knows")
    void unknown() throws IOException {
        assertThat(rules(turned("L/A", "flip-vertical", "R/A")
                        .put(
                                Attributes.DERIVATION_DESCRIPTION,
                                "The camera noted that the picture was not upright: turned by 180 degrees.")))
                .isEmpty();
        assertThat(rules(turned("L/A", "in-camera", "R/A"))).isEmpty();
    }
}
