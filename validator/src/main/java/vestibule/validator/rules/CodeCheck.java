package vestibule.validator.rules;

import java.io.IOException;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Element;
import vestibule.dicom.data.Value;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.dict.Dictionary;
import vestibule.validator.Check;
import vestibule.validator.Findings;
import vestibule.validator.Location;
import vestibule.validator.Rule;
import vestibule.validator.Severity;
import vestibule.validator.Subject;

/** Every coded entry of an object: scheme, value, meaning, group (PS3.3 8; PS3.16). */
final class CodeCheck implements Check {

    private static final Set<String> RETIRED_SCHEMES = Set.of("SRT", "SNM3", "99SDM");

    private static final Pattern CONCEPT_IDENTIFIER = Pattern.compile("[1-9][0-9]{5,17}");

    private static final Rule RETIRED_SCHEME = Rule.of(
            "COD-001",
            Severity.WARNING,
            "PS3.16 8",
            "Codes are of a scheme that is in use.",
            "the code {value} is of the retired scheme {scheme}; {successor}",
            "Use the SNOMED CT code (scheme SCT).");
    private static final Rule OTHER_CODE = Rule.of(
                    "COD-002",
                    Severity.ERROR,
                    "PS3.3 8.3",
                    "The meaning is that of the code.",
                    "the code {code} means \"{expected}\", and the meaning beside it, \"{found}\", is that of {other}",
                    "Find out which of the two is meant; programs go by the code, people by the meaning.")
            .asJudgement();
    private static final Rule OTHER_WORDS = Rule.of(
            "COD-003",
            Severity.NOTE,
            "PS3.3 8.3",
            "The meaning is in the words of the standard.",
            "the code {code} means \"{expected}\", and beside it stands \"{found}\"",
            "Nothing need be done if the words say the same, as in another language.");
    private static final Rule CHECK_DIGIT = Rule.of(
            "COD-004",
            Severity.ERROR,
            "PS3.16 8",
            "A SNOMED CT code is a number of 6 to 18 digits whose last one checks the others.",
            "{value} is no SNOMED CT code: {problem}",
            "Copy the code again from its source.");
    private static final Rule OLDER_TOOTH = Rule.of(
            "COD-005",
            Severity.WARNING,
            "PS3.16 B",
            "A tooth is coded as in this edition.",
            "the code {code} stood for tooth {tooth} in older editions; now it is {successor}",
            "Use the code of this edition.");
    private static final Rule NOT_IN_GROUP = Rule.of(
            "COD-006",
            Severity.ERROR,
            "PS3.3 8.6",
            "A code whose Context Identifier names a group is in that group, or is said to extend it.",
            "the code {code} is not in context group {group} ({name}), which is named beside it",
            "Take the Context Identifier out, or set the extension flag if the group may be extended.");
    private static final Rule PRIVATE_SCHEME = Rule.of(
            "COD-007",
            Severity.NOTE,
            "PS3.3 8.2",
            "A coding scheme that is not registered is described in the object.",
            "the private scheme {scheme} is not described in the Coding Scheme Identification Sequence",
            "Describe it there, so that a reader can find out what its codes mean.");

    @Override
    public List<Rule> rules() {
        return List.of(RETIRED_SCHEME, OTHER_CODE, OTHER_WORDS, CHECK_DIGIT, OLDER_TOOTH, NOT_IN_GROUP, PRIVATE_SCHEME);
    }

    @Override
    public void run(Subject subject, Findings findings) throws IOException {
        if (!subject.isPhotograph()) {
            return;
        }
        Set<String> described = new java.util.HashSet<>();
        subject.dataSet()
                .items(Attributes.CODING_SCHEME_IDENTIFICATION_SEQUENCE)
                .forEach(item -> item.text(Attributes.CODING_SCHEME_DESIGNATOR).ifPresent(described::add));
        Elements.visit(subject.dataSet(), Location.OBJECT, (element, holder, where) -> {
            if (element.tag().equals(Attributes.CODING_SCHEME_IDENTIFICATION_SEQUENCE.tag())) {
                return;
            }
            if (element.value() instanceof Value.Items items) {
                for (int i = 0; i < items.all().size(); i++) {
                    check(items.all().get(i), place(element, where, i), described, findings);
                }
            }
        });
    }

    private static Location place(Element element, Location where, int index) {
        return where.at(element.tag()).item(index + 1);
    }

    private static void check(DataSet item, Location where, Set<String> described, Findings findings) {
        Optional<String> value = item.text(Attributes.CODE_VALUE);
        Optional<String> scheme = item.text(Attributes.CODING_SCHEME_DESIGNATOR);
        if (value.isEmpty() || scheme.isEmpty()) {
            return;
        }
        String code = scheme.get() + " " + value.get();
        Location at = where.at(Attributes.CODE_VALUE.tag());
        if (scheme.get().startsWith("99") && described.add(scheme.get())) {
            findings.report(
                    PRIVATE_SCHEME, where.at(Attributes.CODING_SCHEME_DESIGNATOR.tag()), "scheme", scheme.get());
        }
        if (RETIRED_SCHEMES.contains(scheme.get())) {
            reportRetired(value.get(), scheme.get(), at, findings);
        } else if (scheme.get().equals("SCT")) {
            checkSnomed(value.get(), at, findings);
        }
        checkMeaning(code, item, where, findings);
        checkGroup(code, item, where, findings);
    }

    private static void reportRetired(String value, String scheme, Location at, Findings findings) {
        String successor = CodeTable.standard()
                .successor("SRT " + value)
                .map(newer -> "the code of today is " + newer)
                .orElse("its successor is not in the tables");
        findings.report(RETIRED_SCHEME, at, "value", value, "scheme", scheme, "successor", successor);
    }

    private static void checkSnomed(String value, Location at, Findings findings) {
        if (!CONCEPT_IDENTIFIER.matcher(value).matches()) {
            findings.report(
                    CHECK_DIGIT,
                    at,
                    "value",
                    value,
                    "problem",
                    "it is not made of 6 to 18 digits without a leading zero");
        } else if (!Verhoeff.holds(value)) {
            findings.report(CHECK_DIGIT, at, "value", value, "problem", "its last digit does not check the others");
        }
        CodeTable.standard()
                .newerTooth("SCT " + value)
                .ifPresent(newer -> findings.report(
                        OLDER_TOOTH,
                        at,
                        "code",
                        "SCT " + value,
                        "tooth",
                        CodeTable.standard()
                                .tooth(newer)
                                .map(CodeTable.Tooth::number)
                                .orElse(""),
                        "successor",
                        newer));
    }

    private static void checkMeaning(String code, DataSet item, Location where, Findings findings) {
        Optional<String> found = item.text(Attributes.CODE_MEANING);
        Optional<String> expected = CodeTable.standard().meaning(code);
        if (found.isEmpty() || expected.isEmpty() || CodeTable.sameMeaning(found.get(), expected.get())) {
            return;
        }
        Location at = where.at(Attributes.CODE_MEANING.tag());
        Optional<String> other = CodeTable.standard().otherWithMeaning(code, found.get());
        findings.report(
                other.isPresent() ? OTHER_CODE : OTHER_WORDS,
                at,
                "code",
                code,
                "expected",
                expected.get(),
                "found",
                found.get(),
                "other",
                other.orElse(""));
    }

    private static void checkGroup(String code, DataSet item, Location where, Findings findings) {
        var identifier =
                Dictionary.standard().find("ContextIdentifier").orElseThrow().attribute();
        var flag = Dictionary.standard()
                .find("ContextGroupExtensionFlag")
                .orElseThrow()
                .attribute();
        Optional<String> number = item.text(identifier);
        Optional<CodeTable.Group> group = number.flatMap(CodeTable.standard()::group);
        boolean extended =
                group.isPresent() && group.get().extensible() && item.text(flag).equals(Optional.of("Y"));
        if (group.isPresent() && !extended && !CodeTable.standard().contains(number.get(), code)) {
            findings.report(
                    NOT_IN_GROUP,
                    where.at(identifier.tag()),
                    "code",
                    code,
                    "group",
                    number.get(),
                    "name",
                    group.get().name());
        }
    }
}
