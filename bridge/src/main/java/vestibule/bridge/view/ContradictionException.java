package vestibule.bridge.view;

/** What was said of a photograph does not fit together; a person must decide (a side that contradicts a view, a tooth of the other arch …). */
public final class ContradictionException extends Exception {

    private static final long serialVersionUID = 1L;

    ContradictionException(String sentence) {
        super(sentence);
    }
}
