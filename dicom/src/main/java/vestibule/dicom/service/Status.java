package vestibule.dicom.service;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;

/**
 * What the status of an answer means (PS3.7 C; PS3.4 B.2.3, C.4, K.4). Every number from 0000 to FFFF has a meaning for every service: its
 * own table comes first, then the general one; what neither has counts as a failure, because it promises nothing.
 *
 * @param code the status, 0 to FFFF hexadecimal
 * @param category success, warning, failure, cancel or pending
 * @param retry for a failure: whether the same request may succeed later without any change
 * @param words what it means
 * @param clause where the standard says so; empty if it does not
 */
public record Status(int code, Category category, boolean retry, String words, String clause) {

    /** The classes of status (PS3.7 C.1 to C.5). */
    public enum Category {
        SUCCESS,
        WARNING,
        FAILURE,
        CANCEL,
        PENDING
    }

    /** The operations and notifications with tables of their own. */
    public enum Service {
        C_ECHO,
        C_STORE,
        C_FIND,
        C_MOVE,
        C_GET,
        N_ACTION,
        N_EVENT_REPORT,
        N_CREATE,
        N_SET
    }

    /** All went well. */
    public static final int SUCCESS = 0x0000;
    /** There is no such attribute (PS3.7 C). */
    public static final int NO_SUCH_ATTRIBUTE = 0x0105;
    /** An attribute has a value it cannot have (PS3.7 C). */
    public static final int INVALID_ATTRIBUTE_VALUE = 0x0106;
    /** An attribute is missing that must be there (PS3.7 C). */
    public static final int MISSING_ATTRIBUTE = 0x0120;
    /** An attribute is there that must have a value and has none (PS3.7 C). */
    public static final int MISSING_ATTRIBUTE_VALUE = 0x0121;
    /** An error the other status codes do not name (PS3.7 C). */
    public static final int PROCESSING_FAILURE = 0x0110;
    /** There is no such SOP instance (PS3.7 C). */
    public static final int NO_SUCH_SOP_INSTANCE = 0x0112;
    /** There is already such a SOP instance (PS3.7 C). */
    public static final int DUPLICATE_SOP_INSTANCE = 0x0111;
    /** There is no such event type (PS3.7 C). */
    public static final int NO_SUCH_EVENT_TYPE = 0x0113;
    /** An argument has a value it cannot have (PS3.7 C). */
    public static final int UNSUITABLE_ARGUMENT = 0x0115;
    /** There is no such action type (PS3.7 C). */
    public static final int NO_SUCH_ACTION_TYPE = 0x0123;
    /** The SOP Instance UID breaks the rules for identifiers (PS3.7 C). */
    public static final int MALFORMED_SOP_INSTANCE = 0x0117;
    /** There is no such SOP class here (PS3.7 C). */
    public static final int NO_SUCH_SOP_CLASS = 0x0118;
    /** SOP class and SOP instance do not belong together (PS3.7 C). */
    public static final int CLASS_INSTANCE_CONFLICT = 0x0119;
    /** The SOP class is not supported (PS3.7 C). */
    public static final int SOP_CLASS_NOT_SUPPORTED = 0x0122;
    /** The peer may not do that (PS3.7 C). */
    public static final int NOT_AUTHORIZED = 0x0124;
    /** The operation is not one that is served (PS3.7 C). */
    public static final int UNRECOGNIZED_OPERATION = 0x0211;
    /** A parameter is not one that was agreed on (PS3.7 C). */
    public static final int MISTYPED_ARGUMENT = 0x0212;
    /** Out of resources (PS3.4 B.2.3, C.4.1.1.4). */
    public static final int OUT_OF_RESOURCES = 0xA700;
    /** None of the sub-operations of a retrieve could be done (PS3.4 C.4.2.1.5). */
    public static final int SUBOPERATIONS_NOT_POSSIBLE = 0xA702;
    /** The sub-operations of a retrieve are over, and some failed or ended with a warning (PS3.4 C.4.2.1.5). */
    public static final int SUBOPERATIONS_WITH_FAILURES = 0xB000;
    /** The destination of a C-MOVE is not known (PS3.4 C.4.2.1.5). */
    public static final int MOVE_DESTINATION_UNKNOWN = 0xA801;
    /** Data set or identifier does not match the SOP class (PS3.4 B.2.3, C.4.1.1.4). */
    public static final int DOES_NOT_MATCH_SOP_CLASS = 0xA900;
    /** The data set or identifier cannot be understood or processed (PS3.4 B.2.3, C.4.1.1.4). */
    public static final int UNABLE_TO_PROCESS = 0xC000;
    /** Cancelled by C-CANCEL (PS3.4 C.4.1.1.4). */
    public static final int CANCELLED = 0xFE00;
    /** A match follows, and every optional key is supported like a required one (PS3.4 C.4.1.1.4). */
    public static final int PENDING = 0xFF00;
    /** A match follows, and some optional keys are not supported (PS3.4 C.4.1.1.4). */
    public static final int PENDING_WITHOUT_SOME_KEYS = 0xFF01;

    /** Columns: code with x for any digit, category, whether trying again may help, clause, meaning. */
    private static final String STORE = """
            0000  SUCCESS  -      PS3.4-B.2.3  stored
            B000  WARNING  -      PS3.4-B.2.3  stored, elements were coerced
            B006  WARNING  -      PS3.4-B.2.3  stored, elements were discarded
            B007  WARNING  -      PS3.4-B.2.3  stored, the data set does not match its SOP class
            A7xx  FAILURE  retry  PS3.4-B.2.3  out of resources
            A9xx  FAILURE  -      PS3.4-B.2.3  the data set does not match its SOP class
            Cxxx  FAILURE  -      PS3.4-B.2.3  the data set cannot be understood
            FE00  FAILURE  retry  -            a cancellation, which C-STORE does not have
            FF0x  FAILURE  retry  -            a status that C-STORE does not have
            """;

    private static final String FIND = """
            0000  SUCCESS  -      PS3.4-C.4.1.1.4  all matches have come
            FF00  PENDING  -      PS3.4-C.4.1.1.4  a match, every optional key is supported
            FF01  PENDING  -      PS3.4-C.4.1.1.4  a match, some optional keys are not supported
            FE00  CANCEL   -      PS3.4-C.4.1.1.4  cancelled
            A7xx  FAILURE  retry  PS3.4-C.4.1.1.4  out of resources
            A9xx  FAILURE  -      PS3.4-C.4.1.1.4  the identifier does not match the SOP class
            Cxxx  FAILURE  -      PS3.4-C.4.1.1.4  unable to process
            """;

    private static final String RETRIEVE = """
            0000  SUCCESS  -      PS3.4-C.4.2.1.5  all sub-operations are done, none failed
            B000  WARNING  -      PS3.4-C.4.2.1.5  the sub-operations are done, one or more failed
            FF00  PENDING  -      PS3.4-C.4.2.1.5  sub-operations are going on
            FE00  CANCEL   -      PS3.4-C.4.2.1.5  cancelled
            A701  FAILURE  retry  PS3.4-C.4.2.1.5  out of resources: the matches cannot be counted
            A702  FAILURE  retry  PS3.4-C.4.2.1.5  out of resources: the sub-operations cannot be done
            A801  FAILURE  -      PS3.4-C.4.2.1.5  the move destination is unknown; have its AE title and address entered at the archive
            A900  FAILURE  -      PS3.4-C.4.2.1.5  the identifier does not match the SOP class
            Cxxx  FAILURE  -      PS3.4-C.4.2.1.5  unable to process
            """;

    private static final String GENERAL = """
            0000  SUCCESS  -      PS3.7-C.1   success
            0001  WARNING  -      PS3.7-C.4   done, with a warning
            0105  FAILURE  -      PS3.7-C.5   no such attribute
            0106  FAILURE  -      PS3.7-C.5   an attribute has a value it cannot have
            0107  WARNING  -      PS3.7-C.4   done, some attributes were not recognized
            0110  FAILURE  retry  PS3.7-C.5   processing failure
            0111  FAILURE  -      PS3.7-C.5   there is already such a SOP instance
            0112  FAILURE  -      PS3.7-C.5   no such SOP instance
            0113  FAILURE  -      PS3.7-C.5   no such event type
            0114  FAILURE  -      PS3.7-C.5   no such argument
            0115  FAILURE  -      PS3.7-C.5   an argument has a value it cannot have
            0116  WARNING  -      PS3.7-C.4   done, a value was out of range
            0117  FAILURE  -      PS3.7-C.5   the SOP Instance UID breaks the rules for identifiers
            0118  FAILURE  -      PS3.7-C.5   no such SOP class
            0119  FAILURE  -      PS3.7-C.5   SOP class and SOP instance do not belong together
            0120  FAILURE  -      PS3.7-C.5   an attribute is missing
            0121  FAILURE  -      PS3.7-C.5   the value of an attribute is missing
            0122  FAILURE  -      PS3.7-C.5   the SOP class is not supported
            0123  FAILURE  -      PS3.7-C.5   no such action type
            0124  FAILURE  -      PS3.7-C.5   not authorized; have the right given to our AE title at the peer
            01xx  FAILURE  -      PS3.7-C.5   refused with a general status
            0210  FAILURE  retry  PS3.7-C.5   the Message ID is in use
            0211  FAILURE  -      PS3.7-C.5   unrecognized operation
            0212  FAILURE  -      PS3.7-C.5   a parameter is not as agreed
            0213  FAILURE  retry  PS3.7-C.5   resource limitation
            02xx  FAILURE  -      PS3.7-C.5   refused with a general status
            Axxx  FAILURE  retry  PS3.7-C.5   refused
            Bxxx  WARNING  -      PS3.7-C.4   done, with a warning
            Cxxx  FAILURE  -      PS3.7-C.5   failed
            FE00  CANCEL   -      PS3.7-C.3   cancelled
            FF00  PENDING  -      PS3.7-C.2   pending
            FF01  PENDING  -      PS3.7-C.2   pending, with a warning
            xxxx  FAILURE  retry  -           a status the standard does not define
            """;

    private static final Map<Service, List<Row>> TABLES = tables();

    private record Row(String pattern, Category category, boolean retry, String clause, String words) {

        boolean covers(String code) {
            for (int i = 0; i < code.length(); i++) {
                if (pattern.charAt(i) != 'x' && pattern.charAt(i) != code.charAt(i)) {
                    return false;
                }
            }
            return true;
        }
    }

    private static Map<Service, List<Row>> tables() {
        Map<Service, List<Row>> tables = new EnumMap<>(Service.class);
        for (Service service : Service.values()) {
            String own = switch (service) {
                case C_STORE -> STORE;
                case C_FIND -> FIND;
                case C_MOVE, C_GET -> RETRIEVE;
                case C_ECHO, N_ACTION, N_EVENT_REPORT, N_CREATE, N_SET -> "";
            };
            tables.put(service, rows(own + GENERAL));
        }
        return tables;
    }

    private static List<Row> rows(String table) {
        List<Row> rows = new ArrayList<>();
        table.lines().forEach(line -> {
            String[] cells = line.split(" +", 5);
            String clause = cells[3].equals("-") ? "" : cells[3].replace('-', ' ');
            rows.add(new Row(cells[0], Category.valueOf(cells[1]), cells[2].equals("retry"), clause, cells[4]));
        });
        return List.copyOf(rows);
    }

    /** What a status means in the answer of that service. */
    public static Status of(Service service, int code) {
        String digits = "%04X".formatted(code & 0xFFFF);
        for (Row row : TABLES.getOrDefault(service, List.of())) {
            if (row.covers(digits)) {
                return new Status(code & 0xFFFF, row.category, row.retry, row.words, row.clause);
            }
        }
        throw new AssertionError("the last row of the general table covers every status");
    }

    /** Whether the operation was done, if need be with a warning. */
    public boolean isDone() {
        return category == Category.SUCCESS || category == Category.WARNING;
    }

    /** Number and meaning: {@code A700 out of resources}. */
    @Override
    public String toString() {
        return "%04X %s".formatted(code, words);
    }
}
