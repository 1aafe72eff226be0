package vestibule.validator.iod;

import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Element;
import vestibule.dicom.data.Tag;
import vestibule.dicom.data.Value;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.dict.Dictionary;
import vestibule.validator.Check;
import vestibule.validator.Findings;
import vestibule.validator.Location;
import vestibule.validator.Rule;
import vestibule.validator.Subject;

/**
 * Holds an object against the module tables (PS3.3 A.32.4, C; PS3.5 7.4): presence, values, value lists, items. Objects of other kinds are
 * held against the modules that every object of a patient has.
 */
public final class ModuleCheck implements Check {

    private static final int FIRST_OVERLAY = 0x6000;
    private static final int LAST_OVERLAY = 0x601E;

    private final ObjectTable table = ObjectTable.photographs();

    public ModuleCheck() {}

    @Override
    public List<Rule> rules() {
        return ModuleRules.all();
    }

    @Override
    public void run(Subject subject, Findings findings) {
        OutsideKnowledge outside = new OutsideKnowledge(findings::assumesFalse, subject.dataSet());
        if (subject.isPhotograph()) {
            checkPhotograph(subject, outside, findings);
        } else {
            checkOther(subject, outside, findings);
        }
    }

    private void checkPhotograph(Subject subject, OutsideKnowledge outside, Findings findings) {
        DataSet dataSet = subject.dataSet();
        TableWalk walk = new TableWalk(table.used(dataSet), outside, findings);
        walk.walk(table.root(), Scope.of(subject), Location.OBJECT);
        TableWalk overlays = new TableWalk(overlayModule(), outside, findings);
        overlayGroups(dataSet).forEach(group -> overlays.walkOverlay(table.overlay(), group, Scope.of(subject)));
        noteExtended(table.root(), dataSet, Location.OBJECT, findings);
        if (walk.hasUndecided()) {
            findings.report(ModuleRules.UNDECIDED, Location.OBJECT, "attributes", walk.undecided());
        }
    }

    private void checkOther(Subject subject, OutsideKnowledge outside, Findings findings) {
        DataSet dataSet = subject.dataSet();
        String kind = subject.sopClass()
                .map(uid -> Dictionary.standard()
                        .find(uid)
                        .map(Dictionary.UidEntry::name)
                        .orElse("an object of a class that is not in the tables"))
                .orElse("an object without a class");
        // a DICOMDIR is of no patient (PS3.3 F.3)
        boolean ofPatient = dataSet.contains(Attributes.PATIENT_ID)
                || dataSet.contains(Attributes.STUDY_INSTANCE_UID)
                || subject.sopClass().isEmpty();
        findings.report(
                ModuleRules.ONLY_SO_FAR,
                Location.OBJECT,
                "class",
                kind,
                "checked",
                ofPatient
                        ? "its encoding, its Patient, General Study and SOP Common modules"
                        : "its encoding and the forms of its values");
        if (ofPatient) {
            Set<Module> common = new HashSet<>();
            table.module("patient").ifPresent(common::add);
            table.module("general-study").ifPresent(common::add);
            table.module("sop-common").ifPresent(common::add);
            table.module("code-sequence").ifPresent(common::add);
            new TableWalk(common, outside, findings).walk(table.root(), Scope.of(subject), Location.OBJECT);
        }
    }

    private Set<Module> overlayModule() {
        return table.module("overlay-plane").map(Set::of).orElse(Set.of());
    }

    private static List<Integer> overlayGroups(DataSet dataSet) {
        return dataSet.stream()
                .map(element -> element.tag().group())
                .filter(ModuleCheck::isOverlay)
                .distinct()
                .toList();
    }

    private static boolean isOverlay(int group) {
        return group >= FIRST_OVERLAY && group <= LAST_OVERLAY && (group & 1) == 0;
    }

    /** Attributes of the standard that no module of this object has; private ones are another check's. */
    private void noteExtended(Level level, DataSet dataSet, Location where, Findings findings) {
        for (Element element : dataSet) {
            Optional<Level.Node> node = known(level, element.tag());
            if (node.isEmpty()) {
                if (isStandard(element.tag())) {
                    findings.report(
                            ModuleRules.EXTENDED,
                            where.at(element.tag()),
                            "attribute",
                            TableWalk.keyword(element.tag()));
                }
            } else if (element.value() instanceof Value.Items items
                    && node.get().content().isPresent()) {
                Level content = node.get().content().get();
                for (int i = 0; i < items.all().size(); i++) {
                    noteExtended(
                            content, items.all().get(i), where.at(element.tag()).item(i + 1), findings);
                }
            }
        }
    }

    private Optional<Level.Node> known(Level level, Tag tag) {
        boolean overlay = level.equals(table.root()) && isOverlay(tag.group());
        return overlay ? table.overlay().find(Tag.of(FIRST_OVERLAY, tag.element())) : level.find(tag);
    }

    private static boolean isStandard(Tag tag) {
        return !tag.isPrivate()
                && !tag.isGroupLength()
                && tag.group() > 0x0002
                && Dictionary.standard().find(tag).isPresent();
    }
}
