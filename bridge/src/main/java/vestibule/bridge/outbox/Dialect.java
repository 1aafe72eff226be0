package vestibule.bridge.outbox;

/** What differs between the two databases; everything else is the same text. */
enum Dialect {
    /** One computer: the file is in the home. Transactions begin immediately and exclude each other. */
    SQLITE("INTEGER PRIMARY KEY AUTOINCREMENT", "", ""),
    /** Several nodes: rows are locked, and rows that another node works on are passed over. */
    POSTGRESQL(
            "BIGINT GENERATED ALWAYS AS IDENTITY PRIMARY KEY", " FOR NO KEY UPDATE", " FOR NO KEY UPDATE SKIP LOCKED");

    private final String serial;
    private final String lock;
    private final String lockFree;

    Dialect(String serial, String lock, String lockFree) {
        this.serial = serial;
        this.lock = lock;
        this.lockFree = lockFree;
    }

    /** The type of a primary key that counts by itself. */
    String serial() {
        return serial;
    }

    /** Ends a query whose rows are to be changed in the same transaction. */
    String lock() {
        return lock;
    }

    /** The same, without the rows that are locked by somebody else. */
    String lockFree() {
        return lockFree;
    }
}
