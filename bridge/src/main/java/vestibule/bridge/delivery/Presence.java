package vestibule.bridge.delivery;

/** Whether an archive has an object, as far as it says. */
public sealed interface Presence {

    /** It says that it has it. */
    record Present() implements Presence {}

    /** It says that it has not. */
    record Absent() implements Presence {}

    /**
     * It could not be asked, or did not answer.
     *
     * @param reason why, in a sentence without a full stop
     * @param forGood whether it will never answer, since it does not take queries
     */
    record Unsaid(String reason, boolean forGood) implements Presence {}
}
