package vestibule.validator.rules;

import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import vestibule.dicom.data.Attribute;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.dict.Dictionary;
import vestibule.validator.Check;
import vestibule.validator.Findings;
import vestibule.validator.Location;
import vestibule.validator.Rule;
import vestibule.validator.Severity;
import vestibule.validator.Subject;

/**
 * Whether the directions of row and column fit what is shown. In a picture that is not mirrored the camera looks along row × column (PS3.3
 * C.7.6.1.1.1, right-handed axes L, P, H), so a mirror picture that was never put right looks from inside the patient.
 */
final class DirectionCheck implements Check {

    private static final String ADVICE =
            "See whether it is a picture by mirror that was not put right, or whether a side, an arch or the direction is wrong.";

    private static final Rule SIDE = Rule.of(
                    "PHO-018",
                    Severity.WARNING,
                    "PS3.3 C.7.6.1.1.1",
                    "Both arches of a side are seen from that side.",
                    "ImageLaterality is {side}, and PatientOrientation \"{value}\" is a view from the other side",
                    ADVICE)
            .asJudgement();
    private static final Rule ARCH = Rule.of(
                    "PHO-019",
                    Severity.WARNING,
                    "PS3.3 C.7.6.1.1.1",
                    "The upper arch is seen from below and the lower arch from above.",
                    "what is coded lies in the {arch}, and PatientOrientation \"{value}\" is a view from the other side of it",
                    ADVICE)
            .asJudgement();
    private static final Rule BEHIND = Rule.of(
                    "PHO-020",
                    Severity.WARNING,
                    "PS3.3 C.7.6.1.1.1",
                    "Face and front teeth are seen from the front.",
                    "PatientOrientation \"{value}\" is a view from behind",
                    ADVICE)
            .asJudgement();
    private static final Rule REORIENTED = Rule.of(
            "PHO-021",
            Severity.ERROR,
            "PS3.3 C.12.4",
            "A picture that is its source turned or mirrored lies along the same axes of the patient.",
            "PatientOrientation is \"{value}\", and that of the source \"{source}\" lies along other axes",
            "Work the direction out from that of the source and the turn.");

    private static final Rule TURNED = Rule.of(
            "PHO-026",
            Severity.ERROR,
            "PS3.3 C.12.4",
            "A picture that is its source turned or mirrored lies as the turn that is stated makes it lie.",
            "PatientOrientation is \"{value}\", and after {correction} the source \"{source}\" lies \"{expected}\"",
            "Look at both pictures: the direction of one of them is wrong, or another turn was made. Do not use it until that is known.");

    /** What our own objects say of a turn that the camera noted and that was made besides the one that they name. */
    private static final String NOTED = "The camera noted";

    private static final String MAXILLA = "maxilla";
    private static final String MANDIBLE = "mandible";
    private static final Attribute PRESERVED = attribute("SpatialLocationsPreserved");

    private static Attribute attribute(String keyword) {
        return Dictionary.standard().find(keyword).orElseThrow().attribute();
    }

    @Override
    public List<Rule> rules() {
        return List.of(SIDE, ARCH, BEHIND, REORIENTED, TURNED);
    }

    @Override
    public void run(Subject subject, Findings findings) {
        DataSet dataSet = subject.dataSet();
        List<String> own = dataSet.texts(Attributes.PATIENT_ORIENTATION);
        if (!subject.isPhotograph() || !Facing.isUsable(own)) {
            return;
        }
        checkSources(dataSet, own, findings);
        // a picture that says it is as seen in the mirror is right in looking from inside
        if (!Taking.of(dataSet).isUncorrected()) {
            checkLook(dataSet, own, findings);
        }
    }

    private static void checkLook(DataSet dataSet, List<String> own, Findings findings) {
        char look = Facing.look(own);
        Location where = Location.of(Attributes.PATIENT_ORIENTATION);
        String value = String.join("\\", own);
        Optional<String> arch = arch(dataSet);
        String side = dataSet.text(Attributes.IMAGE_LATERALITY).orElse("");
        if (arch.isPresent()) {
            char wrong = arch.get().equals(MAXILLA) ? 'F' : 'H';
            if (look == wrong) {
                findings.report(ARCH, where, "arch", arch.get(), "value", value);
            }
        } else if (look == 'A' && Anatomy.isOfHead(dataSet)) {
            findings.report(BEHIND, where, "value", value);
        } else if (side.equals(Character.toString(look)) && Anatomy.isOfHead(dataSet)) {
            findings.report(SIDE, where, "side", side, "value", value);
        }
    }

    /** The jaw in which all that is coded lies; empty if it lies in both or nothing says so. Single arches are seen from inside too. */
    private static Optional<String> arch(DataSet dataSet) {
        Set<String> jaws = new HashSet<>();
        for (DataSet item : dataSet.items(Attributes.PRIMARY_ANATOMIC_STRUCTURE_SEQUENCE)) {
            Anatomy.jaw(item).ifPresent(jaws::add);
        }
        if (jaws.isEmpty()) {
            for (DataSet item : dataSet.items(Attributes.ANATOMIC_REGION_SEQUENCE)) {
                Anatomy.jaw(item).ifPresent(jaws::add);
            }
        }
        return jaws.size() == 1 ? jaws.stream().findFirst() : Optional.empty();
    }

    private static void checkSources(DataSet dataSet, List<String> own, Findings findings) {
        List<DataSet> sources = dataSet.items(Attributes.SOURCE_IMAGE_SEQUENCE);
        for (int i = 0; i < sources.size(); i++) {
            List<String> before = sources.get(i).texts(Attributes.PATIENT_ORIENTATION);
            boolean reoriented = sources.get(i).text(PRESERVED).equals(Optional.of("REORIENTED_ONLY"));
            if (!reoriented || !Facing.isUsable(before)) {
                continue;
            }
            Location where =
                    Location.of(Attributes.SOURCE_IMAGE_SEQUENCE).item(i + 1).at(Attributes.PATIENT_ORIENTATION.tag());
            if (axes(own).equals(axes(before))) {
                checkTurn(dataSet, own, before, where, findings);
            } else {
                findings.report(
                        REORIENTED, where, "value", String.join("\\", own), "source", String.join("\\", before));
            }
        }
    }

    private static Set<Integer> axes(List<String> directions) {
        return Set.of(Facing.axis(directions.get(0)), Facing.axis(directions.get(1)));
    }

    private static void checkTurn(
            DataSet dataSet, List<String> own, List<String> before, Location where, Findings findings) {
        String correction = Taking.of(dataSet).correction().orElse("");
        Optional<List<String>> expected = Facing.turned(before, correction);
        boolean noted =
                dataSet.text(Attributes.DERIVATION_DESCRIPTION).orElse("").contains(NOTED);
        if (expected.isPresent() && !noted && !Facing.same(own, expected.get())) {
            findings.report(
                    TURNED,
                    where,
                    "value",
                    String.join("\\", own),
                    "correction",
                    correction,
                    "source",
                    String.join("\\", before),
                    "expected",
                    String.join("\\", expected.get()));
        }
    }

    /** The jaw's name, for {@link Anatomy}. */
    static String jaw(boolean upper) {
        return upper ? MAXILLA : MANDIBLE;
    }
}
