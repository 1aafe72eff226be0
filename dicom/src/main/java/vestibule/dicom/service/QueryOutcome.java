package vestibule.dicom.service;

import java.io.IOException;
import java.util.List;
import vestibule.dicom.data.DataSet;

/** What became of a query (PS3.4 C.4.1, K.4.1). Matches that came before a query went wrong are kept; the case says what they are worth. */
public sealed interface QueryOutcome {

    /** The matches that came. */
    List<DataSet> matches();

    /**
     * All matches have come.
     *
     * @param matches all of them
     * @param everyKeySupported whether the peer says that it supports each optional key; if not, some may have been left aside
     */
    record Complete(List<DataSet> matches, boolean everyKeySupported) implements QueryOutcome {
        public Complete {
            matches = List.copyOf(matches);
        }
    }

    /**
     * The query was stopped by us; there may be more matches.
     *
     * @param matches those up to then
     * @param reason why, in a sentence
     */
    record CutShort(List<DataSet> matches, String reason) implements QueryOutcome {
        public CutShort {
            matches = List.copyOf(matches);
        }
    }

    /**
     * The peer refused or gave up.
     *
     * @param matches those up to then
     * @param status why
     * @param comment its Error Comment, may be empty
     */
    record Refused(List<DataSet> matches, Status status, String comment) implements QueryOutcome {
        public Refused {
            matches = List.copyOf(matches);
        }
    }

    /**
     * The query was not sent.
     *
     * @param reason why, and what to do, in a sentence
     */
    record NotSent(String reason) implements QueryOutcome {
        @Override
        public List<DataSet> matches() {
            return List.of();
        }
    }

    /**
     * The last answer never came, or could not be read; there may be more matches.
     *
     * @param matches those up to then
     * @param cause what happened
     */
    record Unknown(List<DataSet> matches, IOException cause) implements QueryOutcome {
        public Unknown {
            matches = List.copyOf(matches);
        }
    }
}
