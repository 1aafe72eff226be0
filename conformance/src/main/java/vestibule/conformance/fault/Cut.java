package vestibule.conformance.fault;

/** What a power cut does to a disk, beyond stopping everything. */
public enum Cut {
    /** Bytes that were not forced are gone; names stay. */
    UNSYNCED_DATA(true, false, false),
    /** Names made, moved or deleted since their folder was last forced are as they were; bytes stay. */
    UNSYNCED_NAMES(false, true, false),
    /** Half of the write under way is on the disk; all before it stays. */
    TORN_WRITE(false, false, true),
    /** Neither bytes nor names that were not forced stay. */
    BOTH(true, true, false);

    private final boolean dropsData;
    private final boolean dropsNames;
    private final boolean tears;

    Cut(boolean dropsData, boolean dropsNames, boolean tears) {
        this.dropsData = dropsData;
        this.dropsNames = dropsNames;
        this.tears = tears;
    }

    boolean dropsData() {
        return dropsData;
    }

    boolean dropsNames() {
        return dropsNames;
    }

    boolean tears() {
        return tears;
    }
}
