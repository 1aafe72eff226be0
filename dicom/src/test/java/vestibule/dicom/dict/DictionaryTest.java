package vestibule.dicom.dict;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import java.lang.reflect.Field;
import java.util.Arrays;
import java.util.HashSet;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import vestibule.dicom.data.Attribute;
import vestibule.dicom.data.Tag;
import vestibule.dicom.data.Uid;
import vestibule.dicom.data.VR;
import vestibule.dicom.dict.Dictionary.AttributeEntry;

@DisplayName("The data dictionary (PS3.6)")
class DictionaryTest {

    private final Dictionary dictionary = Dictionary.standard();

    private static Stream<Field> constants(Class<?> type, Class<?> of) {
        return Arrays.stream(type.getFields()).filter(field -> field.getType() == of);
    }

    private static Object value(Field field) {
        try {
            return field.get(null);
        } catch (IllegalAccessException e) {
            throw new AssertionError(e);
        }
    }

    @TestFactory
    @DisplayName("has the row that each attribute constant stands for (PS3.6 6, PS3.7 E.1)")
    Stream<DynamicTest> attributes() {
        return constants(Attributes.class, Attribute.class)
                .map(field -> dynamicTest(field.getName(), () -> {
                    Attribute constant = (Attribute) value(field);
                    AttributeEntry row = dictionary.find(constant.tag()).orElseThrow();
                    assertThat(constant).isEqualTo(row.attribute());
                    assertThat(field.getName().replace("_", ""))
                            .isEqualToIgnoringCase(row.attribute().keyword());
                }));
    }

    @TestFactory
    @DisplayName("has the row that each identifier constant stands for (PS3.6 A)")
    Stream<DynamicTest> identifiers() {
        return constants(Uids.class, Uid.class)
                .map(field -> dynamicTest(field.getName(), () -> {
                    Dictionary.UidEntry row =
                            dictionary.find((Uid) value(field)).orElseThrow();
                    assertThat(field.getName().replace("_", "")).isEqualToIgnoringCase(row.keyword());
                }));
    }

    @Test
    @DisplayName("names no attribute twice, by constant or by keyword")
    void unique() {
        Set<Object> seen = new HashSet<>();
        assertThat(constants(Attributes.class, Attribute.class).map(DictionaryTest::value))
                .allMatch(seen::add);
        Set<String> keywords = new HashSet<>();
        assertThat(Table.read("attributes.tsv", 6).rows()).allMatch(row -> keywords.add(row[3]));
    }

    @Test
    @DisplayName("finds attributes by number and keyword")
    void find() {
        AttributeEntry name = dictionary.find("PatientName").orElseThrow();
        assertThat(name.attribute()).isEqualTo(Attributes.PATIENT_NAME);
        assertThat(name.name()).isEqualTo("Patient's Name");
        assertThat(name.retired()).isFalse();
        assertThat(dictionary.find(Tag.of(0x0008, 0x0001)).orElseThrow().retired())
                .isTrue();
        assertThat(dictionary.find(Tag.of(0x0008, 0x7777))).isEmpty();
        assertThat(dictionary.find("NoSuchKeyword")).isEmpty();
    }

    @Test
    @DisplayName("gives every representation where there are several (PS3.6 6)")
    void representations() {
        assertThat(dictionary.find(Attributes.PIXEL_DATA.tag()).orElseThrow().representations())
                .containsExactlyInAnyOrder(VR.OB, VR.OW);
        assertThat(dictionary.find(Tag.of(0x0028, 0x0106)).orElseThrow().representations())
                .containsExactly(VR.US, VR.SS);
    }

    @Test
    @DisplayName("finds repeating groups by any member (PS3.5 7.6)")
    void repeatingGroups() {
        assertThat(dictionary
                        .find(Tag.of(0x6000, 0x3000))
                        .orElseThrow()
                        .attribute()
                        .keyword())
                .isEqualTo("OverlayData");
        assertThat(dictionary
                        .find(Tag.of(0x601E, 0x3000))
                        .orElseThrow()
                        .attribute()
                        .keyword())
                .isEqualTo("OverlayData");
        assertThat(dictionary.find(Tag.of(0x5002, 0x3000)).orElseThrow().retired())
                .isTrue();
    }

    @Test
    @DisplayName("never finds a private attribute (PS3.5 7.8)")
    void privateAttributes() {
        assertThat(dictionary.find(Tag.of(0x0009, 0x0010))).isEmpty();
        assertThat(dictionary.find(Tag.of(0x6001, 0x3000))).isEmpty();
        assertThat(dictionary.find(Tag.of(0x5003, 0x3000))).isEmpty();
    }

    @Test
    @DisplayName("describes an attribute by number and keyword, an unknown one by number")
    void describe() {
        assertThat(dictionary.describe(Attributes.ROWS.tag())).isEqualTo("(0028,0010) Rows");
        assertThat(dictionary.describe(Tag.of(0x0009, 0x1001))).isEqualTo("(0009,1001)");
    }

    @Test
    @DisplayName("names its edition")
    void edition() {
        assertThat(dictionary.edition()).contains("2026b");
    }

    @Test
    @DisplayName("finds identifiers by value and keyword")
    void uids() {
        assertThat(dictionary
                        .findUid("VLPhotographicImageStorage")
                        .orElseThrow()
                        .uid())
                .isEqualTo(Uids.VL_PHOTOGRAPHIC_IMAGE_STORAGE);
        assertThat(dictionary.find(new Uid("1.2.3.4"))).isEmpty();
    }
}
