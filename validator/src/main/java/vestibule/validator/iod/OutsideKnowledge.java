package vestibule.validator.iod;

import java.util.Set;
import java.util.function.Predicate;
import vestibule.dicom.data.Attribute;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Element;
import vestibule.dicom.data.Tag;
import vestibule.dicom.data.Value;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.dict.Dictionary;

/**
 * Answers to conditions that the module tables state in words only. Some can be read off the object after all; some are true exactly
 * when the attribute itself is there; the profile may assume others; the rest stays unknown.
 */
final class OutsideKnowledge {

    private static final int LONGEST_CODE_VALUE = 16;
    private static final Attribute LONG_CODE_VALUE = attribute("LongCodeValue");
    private static final Attribute URN_CODE_VALUE = attribute("URNCodeValue");
    private static final Attribute REFERENCED_INSTANCE = attribute("ReferencedSOPInstanceUID");
    private static final Set<Tag> LISTS = Set.of(
            attribute("ReferencedSeriesSequence").tag(),
            attribute("StudiesContainingOtherReferencedInstancesSequence").tag());

    /** The attribute is the only place where the object could say that the condition holds: absent means it does not. */
    private static final Set<String> SELF_EVIDENT = Set.of(
            "attribute-level encryption used",
            "HL7 structured documents referenced",
            "converted by view",
            "converted from DICOM source",
            "padding defined as a range",
            "one fragment per frame",
            "decimal string not precise enough",
            "decimal string not precise enough for rational",
            "multi-channel waveform, not all channels",
            "coding scheme has an OID",
            "coding scheme registered",
            "performed protocol instance exists",
            "resulted from a defined protocol",
            "protocol differs from root ClinicalTrialProtocolID",
            "referenced instance is multi-frame and reference is not to all frames",
            "referenced instance is a segmentation and reference is not to all segments");

    /** Schemes whose codes do not change their meaning from version to version (PS3.16 8, Table 8-1). */
    private static final Set<String> WITHOUT_VERSION =
            Set.of("SCT", "DCM", "SRT", "UCUM", "LN", "UMLS", "NCIt", "FMA", "UBERON", "SNM3", "ISO3166_1", "RFC5646");

    private final Predicate<String> assumedFalse;
    private final boolean expandedRepertoire;
    private final boolean attributeIsThere;

    OutsideKnowledge(Predicate<String> assumedFalse, DataSet root) {
        this(assumedFalse, root.contains(Attributes.SPECIFIC_CHARACTER_SET) || leavesDefaultRepertoire(root), false);
    }

    private OutsideKnowledge(Predicate<String> assumedFalse, boolean expandedRepertoire, boolean attributeIsThere) {
        this.assumedFalse = assumedFalse;
        this.expandedRepertoire = expandedRepertoire;
        this.attributeIsThere = attributeIsThere;
    }

    /** The same knowledge, asked whether an attribute that is there may be there. */
    OutsideKnowledge whenPresent() {
        return new OutsideKnowledge(assumedFalse, expandedRepertoire, true);
    }

    private static Attribute attribute(String keyword) {
        return Dictionary.standard().find(keyword).orElseThrow().attribute();
    }

    Truth test(String words, Scope scope) {
        DataSet here = scope.dataSet();
        if (SELF_EVIDENT.contains(words) || assumedFalse.test(words)) {
            return attributeIsThere ? Truth.UNKNOWN : Truth.FALSE;
        }
        return switch (words) {
            case "non-ASCII repertoire used" -> Truth.of(expandedRepertoire);
            case "code fits 16 characters and is no URN/URL" -> Truth.of(wantsCodeValue(here));
            case "code is no URN/URL" -> Truth.of(here.contains(LONG_CODE_VALUE));
            case "code is a URN/URL" -> Truth.of(here.contains(URN_CODE_VALUE));
            case "designator present but ambiguous without version" -> ambiguousScheme(here);
            case "patient is a non-human organism" -> notHuman(scope.root().dataSet());
            case "instance references same-study instances", "instance references other-study instances" ->
                references(scope.root().dataSet(), true) ? Truth.UNKNOWN : Truth.FALSE;
            case "body part is paired" ->
                BodyParts.standard().isPaired(scope.root().dataSet());
            default -> Truth.UNKNOWN;
        };
    }

    /** One of the three kinds of code must be there; the short one if no other is (PS3.3 8.1). */
    private static boolean wantsCodeValue(DataSet item) {
        if (item.contains(Attributes.CODE_VALUE)) {
            return item.text(Attributes.CODE_VALUE).orElse("").length() <= LONGEST_CODE_VALUE;
        }
        return !item.contains(LONG_CODE_VALUE) && !item.contains(URN_CODE_VALUE);
    }

    private static Truth ambiguousScheme(DataSet item) {
        String scheme = item.text(Attributes.CODING_SCHEME_DESIGNATOR).orElse("");
        return scheme.isEmpty() || WITHOUT_VERSION.contains(scheme) ? Truth.FALSE : Truth.UNKNOWN;
    }

    private static Truth notHuman(DataSet root) {
        String species = root.text(attribute("PatientSpeciesDescription")).orElse("");
        boolean coded = root.hasValue(attribute("PatientSpeciesCodeSequence"));
        if (species.isEmpty() && !coded) {
            return Truth.UNKNOWN;
        }
        boolean human = species.equalsIgnoreCase("Homo sapiens")
                || root.items(attribute("PatientSpeciesCodeSequence")).stream()
                        .anyMatch(item ->
                                item.text(Attributes.CODE_VALUE).orElse("").equals("337915000"));
        return Truth.of(!human);
    }

    /** Whether an instance is named elsewhere than in the lists of the Common Instance Reference module itself. */
    private static boolean references(DataSet dataSet, boolean outermost) {
        return dataSet.stream()
                .filter(element -> element.value() instanceof Value.Items)
                .filter(element -> !outermost || !LISTS.contains(element.tag()))
                .flatMap(element -> ((Value.Items) element.value()).all().stream())
                .anyMatch(item -> item.contains(REFERENCED_INSTANCE) || references(item, false));
    }

    private static boolean leavesDefaultRepertoire(DataSet dataSet) {
        return dataSet.stream().anyMatch(OutsideKnowledge::leavesDefaultRepertoire);
    }

    private static boolean leavesDefaultRepertoire(Element element) {
        if (element.value() instanceof Value.Items items) {
            return items.all().stream().anyMatch(OutsideKnowledge::leavesDefaultRepertoire);
        }
        return element.vr().followsCharacterSet()
                && element.value() instanceof Value.Texts texts
                && texts.all().stream().anyMatch(text -> text.chars().anyMatch(c -> c > 0x7E || c == 0x1B));
    }
}
