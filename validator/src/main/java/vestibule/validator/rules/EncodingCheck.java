package vestibule.validator.rules;

import java.io.IOException;
import java.util.List;
import java.util.Optional;
import vestibule.dicom.data.Element;
import vestibule.dicom.data.Tag;
import vestibule.dicom.data.VR;
import vestibule.dicom.io.DicomFile;
import vestibule.dicom.io.ReadNote;
import vestibule.validator.Check;
import vestibule.validator.Findings;
import vestibule.validator.Location;
import vestibule.validator.Rule;
import vestibule.validator.Severity;
import vestibule.validator.Subject;

/** How elements stand in the file: order, lengths, padding (PS3.5 6.2, 7.1). */
final class EncodingCheck implements Check {

    private static final String AGAIN = "Write the object again with a writer that keeps PS3.5.";

    private static final Rule ODD_LENGTH = Rule.of(
            "VAL-001",
            Severity.ERROR,
            "PS3.5 7.1.1",
            "Every value has an even length.",
            "{element} has a value of odd length",
            AGAIN);
    private static final Rule ORDER = Rule.of(
            "VAL-002",
            Severity.ERROR,
            "PS3.5 7.1",
            "Elements stand in ascending order of their tags.",
            "{detail}",
            AGAIN);
    private static final Rule TWICE = Rule.of(
            "VAL-003",
            Severity.ERROR,
            "PS3.5 7.1",
            "An element stands in a data set at most once.",
            "{element} comes twice; the first was read",
            "Take out the one that is not meant; readers differ in which they believe.");
    private static final Rule NO_REPRESENTATION = Rule.of(
            "VAL-004",
            Severity.ERROR,
            "PS3.5 6.2",
            "Every element of an Explicit VR data set names a Value Representation of the standard.",
            "{detail}",
            AGAIN);
    private static final Rule RAGGED = Rule.of(
            "VAL-005",
            Severity.ERROR,
            "PS3.5 6.2",
            "The length of binary numbers is a multiple of the size of one.",
            "{detail}",
            AGAIN);
    private static final Rule PADDING = Rule.of(
            "VAL-006",
            Severity.ERROR,
            "PS3.5 6.2",
            "A value is padded with a space, a unique identifier with one NUL.",
            "{element} is padded with {found}, and {vr} is padded with {expected}",
            AGAIN);
    private static final Rule GROUP_LENGTH = Rule.of(
            "VAL-007",
            Severity.NOTE,
            "PS3.5 7.2",
            "Group lengths are written in groups 0000 and 0002 only; elsewhere they are retired.",
            "the group length {element} is there",
            "Nothing need be done; writers of today leave it out.");

    @Override
    public List<Rule> rules() {
        return List.of(ODD_LENGTH, ORDER, TWICE, NO_REPRESENTATION, RAGGED, PADDING, GROUP_LENGTH);
    }

    @Override
    public void run(Subject subject, Findings findings) throws IOException {
        subject.file().ifPresent(file -> checkNotes(file, findings));
        Elements.visit(subject, (element, holder, where) -> {
            checkPadding(element, where, findings);
            if (element.tag().isGroupLength() && element.tag().group() > 0x0002) {
                findings.report(
                        GROUP_LENGTH,
                        Elements.place(where, element),
                        "element",
                        element.tag().toString());
            }
        });
    }

    private static void checkNotes(DicomFile file, Findings findings) {
        for (ReadNote note : file.notes()) {
            Rule rule = switch (note.kind()) {
                case ODD_LENGTH -> ODD_LENGTH;
                case ORDER -> ORDER;
                case TWICE -> TWICE;
                case UNKNOWN_VR -> NO_REPRESENTATION;
                case RAGGED_NUMBERS -> RAGGED;
                default -> null;
            };
            if (rule != null) {
                Optional<Tag> tag = tag(note);
                Location where = tag.map(Location.OBJECT::at).orElse(Location.OBJECT);
                findings.report(
                        rule,
                        where.atByte(note.offset()),
                        "element",
                        tag.map(Elements::name).orElse("an element"),
                        "detail",
                        note.detail());
            }
        }
    }

    /** Notes start with the tag they are about. */
    private static Optional<Tag> tag(ReadNote note) {
        String detail = note.detail();
        return detail.length() < 11 ? Optional.empty() : Tag.parse(detail.substring(0, 11));
    }

    private static void checkPadding(Element element, Location where, Findings findings) throws IOException {
        if (element.encoded() == null || element.vr().kind() != VR.Kind.TEXT) {
            return;
        }
        long length = element.encoded().bytes().length();
        if (length == 0) {
            return;
        }
        byte last = element.encoded().bytes().part(length - 1, 1).bytes(1)[0];
        boolean identifier = element.vr() == VR.UI;
        if ((identifier && last == ' ') || (!identifier && last == 0)) {
            findings.report(
                    PADDING,
                    Elements.place(where, element),
                    "element",
                    Elements.name(element.tag()),
                    "found",
                    identifier ? "a space" : "NUL",
                    "vr",
                    element.vr().name(),
                    "expected",
                    identifier ? "NUL" : "spaces");
        }
    }
}
