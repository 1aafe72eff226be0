package vestibule.validator.rules;

import java.io.IOException;
import java.util.List;
import java.util.Optional;
import vestibule.dicom.data.Element;
import vestibule.dicom.data.TextForm;
import vestibule.dicom.data.VR;
import vestibule.dicom.data.Value;
import vestibule.validator.Check;
import vestibule.validator.Findings;
import vestibule.validator.Location;
import vestibule.validator.Rule;
import vestibule.validator.Severity;
import vestibule.validator.Subject;

/** The form of text under its representation (PS3.5 6.2). The value itself is not repeated: it may name the patient. */
final class TextCheck implements Check {

    private static final Rule FORM = Rule.of(
            "VAL-020",
            Severity.ERROR,
            "PS3.5 6.2, Table 6.2-1",
            "Text has the form and length of its Value Representation.",
            "{attribute} {which}has {problem}",
            "Write the value in the form that its representation has.");
    private static final Rule ONLY_SPACES = Rule.of(
            "VAL-021",
            Severity.NOTE,
            "PS3.5 6.2",
            "A value that is not known is written with zero length.",
            "{attribute} holds nothing but spaces",
            "Write it with zero length.");

    @Override
    public List<Rule> rules() {
        return List.of(FORM, ONLY_SPACES);
    }

    @Override
    public void run(Subject subject, Findings findings) throws IOException {
        boolean undecoded = CharacterSetCheck.isBeyondTheReader(subject);
        Elements.visit(subject, (element, holder, where) -> {
            if (element.value() instanceof Value.Texts texts
                    && !(undecoded && element.vr().followsCharacterSet())) {
                check(element, texts.all(), where, findings);
            }
        });
    }

    private static void check(Element element, List<String> values, Location where, Findings findings) {
        if (values.size() == 1 && values.get(0).isEmpty()) {
            findings.report(ONLY_SPACES, Elements.place(where, element), "attribute", Elements.name(element.tag()));
        }
        for (int i = 0; i < values.size(); i++) {
            Optional<String> problem = problem(element.vr(), values.get(i));
            if (problem.isPresent()) {
                findings.report(
                        FORM,
                        Elements.place(where, element),
                        "attribute",
                        Elements.name(element.tag()),
                        "which",
                        values.size() == 1 ? "" : "in value %d ".formatted(i + 1),
                        "problem",
                        problem.get());
            }
        }
    }

    private static Optional<String> problem(VR vr, String value) {
        return value.isEmpty() ? Optional.empty() : TextForm.problem(vr, value);
    }
}
