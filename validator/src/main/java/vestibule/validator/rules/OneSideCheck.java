package vestibule.validator.rules;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import vestibule.dicom.data.Attribute;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.dict.Attributes;
import vestibule.validator.Check;
import vestibule.validator.Findings;
import vestibule.validator.Location;
import vestibule.validator.Rule;
import vestibule.validator.Severity;
import vestibule.validator.Subject;

/**
 * Whether region, structures and teeth agree about the side where Image Laterality names none: it need not be there (PS3.3 C.8.12.1, 10.5).
 * What it names, {@link SideCheck} compares with each of them. Several structures may lie on several sides; each lies where region and
 * series say.
 */
final class OneSideCheck implements Check {

    private static final Rule ONE_SIDE = Rule.of(
            "COD-015",
            Severity.ERROR,
            "PS3.3 C.8.12.1",
            "A region, its structures and their teeth are on one side, whether or not Image Laterality names it.",
            "{one} says {side}, and {other} says {otherside}",
            "Find out which side is shown; a wrong side can lead to a wrong treatment.");

    /** What something says of side: R, L, or B for both. */
    private record Said(String what, String side) {}

    @Override
    public List<Rule> rules() {
        return List.of(ONE_SIDE);
    }

    @Override
    public void run(Subject subject, Findings findings) {
        DataSet dataSet = subject.dataSet();
        String image = dataSet.text(Attributes.IMAGE_LATERALITY).orElse("");
        if (!subject.isPhotograph() || image.equals("R") || image.equals("L")) {
            return;
        }
        List<Said> ofAll = new ArrayList<>();
        if (image.isEmpty()) {
            dataSet.text(Attributes.LATERALITY).ifPresent(side -> ofAll.add(new Said("Laterality", side)));
        }
        dataSet.items(Attributes.ANATOMIC_REGION_SEQUENCE).stream()
                .findFirst()
                .flatMap(region -> modifier(region, Attributes.ANATOMIC_REGION_MODIFIER_SEQUENCE))
                .ifPresent(ofAll::add);
        ofAll.removeIf(said -> !isOneSide(said));
        compare(ofAll, Location.of(Attributes.ANATOMIC_REGION_SEQUENCE), findings);
        List<DataSet> structures = dataSet.items(Attributes.PRIMARY_ANATOMIC_STRUCTURE_SEQUENCE);
        for (int i = 0; i < structures.size(); i++) {
            List<Said> said = new ArrayList<>(ofAll.subList(0, Math.min(1, ofAll.size())));
            modifier(structures.get(i), Attributes.PRIMARY_ANATOMIC_STRUCTURE_MODIFIER_SEQUENCE)
                    .filter(OneSideCheck::isOneSide)
                    .ifPresent(said::add);
            tooth(structures.get(i)).ifPresent(said::add);
            compare(
                    said,
                    Location.of(Attributes.PRIMARY_ANATOMIC_STRUCTURE_SEQUENCE).item(i + 1),
                    findings);
        }
    }

    /** In what is on both sides anything may be shown. */
    private static boolean isOneSide(Said said) {
        return Set.of("R", "L").contains(said.side());
    }

    private static void compare(List<Said> said, Location where, Findings findings) {
        for (int i = 1; i < said.size(); i++) {
            Said one = said.get(i - 1);
            Said other = said.get(i);
            if (!one.side().equals(other.side())) {
                findings.report(
                        ONE_SIDE,
                        where,
                        "one",
                        one.what(),
                        "side",
                        one.side(),
                        "other",
                        other.what(),
                        "otherside",
                        other.side());
                return;
            }
        }
    }

    private static Optional<Said> modifier(DataSet item, Attribute modifiers) {
        Set<String> sides = new TreeSet<>();
        for (DataSet modifier : item.items(modifiers)) {
            Anatomy.side(modifier).ifPresent(sides::add);
        }
        if (sides.isEmpty()) {
            return Optional.empty();
        }
        return Optional.of(new Said(
                "a modifier in " + modifiers.keyword(),
                sides.size() == 1 ? sides.iterator().next() : "B"));
    }

    private static Optional<Said> tooth(DataSet item) {
        return CodeTable.standard()
                .tooth(Anatomy.code(item))
                .map(tooth -> new Said(
                        "tooth " + tooth.number(), tooth.side().substring(0, 1).toUpperCase(Locale.ROOT)));
    }
}
