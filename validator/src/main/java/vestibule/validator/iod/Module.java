package vestibule.validator.iod;

/**
 * A module of the IOD (PS3.3 A.32.4.3).
 *
 * @param key our name for it in the tables
 * @param name its name
 * @param usage M, U or C
 * @param section where its table stands in PS3.3
 */
record Module(String key, String name, String usage, String section) {

    boolean isMandatory() {
        return usage.equals("M");
    }
}
