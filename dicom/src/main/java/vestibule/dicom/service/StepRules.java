package vestibule.dicom.service;

import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Element;
import vestibule.dicom.data.Value;
import vestibule.dicom.dict.StepAttribute;

/** What must be there, and what may be changed, of a performed procedure step (PS3.4 Table F.7.2-1). Conditions are not looked at. */
final class StepRules {

    private StepRules() {}

    /** Attributes of type 1 with a value, those of type 2 with or without one. */
    static void checkCreation(DataSet attributes) throws RefusedException {
        check(StepAttribute.all(), attributes, StepAttribute::atCreation);
    }

    /** Nothing is set that only creation gives, and the items of what is set are whole. */
    static void checkChange(DataSet changes) throws RefusedException {
        for (StepAttribute attribute : StepAttribute.all()) {
            if (attribute.atChange().equals("no")
                    && changes.find(attribute.tag()).isPresent()) {
                // No status of the standard names this; an attribute N-SET does not have comes nearest.
                throw new RefusedException(
                        Status.NO_SUCH_ATTRIBUTE, attribute.keyword() + " is not changed after creation");
            }
        }
        check(StepAttribute.all(), changes, StepAttribute::atChange);
    }

    /** What a step must have once it is over. */
    static void checkEnd(DataSet step) throws RefusedException {
        check(StepAttribute.all(), step, StepAttribute::atEnd);
    }

    private static void check(List<StepAttribute> wanted, DataSet found, Function<StepAttribute, String> type)
            throws RefusedException {
        for (StepAttribute attribute : wanted) {
            Optional<Element> element = found.find(attribute.tag());
            boolean mustHaveValue = type.apply(attribute).equals("1");
            if (element.isEmpty() && (mustHaveValue || type.apply(attribute).equals("2"))) {
                throw new RefusedException(Status.MISSING_ATTRIBUTE, attribute.keyword() + " is missing");
            }
            if (element.isPresent() && mustHaveValue && isBlank(element.get())) {
                throw new RefusedException(Status.MISSING_ATTRIBUTE_VALUE, attribute.keyword() + " has no value");
            }
            if (element.isPresent() && element.get().value() instanceof Value.Items items) {
                for (DataSet item : items.all()) {
                    check(attribute.items(), item, type);
                }
            }
        }
    }

    private static boolean isBlank(Element element) {
        return element.isEmpty()
                || (element.value() instanceof Value.Texts texts
                        && texts.all().stream().allMatch(String::isBlank));
    }
}
