package vestibule.validator.iod;

/** The answer to a condition: the object may not show it. */
enum Truth {
    TRUE,
    FALSE,
    UNKNOWN;

    static Truth of(boolean known) {
        return known ? TRUE : FALSE;
    }

    Truth and(Truth other) {
        if (this == FALSE || other == FALSE) {
            return FALSE;
        }
        return this == TRUE && other == TRUE ? TRUE : UNKNOWN;
    }

    Truth or(Truth other) {
        if (this == TRUE || other == TRUE) {
            return TRUE;
        }
        return this == FALSE && other == FALSE ? FALSE : UNKNOWN;
    }

    Truth not() {
        return switch (this) {
            case TRUE -> FALSE;
            case FALSE -> TRUE;
            case UNKNOWN -> UNKNOWN;
        };
    }
}
