package vestibule.validator.iod;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.dict.Dictionary;
import vestibule.dicom.io.TransferSyntax;
import vestibule.validator.StreamDepth;
import vestibule.validator.Subject;

@DisplayName("The language of conditions")
class ConditionTest {

    private static final DataSet ITEM = DataSet.builder()
            .put(Attributes.CODE_VALUE, "661005")
            .putEmpty(Attributes.CODE_MEANING)
            .build();
    private static final DataSet ROOT = DataSet.builder()
            .put(Attributes.IMAGE_TYPE, "ORIGINAL", "PRIMARY", "STEREO L")
            .put(Attributes.SAMPLES_PER_PIXEL, 3)
            .putEmpty(Attributes.PATIENT_ID)
            .put(Attributes.ANATOMIC_REGION_SEQUENCE, List.of(ITEM))
            .build();

    private static Truth ask(String condition, boolean inItem) {
        Subject subject = Subject.of(ROOT, TransferSyntax.JPEG_BASELINE, Instant.EPOCH, StreamDepth.MARKERS);
        Scope root = Scope.of(subject);
        OutsideKnowledge nothing = new OutsideKnowledge(words -> false, ROOT);
        return ConditionParser.parse(condition).test(inItem ? root.item(ITEM) : root, nothing);
    }

    @ParameterizedTest(name = "{0} is {1}")
    @CsvSource(delimiter = ';', quoteCharacter = '"', textBlock = """
                    true; TRUE
                    present(PatientID); TRUE
                    absent(PatientID); FALSE
                    hasValue(PatientID); FALSE
                    empty(PatientID); TRUE
                    empty(PatientName); TRUE
                    !present(PatientID); FALSE
                    ImageType[3] == 'STEREO L'; TRUE
                    ImageType[1] in ('STEREO L','STEREO R'); FALSE
                    ImageType[4] == 'STEREO L'; FALSE
                    ImageType == 'PRIMARY'; TRUE
                    SamplesPerPixel > 1; TRUE
                    Rows > 1; UNKNOWN
                    AnatomicRegionSequence//CodeValue == '661005'; TRUE
                    transferSyntax in ('1.2.840.10008.1.2.4.50','1.2.3'); TRUE
                    transferSyntax in ('1.2.3'); FALSE
                    ext('the moon is full'); UNKNOWN
                    ext('the moon is full') && absent(PatientID); FALSE
                    ext('the moon is full') && present(PatientID); UNKNOWN
                    ext('the moon is full') || present(PatientID); TRUE
                    absent(PatientID) || present(ImageType) && present(Rows); FALSE
                    (present(PatientID) || absent(ImageType)) && absent(Rows); TRUE
                    """)
    void inTheOutermostDataSet(String condition, Truth expected) {
        assertThat(ask(condition, false)).isEqualTo(expected);
    }

    @ParameterizedTest(name = "{0} is {1}")
    @CsvSource(delimiter = ';', quoteCharacter = '"', textBlock = """
                    present(CodeValue); TRUE
                    present(/CodeValue); FALSE
                    present(/ImageType); TRUE
                    ../ImageType == 'PRIMARY'; TRUE
                    present(../PatientName); FALSE
                    """)
    void inAnItem(String condition, Truth expected) {
        assertThat(ask(condition, true)).isEqualTo(expected);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = ';',
            quoteCharacter = '"',
            value = {"present(NoSuchKeyword)", "present(PatientID", "PatientID ==", "PatientID = 'x'", "true false", "§"
            })
    void whatIsNotInTheLanguageStopsTheProgram(String condition) {
        assertThatThrownBy(() -> ConditionParser.parse(condition)).isInstanceOf(IllegalArgumentException.class);
    }

    @Test
    @DisplayName("the tables name attributes as the dictionary does, with its representation and multiplicity")
    void tablesAgreeWithTheDictionary() throws IOException {
        List<String> differing = TableText.read(ObjectTable.class, "attributes.tsv", 15).rows().stream()
                .filter(row -> Dictionary.standard()
                        .find(row.get(2))
                        .filter(entry -> entry.representations().stream()
                                        .anyMatch(vr -> row.get(3).contains(vr.name()))
                                && row.get(1)
                                        .toLowerCase(java.util.Locale.ROOT)
                                        .endsWith(
                                                row.get(1).contains("xx")
                                                        ? "%04x"
                                                                .formatted(entry.attribute()
                                                                        .tag()
                                                                        .element())
                                                        : "%08x"
                                                                .formatted(entry.attribute()
                                                                        .tag()
                                                                        .value())))
                        .isEmpty())
                .map(row -> row.get(0) + " " + row.get(2))
                .toList();
        assertThat(differing).isEmpty();
    }
}
