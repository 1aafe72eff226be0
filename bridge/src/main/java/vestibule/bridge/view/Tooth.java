package vestibule.bridge.view;

import vestibule.dicom.data.Code;

/**
 * One tooth.
 *
 * @param designation two digits, ISO 3950: quadrant and place from the midline
 * @param upper whether it stands in the upper jaw
 * @param right whether it stands on the patient's right
 * @param code its code (PS3.16 CID 4018 permanent, CID 4019 deciduous)
 */
public record Tooth(String designation, boolean upper, boolean right, Code code) {

    /** The designation with the side and jaw in words, so that nobody has to know the digits: {@code 16 (upper right)}. */
    public String words() {
        return "%s (%s %s)".formatted(designation, upper ? "upper" : "lower", right ? "right" : "left");
    }
}
