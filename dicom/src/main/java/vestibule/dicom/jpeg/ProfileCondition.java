package vestibule.dicom.jpeg;

/** How the ICC profile in APP2 segments fares (ICC.1 Annex B.4). */
public enum ProfileCondition {
    /** No ICC_PROFILE segment. */
    NONE("there is no ICC profile"),
    /** Every chunk is there once, and what they hold looks like a profile. */
    COMPLETE("the ICC profile is complete"),
    /** A number is 0, above the count, or used twice, or the chunks disagree on the count. */
    MISNUMBERED("the chunks of the ICC profile are wrongly numbered"),
    /** A number up to the count is not there. */
    MISSING_CHUNKS("chunks of the ICC profile are missing"),
    /** The chunks hold more than the limits allow. */
    TOO_LARGE("the ICC profile is larger than the limit"),
    /** Too short for a profile header, without its signature, or shorter than its header says. */
    NOT_A_PROFILE("what the ICC_PROFILE segments hold is not an ICC profile");

    private final String words;

    ProfileCondition(String words) {
        this.words = words;
    }

    /** The condition in words, without a full stop. */
    public String words() {
        return words;
    }
}
