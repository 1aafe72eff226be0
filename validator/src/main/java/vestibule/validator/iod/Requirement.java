package vestibule.validator.iod;

/** The type of an attribute (PS3.5 7.4). */
enum Requirement {
    /** Must be there with a value. */
    TYPE_1("1", true, true, false),
    /** As type 1 when a condition holds. */
    TYPE_1C("1C", true, true, true),
    /** Must be there, may be empty. */
    TYPE_2("2", true, false, false),
    /** As type 2 when a condition holds. */
    TYPE_2C("2C", true, false, true),
    /** May be there. */
    TYPE_3("3", false, false, false);

    private final String code;
    private final boolean presence;
    private final boolean value;
    private final boolean conditional;

    Requirement(String code, boolean presence, boolean value, boolean conditional) {
        this.code = code;
        this.presence = presence;
        this.value = value;
        this.conditional = conditional;
    }

    static Requirement parse(String code) {
        for (Requirement requirement : values()) {
            if (requirement.code.equals(code)) {
                return requirement;
            }
        }
        throw new IllegalArgumentException("type " + code);
    }

    /** As the standard writes it: {@code 1C}. */
    String code() {
        return code;
    }

    boolean needsPresence() {
        return presence;
    }

    boolean needsValue() {
        return value;
    }

    boolean isConditional() {
        return conditional;
    }
}
