package vestibule.validator.iod;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;
import vestibule.dicom.data.Attribute;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.dict.Dictionary;
import vestibule.validator.Finding;
import vestibule.validator.Location;
import vestibule.validator.Photographs;
import vestibule.validator.Validator;

@DisplayName("PS3.5 7.4: each attribute that a mandatory module requires")
class RequiredAttributesTest {

    @TestFactory
    @DisplayName("is missed when it is not there, and at no other place")
    Stream<DynamicTest> missing() {
        return required(false)
                .map(attribute -> DynamicTest.dynamicTest(
                        attribute.toString(),
                        () -> assertThat(newErrors(Photographs.good().toBuilder()
                                        .remove(attribute)
                                        .build()))
                                .contains(Location.OBJECT.at(attribute.tag()))));
    }

    @TestFactory
    @DisplayName("is missed when type 1 wants a value and there is none")
    Stream<DynamicTest> empty() {
        return required(true)
                .map(attribute -> DynamicTest.dynamicTest(
                        attribute.toString(),
                        () -> assertThat(newErrors(Photographs.good().toBuilder()
                                        .putEmpty(attribute)
                                        .build()))
                                .contains(Location.OBJECT.at(attribute.tag()))));
    }

    private static Stream<Attribute> required(boolean withValue) {
        return ObjectTable.photographs().root().nodes().stream()
                .filter(node -> node.statements().stream()
                        .anyMatch(statement -> statement.module().isMandatory()
                                && !statement.type().isConditional()
                                && statement.type().needsPresence()
                                && (!withValue || statement.type().needsValue())))
                .map(Level.Node::tag)
                .map(tag -> Dictionary.standard().find(tag).orElseThrow().attribute());
    }

    private static List<Location> newErrors(DataSet changed) throws IOException {
        return Validator.standard().validate(changed, Photographs.SYNTAX).errors().stream()
                .map(Finding::where)
                .toList();
    }
}
