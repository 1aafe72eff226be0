package vestibule.validator.rules;

import java.io.IOException;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import vestibule.dicom.data.Element;
import vestibule.dicom.data.VR;
import vestibule.dicom.dict.Dictionary;
import vestibule.dicom.dict.Dictionary.AttributeEntry;
import vestibule.validator.Check;
import vestibule.validator.Findings;
import vestibule.validator.Location;
import vestibule.validator.Rule;
import vestibule.validator.Severity;
import vestibule.validator.Subject;

/** Representation and multiplicity against the dictionary (PS3.5 6.2, 6.4; PS3.6 6). */
final class RepresentationCheck implements Check {

    private static final Rule OTHER_VR = Rule.of(
            "VAL-010",
            Severity.ERROR,
            "PS3.6 6",
            "An attribute is written under the Value Representation of the dictionary.",
            "{attribute} is written as {found}, and the dictionary has {expected}",
            "Write it under the representation of the dictionary.");
    private static final Rule UNKNOWN_VR = Rule.of(
            "VAL-011",
            Severity.WARNING,
            "PS3.5 6.2.2",
            "UN is for attributes whose Value Representation the writer does not know.",
            "{attribute} is written as UN, and the dictionary has {expected}",
            "Write it under the representation of the dictionary; many readers show nothing for UN.");
    private static final Rule MULTIPLICITY = Rule.of(
            "VAL-012",
            Severity.ERROR,
            "PS3.5 6.4",
            "An attribute has as many values as the dictionary allows.",
            "{attribute} has {count} values, and the dictionary allows {allowed}",
            "Keep the values that are meant; a backslash in text parts values.");
    private static final Rule NOT_IN_DICTIONARY = Rule.of(
            "VAL-013",
            Severity.WARNING,
            "PS3.6 6",
            "An attribute of an even group is in the dictionary.",
            "{attribute} is not in the dictionary of this program",
            "Take it out, or see whether a later edition has it; others may not define attributes of even groups.");
    private static final Rule RETIRED = Rule.of(
            "VAL-014",
            Severity.NOTE,
            "PS3.6 6",
            "An attribute is not retired.",
            "{attribute} is retired",
            "Use what has taken its place; the old one may stay for old readers.");

    @Override
    public List<Rule> rules() {
        return List.of(OTHER_VR, UNKNOWN_VR, MULTIPLICITY, NOT_IN_DICTIONARY, RETIRED);
    }

    @Override
    public void run(Subject subject, Findings findings) throws IOException {
        Elements.visit(subject, (element, holder, where) -> check(element, where, findings));
    }

    private static void check(Element element, Location where, Findings findings) {
        if (element.tag().isPrivate() || element.tag().isGroupLength()) {
            return;
        }
        Optional<AttributeEntry> entry = Dictionary.standard().find(element.tag());
        Location place = Elements.place(where, element);
        if (entry.isEmpty()) {
            if (element.tag().group() > 0x0002) {
                findings.report(NOT_IN_DICTIONARY, place, "attribute", Elements.name(element.tag()));
            }
            return;
        }
        if (entry.get().retired()) {
            findings.report(RETIRED, place, "attribute", Elements.name(element.tag()));
        }
        if (checkRepresentation(element, entry.get(), place, findings)) {
            checkMultiplicity(element, entry.get(), place, findings);
        }
    }

    /** Whether the representation is one of the dictionary's. */
    private static boolean checkRepresentation(
            Element element, AttributeEntry entry, Location place, Findings findings) {
        String written = element.encoded() == null
                ? element.vr().name()
                : element.encoded().vr();
        boolean implied = written.isEmpty();
        if (implied || entry.representations().stream().anyMatch(vr -> vr.name().equals(written))) {
            return true;
        }
        if (VR.parse(written).isPresent()) {
            String expected = entry.representations().stream().map(VR::name).collect(Collectors.joining(" or "));
            findings.report(
                    written.equals("UN") ? UNKNOWN_VR : OTHER_VR,
                    place,
                    "attribute",
                    entry.attribute().keyword(),
                    "found",
                    written,
                    "expected",
                    expected);
        }
        return false;
    }

    private static void checkMultiplicity(Element element, AttributeEntry entry, Location place, Findings findings) {
        int count = element.value().count();
        boolean counted = element.vr().kind() != VR.Kind.BINARY && element.vr().kind() != VR.Kind.SEQUENCE;
        if (counted && count > 0 && !entry.attribute().multiplicity().allows(count)) {
            findings.report(
                    MULTIPLICITY,
                    place,
                    "attribute",
                    entry.attribute().keyword(),
                    "count",
                    Integer.toString(count),
                    "allowed",
                    entry.attribute().multiplicity().toString());
        }
    }
}
