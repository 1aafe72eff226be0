package vestibule.bridge.delivery;

import java.util.List;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.service.QueryOutcome;

/** What a search that came to its end found; one that did not found nothing that may be relied on. */
final class Searches {

    /**
     * The character set that questions name even where they hold no text that needs it: some peers answer in the one of the question, and
     * a name that had to be squeezed into another would be filed so.
     */
    static final String ALL_SCRIPTS = "ISO_IR 192";

    private Searches() {}

    /** @param peer how sentences name the one who was asked */
    static List<DataSet> matches(String peer, QueryOutcome outcome) throws SearchException {
        if (outcome instanceof QueryOutcome.Complete complete) {
            return complete.matches();
        }
        if (outcome instanceof QueryOutcome.CutShort cutShort) {
            throw new SearchException("the search was stopped (%s); ask for less".formatted(cutShort.reason()));
        }
        if (outcome instanceof QueryOutcome.Refused refused) {
            String answered = "the %s answered %s".formatted(peer, refused.status());
            throw new SearchException((answered + " " + refused.comment()).strip(), answered);
        }
        if (outcome instanceof QueryOutcome.NotSent notSent) {
            throw new SearchException(notSent.reason());
        }
        if (outcome instanceof QueryOutcome.Unknown unknown) {
            throw new SearchException(
                    "the last answer never came: " + unknown.cause().getMessage());
        }
        throw new AssertionError(outcome);
    }
}
