package vestibule.conformance.fault;

import java.util.List;
import java.util.Optional;
import vestibule.dicom.data.Uid;
import vestibule.dicom.service.CommitmentRequest;
import vestibule.dicom.service.SopReference;

/** What a {@link ScriptedArchive} does with what it gets. Called by several threads. */
public interface Script {

    /** An archive that does all it should. */
    Script HEALTHY = new Script() {};

    /**
     * What happens to an object that arrived whole.
     *
     * @param object what arrived
     * @param number how many arrived before it, repeats included
     */
    default Reception store(HeldObject object, int number) {
        return Reception.SUCCESS;
    }

    /**
     * What happens to a commitment request.
     *
     * @param request what is asked
     * @param held the objects among them that the archive has
     * @param number how many requests came before it
     */
    default Promise commit(CommitmentRequest request, List<SopReference> held, int number) {
        return Promise.truth(request, held, Way.SAME_ASSOCIATION);
    }

    /** Status of a query (C-FIND); anything but 0 and no match is given. */
    default int query() {
        return 0;
    }

    /**
     * What becomes of an object, and what is said of it; the two need not agree.
     *
     * @param status Status (0000,0900) to answer
     * @param comment Error Comment (0000,0902); may be empty
     * @param keeps whether the archive has it afterwards
     * @param answers whether an answer is given at all; otherwise the connection is broken off
     * @param refiledUnder another Patient ID it is filed under
     */
    record Reception(int status, String comment, boolean keeps, boolean answers, Optional<String> refiledUnder) {

        /** Kept, and said so. */
        public static final Reception SUCCESS = status(0, true);

        /** Kept, and nobody told: the answer never comes. */
        public static final Reception ANSWER_EATEN = new Reception(0, "", true, false, Optional.empty());

        /** Success is said of what was thrown away. */
        public static final Reception FORGOTTEN = status(0, false);

        /** A status. */
        public static Reception status(int status, boolean keeps) {
            return new Reception(status, "", keeps, true, Optional.empty());
        }

        /** Stored with the warning that elements were coerced (PS3.4 B.2.3), under another patient. */
        public static Reception refiled(String patientId) {
            return new Reception(0xB000, "coerced", true, true, Optional.of(patientId));
        }
    }

    /** How a report of commitment travels. */
    enum Way {
        /** On the association of the request. */
        SAME_ASSOCIATION,
        /** On an association that the archive opens at once. */
        OWN_ASSOCIATION,
        /** On one that the archive opens when {@link ScriptedArchive#deliverLate} is called. */
        LATE
    }

    /**
     * A report of commitment (PS3.4 J.3.3), which need not be sensible.
     *
     * @param transaction Transaction UID (0008,1195)
     * @param eventType 1 for all committed, 2 for failures
     * @param committed what it takes responsibility for
     * @param failed what it does not
     * @param reason Failure Reason (0008,1197) of all that failed
     * @param way how it travels
     */
    record Report(
            Uid transaction,
            int eventType,
            List<SopReference> committed,
            List<SopReference> failed,
            int reason,
            Way way) {
        /** With lists that nobody can change. */
        public Report {
            committed = List.copyOf(committed);
            failed = List.copyOf(failed);
        }
    }

    /**
     * What an archive does about a commitment request.
     *
     * @param status Status of the N-ACTION response; empty if none is given and the connection is broken off
     * @param reports the reports that follow, in their order
     */
    record Promise(Optional<Integer> status, List<Report> reports) {
        private static final int NO_SUCH_OBJECT = 0x0112;

        /** With a list that nobody can change. */
        public Promise {
            reports = List.copyOf(reports);
        }

        /** What is true, reported once. */
        public static Promise truth(CommitmentRequest request, List<SopReference> held, Way way) {
            return reports(List.of(truthfulReport(request, held, way)));
        }

        /** The report that is true. */
        public static Report truthfulReport(CommitmentRequest request, List<SopReference> held, Way way) {
            List<SopReference> missing = request.objects().stream()
                    .filter(object -> !held.contains(object))
                    .toList();
            return new Report(request.transaction(), missing.isEmpty() ? 1 : 2, held, missing, NO_SUCH_OBJECT, way);
        }

        /** The request is taken, and these reports follow. */
        public static Promise reports(List<Report> reports) {
            return new Promise(Optional.of(0), reports);
        }

        /** The request is refused. */
        public static Promise refused(int status) {
            return new Promise(Optional.of(status), List.of());
        }

        /** The request is taken and nothing ever follows. */
        public static Promise silence() {
            return reports(List.of());
        }

        /** Not even the request is answered. */
        public static Promise brokenOff() {
            return new Promise(Optional.empty(), List.of());
        }
    }
}
