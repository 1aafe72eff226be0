package vestibule.validator.rules;

import java.io.IOException;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Element;
import vestibule.dicom.data.Tag;
import vestibule.validator.Check;
import vestibule.validator.Findings;
import vestibule.validator.Location;
import vestibule.validator.Rule;
import vestibule.validator.Severity;
import vestibule.validator.Subject;
import vestibule.validator.iod.Values;

/** Private attributes: whose they are, and that they are there at all (PS3.5 7.8). */
final class PrivateCheck implements Check {

    private static final Set<Integer> FORBIDDEN_GROUPS = Set.of(0x0001, 0x0003, 0x0005, 0x0007, 0xFFFF);

    private static final Rule THERE = Rule.of(
            "MOD-013",
            Severity.NOTE,
            "PS3.5 7.8",
            "Private attributes are known to their creator only.",
            "{count} private attributes are there, in groups {groups}; their values were not checked",
            "Nothing need be done; see that they hold nothing that identifies a person before the object leaves the house.");
    private static final Rule NO_CREATOR = Rule.of(
            "VAL-040",
            Severity.ERROR,
            "PS3.5 7.8.1",
            "A private attribute belongs to a block that a private creator element of the same data set reserves.",
            "{element} is in block {block}, which no private creator reserves",
            "Add the private creator or take the attribute out.");
    private static final Rule FORBIDDEN = Rule.of(
            "VAL-041",
            Severity.ERROR,
            "PS3.5 7.8",
            "Private attributes have odd group numbers other than 0001, 0003, 0005, 0007 and FFFF, and elements from 0010.",
            "{element} is no number that a private attribute may have",
            "Give it another number or take it out.");

    @Override
    public List<Rule> rules() {
        return List.of(THERE, NO_CREATOR, FORBIDDEN);
    }

    @Override
    public void run(Subject subject, Findings findings) throws IOException {
        Set<String> groups = new TreeSet<>();
        int[] count = {0};
        Elements.visit(subject.dataSet(), Location.OBJECT, (element, holder, where) -> {
            Tag tag = element.tag();
            if (tag.isPrivate() && !tag.isGroupLength()) {
                count[0]++;
                groups.add("%04X".formatted(tag.group()));
                check(element, holder, where, findings);
            }
        });
        if (count[0] > 0) {
            findings.report(
                    THERE, Location.OBJECT, "count", Integer.toString(count[0]), "groups", String.join(", ", groups));
        }
    }

    private static void check(Element element, DataSet holder, Location where, Findings findings) {
        Tag tag = element.tag();
        if (FORBIDDEN_GROUPS.contains(tag.group()) || tag.element() < 0x0010) {
            findings.report(FORBIDDEN, Elements.place(where, element), "element", tag.toString());
            return;
        }
        int block = tag.element() >>> 8;
        if (block == 0) {
            return;
        }
        Optional<Element> creator = holder.find(Tag.of(tag.group(), block));
        if (block < 0x10 || creator.filter(Values::isFilled).isEmpty()) {
            findings.report(
                    NO_CREATOR,
                    Elements.place(where, element),
                    "element",
                    tag.toString(),
                    "block",
                    "%02X".formatted(block));
        }
    }
}
