package vestibule.dicom.service;

import java.time.Duration;
import java.util.Locale;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Uid;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.ProposedContext;

/** Asks an archive what it has (PS3.4 C.4.1, C-FIND). */
public final class QueryUser {

    private final Association association;
    private final QueryLevel.Model model;

    /** A user of that association under an information model. */
    public QueryUser(Association association, QueryLevel.Model model) {
        this.association = association;
        this.model = model;
    }

    /** What to propose for it; identifiers hold no pixel data, so the default transfer syntax is enough. */
    public static ProposedContext proposal(QueryLevel.Model model) {
        return proposal(model.find());
    }

    static ProposedContext proposal(Uid sopClass) {
        return ProposedContext.of(sopClass, Uids.IMPLICIT_VR_LITTLE_ENDIAN);
    }

    /**
     * Asks.
     *
     * @param level the level of the matches, one that the model has
     * @param keys what to match and, without a value, what to return; the level is added, and the character set where text needs one
     * @param maximum how many matches are wanted at most; beyond it the query is cancelled
     * @param allowed how long it may take in all
     */
    public QueryOutcome find(QueryLevel level, DataSet keys, int maximum, Duration allowed) {
        if (!model.levels().contains(level)) {
            return new QueryOutcome.NotSent("%s has no level %s".formatted(name(model.name()), name(level.name())));
        }
        DataSet identifier = keys.toBuilder()
                .put(Attributes.QUERY_RETRIEVE_LEVEL, level.name())
                .build();
        return new FindExchange(association, model.find(), maximum, allowed).run(identifier);
    }

    private static String name(String constant) {
        return constant.toLowerCase(Locale.ROOT).replace('_', ' ');
    }
}
