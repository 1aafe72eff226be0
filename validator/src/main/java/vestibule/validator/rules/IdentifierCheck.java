package vestibule.validator.rules;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import vestibule.dicom.data.Attribute;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.dict.Dictionary;
import vestibule.validator.Check;
import vestibule.validator.Findings;
import vestibule.validator.Location;
import vestibule.validator.Rule;
import vestibule.validator.Severity;
import vestibule.validator.Subject;

/** Whether the unique identifiers of one object name different things (PS3.5 9). */
final class IdentifierCheck implements Check {

    private static final Rule ONE_THING = Rule.of(
            "VAL-022",
            Severity.ERROR,
            "PS3.5 9",
            "A unique identifier names one thing.",
            "{attribute} is the same identifier as {other}",
            "Give study, series, object and frame of reference an identifier each.");

    private static final List<Attribute> THINGS = List.of(
            Attributes.SOP_CLASS_UID,
            Attributes.SOP_INSTANCE_UID,
            Attributes.STUDY_INSTANCE_UID,
            Attributes.SERIES_INSTANCE_UID,
            Dictionary.standard().find("FrameOfReferenceUID").orElseThrow().attribute(),
            Dictionary.standard().find("DeviceUID").orElseThrow().attribute());

    @Override
    public List<Rule> rules() {
        return List.of(ONE_THING);
    }

    @Override
    public void run(Subject subject, Findings findings) {
        Map<String, Attribute> known = new HashMap<>();
        for (Attribute attribute : THINGS) {
            Optional<String> uid = subject.dataSet().text(attribute).filter(text -> !text.isBlank());
            Attribute before =
                    uid.map(text -> known.putIfAbsent(text, attribute)).orElse(null);
            if (before != null) {
                findings.report(
                        ONE_THING, Location.of(attribute), "attribute", attribute.keyword(), "other", before.keyword());
            }
        }
    }
}
