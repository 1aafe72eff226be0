package vestibule.bridge.archive;

/** An identifier that the query model does not allow (PS3.4 C.4.1.1.3). */
final class QueryException extends Exception {

    private static final long serialVersionUID = 1L;

    QueryException(String sentence) {
        super(sentence);
    }
}
