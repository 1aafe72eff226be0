package vestibule.validator.rules;

import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.dict.Attributes;

/** What codes of regions and structures say of jaw and face (PS3.16 CID 4, 4016, 4018, 8134). */
final class Anatomy {

    /** Maxilla, and maxillary dental arch. */
    private static final Set<String> UPPER = Set.of("SCT 70925003", "SCT 39481002");
    /** Mandible, and mandibular dental arch. */
    private static final Set<String> LOWER = Set.of("SCT 91609006", "SCT 88176008");
    /** Face, head, head and neck. */
    private static final Set<String> FACES = Set.of("SCT 89545001", "SCT 69536005", "SCT 774007");
    /** Mouth, jaw region, teeth and gums, lip. */
    private static final Set<String> MOUTH =
            Set.of("SCT 123851003", "SCT 661005", "SCT 28035005", "SCT 48477009", "SCT 70925003", "SCT 91609006");

    private Anatomy() {}

    /** Scheme, blank, value. */
    static String code(DataSet item) {
        return item.text(Attributes.CODING_SCHEME_DESIGNATOR).orElse("") + " "
                + item.text(Attributes.CODE_VALUE).orElse("");
    }

    /** The jaw that an item of a region or structure sequence lies in. */
    static Optional<String> jaw(DataSet item) {
        String code = code(item);
        if (UPPER.contains(code)) {
            return Optional.of(DirectionCheck.jaw(true));
        }
        if (LOWER.contains(code)) {
            return Optional.of(DirectionCheck.jaw(false));
        }
        return CodeTable.standard().tooth(code).map(CodeTable.Tooth::arch);
    }

    /** The side that a modifier of CID 244 or 2 states: R, L, or B for both. */
    static Optional<String> side(DataSet modifier) {
        return switch (modifier.text(Attributes.CODE_VALUE).orElse("")) {
            case "24028007", "G-A100" -> Optional.of("R");
            case "7771000", "G-A101" -> Optional.of("L");
            case "51440002", "G-A102" -> Optional.of("B");
            default -> Optional.empty();
        };
    }

    /** Whether the item names the face. */
    static boolean isFace(DataSet item) {
        return FACES.contains(code(item));
    }

    /** Whether a region of head or mouth is coded. */
    static boolean isOfHead(DataSet dataSet) {
        return items(dataSet).map(Anatomy::code).anyMatch(code -> FACES.contains(code) || MOUTH.contains(code));
    }

    /** All items of region and structure. */
    static Stream<DataSet> items(DataSet dataSet) {
        return Stream.of(Attributes.ANATOMIC_REGION_SEQUENCE, Attributes.PRIMARY_ANATOMIC_STRUCTURE_SEQUENCE)
                .flatMap(sequence -> dataSet.items(sequence).stream());
    }
}
