package vestibule.samples;

/** How the camera looked at the patient. */
public enum Capture {
    /** Straight at what is shown. */
    DIRECT("direct"),
    /** Into a mirror, the operator in front of the patient. */
    MIRROR_FRONT("mirror-front"),
    /** Into a mirror, the operator behind the head at 12 o'clock. */
    MIRROR_BEHIND("mirror-behind");

    private final String label;

    Capture(String label) {
        this.label = label;
    }

    /** The word for it, as in a catalogue. */
    public String label() {
        return label;
    }
}
