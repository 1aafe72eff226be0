package vestibule.validator.rules;

import static org.assertj.core.api.Assertions.assertThat;
import static vestibule.validator.Photographs.attribute;
import static vestibule.validator.Photographs.code;

import java.io.IOException;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.dict.Attributes;
import vestibule.validator.Photographs;
import vestibule.validator.Profile;
import vestibule.validator.Validator;

/** Codes of sides from PS3.16 CID 244, of teeth from CID 4018. */
@DisplayName("What an object says of side in several places")
class SideCheckTest {

    private static final DataSet RIGHT = code("SCT", "24028007", "Right");
    private static final DataSet LEFT = code("SCT", "7771000", "Left");
    private static final DataSet BOTH = code("SCT", "51440002", "Bilateral");
    private static final DataSet TOOTH_16 = code("SCT", "865995000", "Permanent maxillary right first molar tooth");
    private static final DataSet TOOTH_26 = code("SCT", "865988009", "Permanent maxillary left first molar tooth");

    private static DataSet side(String word) {
        return switch (word) {
            case "R" -> RIGHT;
            case "L" -> LEFT;
            default -> BOTH;
        };
    }

    private static DataSet region(DataSet... modifiers) {
        return code("SCT", "661005", "Jaw region").toBuilder()
                .put(attribute("AnatomicRegionModifierSequence"), List.of(modifiers))
                .build();
    }

    private static DataSet structure(DataSet structure, DataSet... modifiers) {
        return structure.toBuilder()
                .put(attribute("PrimaryAnatomicStructureModifierSequence"), List.of(modifiers))
                .build();
    }

    private static List<String> rules(Optional<String> image, DataSet region, DataSet... structures)
            throws IOException {
        DataSet.Builder object = Photographs.good().toBuilder()
                .remove(Attributes.IMAGE_LATERALITY)
                .putIfKnown(Attributes.IMAGE_LATERALITY, image)
                .put(Attributes.ANATOMIC_REGION_SEQUENCE, List.of(region));
        if (structures.length > 0) {
            object.put(Attributes.PRIMARY_ANATOMIC_STRUCTURE_SEQUENCE, List.of(structures));
        }
        return rules(object.build());
    }

    private static List<String> rules(DataSet object) throws IOException {
        return Validator.under(Profile.PRACTICE).validate(object, Photographs.SYNTAX).findings().stream()
                .map(finding -> finding.rule().id().toString())
                .filter(id -> List.of("COD-010", "COD-011", "COD-015").contains(id))
                .toList();
    }

    @ParameterizedTest
    @ValueSource(strings = {"R", "L", "B"})
    @DisplayName("a region that is not paired may still be shown from a side, as orthodontic records say it")
    void unpaired(String shown) throws IOException {
        assertThat(rules(Optional.of("U"), region(side(shown)))).isEmpty();
    }

    @ParameterizedTest
    @CsvSource({"R,L", "L,R", "R,B", "B,R"})
    @DisplayName("a side and a modifier of another are an error")
    void contradicted(String image, String modifier) throws IOException {
        assertThat(rules(Optional.of(image), region(side(modifier)))).containsExactly("COD-010");
        assertThat(rules(Optional.of(image), region(side(image)))).isEmpty();
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "U"})
    @DisplayName("region, structure and tooth of different sides are an error although Image Laterality names no side")
    void amongThemselves(String image) throws IOException {
        Optional<String> said = Optional.of(image).filter(text -> !text.isEmpty());
        assertThat(rules(said, region(RIGHT), TOOTH_26)).containsExactly("COD-015");
        assertThat(rules(said, region(RIGHT), TOOTH_16)).isEmpty();
        assertThat(rules(said, region(RIGHT), structure(TOOTH_16, LEFT))).containsExactly("COD-015");
        assertThat(rules(said, region(), structure(TOOTH_26, RIGHT))).containsExactly("COD-015");
        assertThat(rules(said, region(), structure(TOOTH_26, LEFT), structure(TOOTH_16, RIGHT)))
                .isEmpty();
        assertThat(rules(said, region(LEFT, RIGHT), TOOTH_26, TOOTH_16)).isEmpty();
        DataSet arch = code("SCT", "39481002", "Maxillary dental arch");
        assertThat(rules(said, region(LEFT), structure(arch, RIGHT))).containsExactly("COD-015");
        assertThat(rules(said, region(LEFT), structure(arch, RIGHT), TOOTH_16)).containsExactly("COD-015", "COD-015");
    }

    @Test
    @DisplayName("the side of the series stands for the image that names none")
    void ofTheSeries() throws IOException {
        DataSet.Builder object = Photographs.good().toBuilder()
                .remove(Attributes.IMAGE_LATERALITY)
                .put(Attributes.LATERALITY, "R");
        assertThat(rules(object.put(Attributes.ANATOMIC_REGION_SEQUENCE, List.of(region(LEFT)))
                        .build()))
                .containsExactly("COD-015");
        object.put(Attributes.ANATOMIC_REGION_SEQUENCE, List.of(region(RIGHT)));
        assertThat(rules(object.build())).isEmpty();
        assertThat(rules(object.put(Attributes.PRIMARY_ANATOMIC_STRUCTURE_SEQUENCE, List.of(TOOTH_26))
                        .build()))
                .containsExactly("COD-015");
    }

    @Test
    @DisplayName("what Image Laterality contradicts is said once")
    void once() throws IOException {
        assertThat(rules(Optional.of("R"), region(RIGHT), TOOTH_26)).containsExactly("COD-011");
        assertThat(rules(Optional.of("B"), region(BOTH), structure(TOOTH_26, RIGHT), structure(TOOTH_16, LEFT)))
                .containsExactly("COD-015", "COD-015");
    }
}
