package vestibule.bridge.view;

import java.util.Locale;

/** Why a person has to say which view a photograph shows, or which side; the codes stay the same from version to version. */
public enum ViewReason {
    /** Nothing says which view it is. */
    VIEW_NOT_SAID,
    /** The words name a view, a set, a tooth, a flip or a stage that there is not. */
    VIEW_WORD_UNKNOWN,
    /** Its name holds the words of several views. */
    SEVERAL_VIEWS_NAMED,
    /** The sitting's photographs name several sets. */
    SEVERAL_SETS_NAMED,
    /** Its place in the set proposes a view; order alone never decides (trade facts F-68). */
    ORDER_PROPOSES,
    /** There are more or fewer photographs than places, so the order says nothing. */
    ORDER_DOES_NOT_FIT,
    /** The proposal that a person accepted is not the one that is made now. */
    PROPOSAL_CHANGED,
    /** A view by mirror, and nobody said how it was taken. */
    CAPTURE_NOT_SAID,
    /** Its name holds the words of several captures. */
    SEVERAL_CAPTURES_NAMED,
    /** View, capture, flip, direction and teeth do not fit together. */
    VIEW_CONTRADICTION,
    /** It is filed, and a name that its bytes lie under since says another view or capture. */
    FILED_AS_ANOTHER_VIEW,
    /** The picture cannot be the view that its name says. */
    PICTURE_CONTRADICTS_VIEW;

    /** The code in lists and JSON. */
    public String code() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
}
