package vestibule.samples.drawing;

/** What has become of a tooth. */
public enum ToothState {
    SOUND,
    /** Covered by a gold crown. */
    GOLD_CROWN,
    /** Filled with grey metal on the chewing surface and the cheek side. */
    AMALGAM,
    /** Not there; the gum has healed over. */
    MISSING,
    /** Turned on its axis by 35 degrees. */
    ROTATED,
    /** Ground down to a stump for a crown. */
    PREPARED,
    /** Replaced by an implant with a healing cap. */
    IMPLANT,
    /** Carries a small green tooth jewel on the lip side. */
    JEWEL
}
