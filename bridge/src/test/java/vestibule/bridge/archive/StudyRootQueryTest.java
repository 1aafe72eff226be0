package vestibule.bridge.archive;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.dict.Attributes;

@DisplayName("Study Root queries of the embedded archive (PS3.4 C.4.1, C.6.2)")
class StudyRootQueryTest {

    private static final List<DataSet> OBJECTS = List.of(
            object("1.1", "1.1.1", "1.1.1.1", "Lind^Ada", "20260301", "XC"),
            object("1.1", "1.1.1", "1.1.1.2", "Lind^Ada", "20260301", "XC"),
            object("1.1", "1.1.2", "1.1.2.1", "Lind^Ada", "20260301", "IO"),
            object("1.2", "1.2.1", "1.2.1.1", "Ånger^Bo", "20260415", "XC"));

    private static DataSet object(
            String study, String series, String instance, String name, String date, String modality) {
        return DataSet.builder()
                .put(Attributes.STUDY_INSTANCE_UID, study)
                .put(Attributes.SERIES_INSTANCE_UID, series)
                .put(Attributes.SOP_INSTANCE_UID, instance)
                .put(Attributes.PATIENT_NAME, name)
                .put(Attributes.STUDY_DATE, date)
                .put(Attributes.MODALITY, modality)
                .build();
    }

    private static DataSet.Builder level(String level) {
        return DataSet.builder().put(Attributes.QUERY_RETRIEVE_LEVEL, level);
    }

    @Test
    @DisplayName("at STUDY level count series, instances and modalities of each study")
    void studyLevel() throws QueryException {
        List<DataSet> answers = StudyRootQuery.answers(
                level("STUDY")
                        .putEmpty(Attributes.STUDY_INSTANCE_UID)
                        .putEmpty(Attributes.MODALITIES_IN_STUDY)
                        .putEmpty(Attributes.NUMBER_OF_STUDY_RELATED_SERIES)
                        .putEmpty(Attributes.NUMBER_OF_STUDY_RELATED_INSTANCES)
                        .build(),
                OBJECTS);
        assertThat(answers).hasSize(2);
        assertThat(answers.get(0).texts(Attributes.MODALITIES_IN_STUDY)).containsExactly("IO", "XC");
        assertThat(answers.get(0).integer(Attributes.NUMBER_OF_STUDY_RELATED_SERIES))
                .contains(2L);
        assertThat(answers.get(0).integer(Attributes.NUMBER_OF_STUDY_RELATED_INSTANCES))
                .contains(3L);
    }

    @ParameterizedTest(name = "{0}={1}: {2}")
    @DisplayName("match single values, wild cards, ranges and names of any case (PS3.4 C.2.2.2)")
    @CsvSource({
        "PatientName, Lind^Ada, 1",
        "PatientName, lind*, 1",
        "PatientName, '*', 2",
        "PatientName, ånger^b?, 1",
        "PatientName, Lin, 0",
        "StudyDate, 20260301, 1",
        "StudyDate, 20260301-20260401, 1",
        "StudyDate, 20260301-, 2",
        "StudyDate, -20260302, 1",
        "StudyDate, 20270101-, 0",
        "StudyInstanceUID, 1.2, 1",
        "ModalitiesInStudy, IO, 1",
        "ModalitiesInStudy, XC, 2",
    })
    void matching(String keyword, String wanted, int count) throws QueryException {
        DataSet identifier = level("STUDY")
                .put(
                        vestibule.dicom.dict.Dictionary.standard()
                                .find(keyword)
                                .orElseThrow()
                                .attribute(),
                        wanted)
                .build();
        assertThat(StudyRootQuery.answers(identifier, OBJECTS)).hasSize(count);
    }

    @Test
    @DisplayName("at IMAGE level need the study and the series, and return what is asked, empty where it is not there")
    void imageLevel() throws QueryException {
        DataSet identifier = level("IMAGE")
                .put(Attributes.STUDY_INSTANCE_UID, "1.1")
                .put(Attributes.SERIES_INSTANCE_UID, "1.1.1")
                .putEmpty(Attributes.SOP_INSTANCE_UID)
                .putEmpty(Attributes.IMAGE_LATERALITY)
                .build();
        List<DataSet> answers = StudyRootQuery.answers(identifier, OBJECTS);
        assertThat(answers)
                .extracting(answer -> answer.text(Attributes.SOP_INSTANCE_UID).orElseThrow())
                .containsExactly("1.1.1.1", "1.1.1.2");
        assertThat(answers.get(0).contains(Attributes.IMAGE_LATERALITY)).isTrue();
        assertThat(answers.get(0).hasValue(Attributes.IMAGE_LATERALITY)).isFalse();
        assertThatThrownBy(() -> StudyRootQuery.answers(
                        level("IMAGE").put(Attributes.STUDY_INSTANCE_UID, "1.1").build(), OBJECTS))
                .isInstanceOf(QueryException.class)
                .hasMessageContaining("SeriesInstanceUID");
    }

    @Test
    @DisplayName("refuse a level that the model does not have")
    void unknownLevel() {
        assertThatThrownBy(() -> StudyRootQuery.answers(level("PATIENT").build(), OBJECTS))
                .isInstanceOf(QueryException.class);
        assertThatThrownBy(() -> StudyRootQuery.answers(DataSet.EMPTY, OBJECTS)).isInstanceOf(QueryException.class);
    }
}
