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
import vestibule.dicom.dict.Dictionary;
import vestibule.validator.Check;
import vestibule.validator.Findings;
import vestibule.validator.Location;
import vestibule.validator.Rule;
import vestibule.validator.Severity;
import vestibule.validator.Subject;
import vestibule.validator.iod.BodyParts;

/** Whether all that an object says of side, tooth and body part agrees (PS3.3 C.8.12.1, 10.5; PS3.16 Annex L). */
final class SideCheck implements Check {

    private static final Rule SIDES = Rule.of(
            "COD-010",
            Severity.ERROR,
            "PS3.3 C.8.12.1",
            "Where Image Laterality names a side or both, the modifiers of region and structure name the same.",
            "ImageLaterality is {image}, and a modifier of {sequence} says {modifier}",
            "Find out which side is shown, and say it in one way everywhere.");
    private static final Rule TOOTH = Rule.of(
            "COD-011",
            Severity.ERROR,
            "PS3.3 C.8.12.1",
            "A coded tooth is on the side that Image Laterality names.",
            "ImageLaterality is {image}, and tooth {tooth} is on the {side}",
            "Find out which side is shown; a wrong side can lead to a wrong treatment.");
    private static final Rule BODY_PART = Rule.of(
            "COD-012",
            Severity.NOTE,
            "PS3.16 L",
            "Body Part Examined is one of the terms of the standard.",
            "BodyPartExamined is \"{found}\", which is not among the terms",
            "Use a term of the list, as JAW or MOUTH; teeth are coded as structures.");
    private static final Rule REGION = Rule.of(
            "COD-013",
            Severity.WARNING,
            "PS3.3 C.7.3.1",
            "Body Part Examined and Anatomic Region name the same part.",
            "BodyPartExamined is \"{found}\", and the anatomic region {code} is \"{expected}\"",
            "Leave Body Part Examined out, or make the two agree.");

    private static final Rule JAW = Rule.of(
            "COD-014",
            Severity.ERROR,
            "PS3.3 C.8.12.1",
            "A coded tooth or arch is in the jaw that the region names.",
            "the region is in the {region}, and structure {number} is in the {structure}",
            "Find out which jaw is shown; a wrong tooth can lead to a wrong treatment.");

    private static final Attribute REGION_MODIFIER = attribute("AnatomicRegionModifierSequence");
    private static final Attribute STRUCTURE_MODIFIER = attribute("PrimaryAnatomicStructureModifierSequence");

    private static Attribute attribute(String keyword) {
        return Dictionary.standard().find(keyword).orElseThrow().attribute();
    }

    @Override
    public List<Rule> rules() {
        return List.of(SIDES, TOOTH, BODY_PART, REGION, JAW);
    }

    @Override
    public void run(Subject subject, Findings findings) {
        if (!subject.isPhotograph()) {
            return;
        }
        DataSet dataSet = subject.dataSet();
        // U says that the region is not one of a pair, as mouth and face are: from which side it is shown a modifier
        // may say
        Optional<String> image = dataSet.text(Attributes.IMAGE_LATERALITY).filter(Set.of("R", "L", "B")::contains);
        if (image.isPresent()) {
            checkModifiers(dataSet, Attributes.ANATOMIC_REGION_SEQUENCE, REGION_MODIFIER, image.get(), findings);
            checkModifiers(
                    dataSet, Attributes.PRIMARY_ANATOMIC_STRUCTURE_SEQUENCE, STRUCTURE_MODIFIER, image.get(), findings);
            checkTeeth(dataSet, image.get(), findings);
        }
        checkBodyPart(dataSet, findings);
        checkJaw(dataSet, findings);
    }

    private static void checkJaw(DataSet dataSet, Findings findings) {
        Optional<String> region = dataSet.items(Attributes.ANATOMIC_REGION_SEQUENCE).stream()
                .findFirst()
                .flatMap(Anatomy::jaw);
        List<DataSet> structures = dataSet.items(Attributes.PRIMARY_ANATOMIC_STRUCTURE_SEQUENCE);
        for (int i = 0; region.isPresent() && i < structures.size(); i++) {
            Optional<String> jaw = Anatomy.jaw(structures.get(i));
            if (jaw.isPresent() && !jaw.equals(region)) {
                findings.report(
                        JAW,
                        Location.of(Attributes.PRIMARY_ANATOMIC_STRUCTURE_SEQUENCE)
                                .item(i + 1),
                        "region",
                        region.get(),
                        "number",
                        Integer.toString(i + 1),
                        "structure",
                        jaw.get());
            }
        }
    }

    private static void checkModifiers(
            DataSet dataSet, Attribute sequence, Attribute modifiers, String image, Findings findings) {
        List<DataSet> items = dataSet.items(sequence);
        Set<String> sides = new TreeSet<>();
        List<Location> places = new ArrayList<>();
        for (int i = 0; i < items.size(); i++) {
            for (DataSet modifier : items.get(i).items(modifiers)) {
                Optional<String> side = Anatomy.side(modifier);
                if (side.isPresent() && !side.get().equals(image)) {
                    sides.add(side.get());
                    places.add(Location.of(sequence).item(i + 1).at(modifiers.tag()));
                }
            }
        }
        // Modifiers for both sides, one after the other, say what B says.
        boolean both = image.equals("B") && sides.equals(Set.of("L", "R"));
        if (!sides.isEmpty() && !both) {
            findings.report(
                    SIDES,
                    places.get(0),
                    "image",
                    image,
                    "sequence",
                    sequence.keyword(),
                    "modifier",
                    String.join(", ", sides));
        }
    }

    private static void checkTeeth(DataSet dataSet, String image, Findings findings) {
        List<DataSet> items = dataSet.items(Attributes.PRIMARY_ANATOMIC_STRUCTURE_SEQUENCE);
        for (int i = 0; i < items.size(); i++) {
            String code = items.get(i).text(Attributes.CODING_SCHEME_DESIGNATOR).orElse("") + " "
                    + items.get(i).text(Attributes.CODE_VALUE).orElse("");
            Optional<CodeTable.Tooth> tooth = CodeTable.standard().tooth(code);
            boolean oneSide = image.equals("R") || image.equals("L");
            if (oneSide
                    && tooth.isPresent()
                    && !tooth.get()
                            .side()
                            .substring(0, 1)
                            .toUpperCase(Locale.ROOT)
                            .equals(image)) {
                findings.report(
                        TOOTH,
                        Location.of(Attributes.PRIMARY_ANATOMIC_STRUCTURE_SEQUENCE)
                                .item(i + 1),
                        "image",
                        image,
                        "tooth",
                        tooth.get().number(),
                        "side",
                        tooth.get().side());
            }
        }
    }

    private static void checkBodyPart(DataSet dataSet, Findings findings) {
        Optional<String> found = dataSet.text(Attributes.BODY_PART_EXAMINED);
        if (found.isEmpty()) {
            return;
        }
        Location where = Location.of(Attributes.BODY_PART_EXAMINED);
        if (BodyParts.standard().ofTerm(found.get()).isEmpty()) {
            findings.report(BODY_PART, where, "found", found.get());
            return;
        }
        dataSet.items(Attributes.ANATOMIC_REGION_SEQUENCE).stream()
                .flatMap(item -> item.text(Attributes.CODE_VALUE).stream())
                .flatMap(code -> BodyParts.standard().ofCode(code).stream())
                .filter(part -> !part.term().isEmpty() && !part.term().equals(found.get()))
                .findFirst()
                .ifPresent(part -> findings.report(
                        REGION, where, "found", found.get(), "code", part.code(), "expected", part.term()));
    }
}
