package vestibule.dicom.data;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import vestibule.dicom.dict.Attributes;

@DisplayName("Data sets (PS3.5 7.1)")
class DataSetTest {

    private final DataSet dataSet = DataSet.builder()
            .put(Attributes.PATIENT_ID, " P1 ", "second")
            .put(Attributes.MODALITY, "XC")
            .put(Attributes.ROWS, 480L)
            .put(Attributes.INSTANCE_NUMBER, "+12")
            .putEmpty(Attributes.PATIENT_BIRTH_DATE)
            .put(Attributes.ANATOMIC_REGION_SEQUENCE, List.of(DataSet.EMPTY))
            .build();

    @Test
    @DisplayName("keep their elements in ascending order of tags")
    void ordered() {
        assertThat(dataSet.stream().map(Element::tag)).isSorted().hasSize(6);
    }

    @Test
    @DisplayName("tell absent from empty from valued")
    void presence() {
        assertThat(dataSet.contains(Attributes.PATIENT_BIRTH_DATE)).isTrue();
        assertThat(dataSet.hasValue(Attributes.PATIENT_BIRTH_DATE)).isFalse();
        assertThat(dataSet.contains(Attributes.PATIENT_NAME)).isFalse();
        assertThat(dataSet.hasValue(Attributes.PATIENT_ID)).isTrue();
    }

    @Test
    @DisplayName("give values by attribute, of the kind that is asked for")
    void values() {
        assertThat(dataSet.text(Attributes.PATIENT_ID)).contains("P1");
        assertThat(dataSet.texts(Attributes.PATIENT_ID)).containsExactly(" P1 ", "second");
        assertThat(dataSet.integer(Attributes.ROWS)).contains(480L);
        assertThat(dataSet.integer(Attributes.INSTANCE_NUMBER)).contains(12L);
        assertThat(dataSet.integer(Attributes.MODALITY)).isEmpty();
        assertThat(dataSet.texts(Attributes.ROWS)).isEmpty();
        assertThat(dataSet.items(Attributes.ANATOMIC_REGION_SEQUENCE)).containsExactly(DataSet.EMPTY);
    }

    @Test
    @DisplayName("are built without change to the one they start from")
    void immutable() {
        DataSet changed = dataSet.toBuilder()
                .remove(Attributes.MODALITY)
                .putIfKnown(Attributes.PATIENT_SEX, Optional.empty())
                .putOrEmpty(Attributes.STUDY_ID, Optional.empty())
                .put(Attributes.ROWS, 1L)
                .build();
        assertThat(dataSet.text(Attributes.MODALITY)).contains("XC");
        assertThat(dataSet.integer(Attributes.ROWS)).contains(480L);
        assertThat(changed.contains(Attributes.MODALITY)).isFalse();
        assertThat(changed.contains(Attributes.PATIENT_SEX)).isFalse();
        assertThat(changed.contains(Attributes.STUDY_ID)).isTrue();
        assertThat(changed.toBuilder()
                        .putAll(dataSet)
                        .remove(Attributes.STUDY_ID)
                        .build())
                .isEqualTo(dataSet);
        assertThatThrownBy(() -> dataSet.elements().remove(0)).isInstanceOf(UnsupportedOperationException.class);
    }

    @Test
    @DisplayName("take no value of another kind than the attribute's representation")
    void kinds() {
        assertThatThrownBy(() -> DataSet.builder().put(Attributes.ROWS, "480")).hasMessageContaining("US");
        assertThatThrownBy(() -> DataSet.builder().put(Attributes.MODALITY, 1L)).hasMessageContaining("CS");
        assertThatThrownBy(() -> DataSet.builder().put(Attributes.MODALITY, List.of()))
                .hasMessageContaining("CS");
    }

    @Test
    @DisplayName("do not print values, which may name a patient")
    void prints() {
        assertThat(dataSet.toString()).doesNotContain("P1");
    }

    @Test
    @DisplayName("count values as value multiplicity does (PS3.5 6.4)")
    void count() {
        assertThat(dataSet.find(Attributes.PATIENT_ID).orElseThrow().value().count())
                .isEqualTo(2);
        assertThat(dataSet.find(Attributes.ANATOMIC_REGION_SEQUENCE)
                        .orElseThrow()
                        .value()
                        .count())
                .isEqualTo(1);
        assertThat(dataSet.find(Attributes.PATIENT_BIRTH_DATE)
                        .orElseThrow()
                        .value()
                        .count())
                .isZero();
    }

    @Test
    @DisplayName("hold codes that are the same concept whatever the words (PS3.3 8.3)")
    void codes() {
        Code tooth = new Code("245601001", "SCT", "Permanent upper right central incisor");
        assertThat(tooth.sameConcept(new Code("245601001", "SCT", "11"))).isTrue();
        assertThat(tooth.sameConcept(new Code("245601001", "SRT", "11"))).isFalse();
    }
}
