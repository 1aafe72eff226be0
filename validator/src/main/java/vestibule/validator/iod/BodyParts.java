package vestibule.validator.iod;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.dict.Attributes;

/** The body parts of PS3.16 Annex L: their terms, their codes, and which of them are paired. */
public final class BodyParts {

    /**
     * One body part.
     *
     * @param code its SNOMED CT code
     * @param term the term of Body Part Examined; empty where there is none
     * @param paired whether there is one on each side
     */
    public record BodyPart(String code, String term, boolean paired) {}

    private static final BodyParts STANDARD = new BodyParts();

    private final Map<String, BodyPart> byCode = new HashMap<>();
    private final Map<String, BodyPart> byTerm = new HashMap<>();

    private BodyParts() {
        for (List<String> row :
                TableText.read(BodyParts.class, "body-parts.tsv", 3).rows()) {
            BodyPart part = new BodyPart(row.get(0), row.get(1), row.get(2).equals("paired"));
            byCode.put(part.code(), part);
            if (!part.term().isEmpty()) {
                byTerm.put(part.term(), part);
            }
        }
    }

    /** The table. */
    public static BodyParts standard() {
        return STANDARD;
    }

    /** The body part of a SNOMED CT code. */
    public Optional<BodyPart> ofCode(String code) {
        return Optional.ofNullable(byCode.get(code));
    }

    /** The body part of a term of Body Part Examined. */
    public Optional<BodyPart> ofTerm(String term) {
        return Optional.ofNullable(byTerm.get(term));
    }

    /** Whether what the object shows is paired, as far as region and body part say so. */
    Truth isPaired(DataSet root) {
        Stream<BodyPart> regions = root.items(Attributes.ANATOMIC_REGION_SEQUENCE).stream()
                .flatMap(item -> item.text(Attributes.CODE_VALUE).flatMap(this::ofCode).stream());
        Stream<BodyPart> terms = root.text(Attributes.BODY_PART_EXAMINED).flatMap(this::ofTerm).stream();
        return Stream.concat(regions, terms)
                .findFirst()
                .map(part -> Truth.of(part.paired()))
                .orElse(Truth.UNKNOWN);
    }
}
