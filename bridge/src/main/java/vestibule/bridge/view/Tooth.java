package vestibule.bridge.view;

import vestibule.dicom.data.Code;

/**
 * One tooth.
 *
 * @param designation two digits, ISO 3950: quadrant and place from the midline
 * @param universal its number in the Universal system: 1 to 32, A to T (from memory)
 * @param upper whether it stands in the upper jaw
 * @param right whether it stands on the patient's right
 * @param code its code (PS3.16 CID 4018 permanent, CID 4019 deciduous)
 */
public record Tooth(String designation, String universal, boolean upper, boolean right, Code code) {

    /** How teeth are called in lists for people; objects carry codes (trade facts D-16). */
    public enum Notation {
        /** Two digits. */
        ISO_3950,
        /** Numbers and letters, with the two digits behind. */
        UNIVERSAL
    }

    /** The tooth in words under that notation, never a bare number that another notation reads otherwise (trade facts F-67). */
    public String words(Notation notation) {
        return notation == Notation.ISO_3950
                ? words()
                : "#%s (%s %s, ISO %s)"
                        .formatted(universal, upper ? "upper" : "lower", right ? "right" : "left", designation);
    }

    /** The designation with the side and jaw in words, so that nobody has to know the digits: {@code 16 (upper right)}. */
    public String words() {
        return "%s (%s %s)".formatted(designation, upper ? "upper" : "lower", right ? "right" : "left");
    }
}
