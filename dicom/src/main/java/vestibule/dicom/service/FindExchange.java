package vestibule.dicom.service;

import java.io.IOException;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Uid;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.Command;
import vestibule.dicom.net.Message;
import vestibule.dicom.net.NegotiatedContext;

/** One C-FIND from its request to its last answer (PS3.7 9.1.2). */
final class FindExchange {

    /** A match is a few hundred bytes; one with every attribute of a worklist stays far below. */
    private static final int LONGEST_MATCH = 1 << 20;

    /** How many matches a peer may still send after it was asked to stop. */
    private static final int PATIENCE_AFTER_CANCEL = 1_000;

    private final Association association;
    private final Uid sopClass;
    private final int maximum;
    private final long end;
    private final List<DataSet> matches = new ArrayList<>();
    private boolean everyKeySupported = true;
    private String cutShort = "";
    private int afterCancel;

    /**
     * @param maximum how many matches are wanted at most
     * @param allowed how long the query may take
     */
    FindExchange(Association association, Uid sopClass, int maximum, Duration allowed) {
        this.association = association;
        this.sopClass = sopClass;
        this.maximum = maximum;
        this.end = System.nanoTime() + allowed.toNanos();
    }

    QueryOutcome run(DataSet identifier) {
        Optional<NegotiatedContext> context = association.accepted(sopClass);
        if (context.isEmpty()) {
            return new QueryOutcome.NotSent(Contexts.notAccepted(association, sopClass));
        }
        Command request = Command.find(association.nextMessageId(), sopClass);
        try {
            association.send(context.get(), request, QueryKeys.withCharacterSet(identifier));
            while (true) {
                Message answer = association.answerTo(request);
                Status status =
                        Status.of(Status.Service.C_FIND, answer.command().status());
                if (status.category() != Status.Category.PENDING) {
                    return outcome(status, answer.command().comment());
                }
                take(answer, status);
                if (!goOn(context.get(), request)) {
                    association.abort();
                    return new QueryOutcome.CutShort(matches, cutShort);
                }
            }
        } catch (IOException e) {
            return cutShort.isEmpty()
                    ? new QueryOutcome.Unknown(matches, e)
                    : new QueryOutcome.CutShort(matches, cutShort);
        }
    }

    private void take(Message answer, Status status) throws IOException {
        if (!answer.command().hasDataSet()) {
            throw association.violation("a match came without an identifier");
        }
        everyKeySupported &= status.code() != Status.PENDING_WITHOUT_SOME_KEYS;
        if (cutShort.isEmpty()) {
            matches.add(association.receiveDataSet(answer, LONGEST_MATCH));
        } else {
            afterCancel++;
        }
    }

    /** Asks the peer to stop once there is enough; false if it goes on all the same. */
    private boolean goOn(NegotiatedContext context, Command request) throws IOException {
        if (!cutShort.isEmpty()) {
            return afterCancel < PATIENCE_AFTER_CANCEL;
        }
        boolean late = end - System.nanoTime() <= 0;
        if (matches.size() > maximum || late) {
            cutShort = late
                    ? "the query took longer than was allowed; ask for less"
                    : "more than %d matches; ask for less".formatted(maximum);
            while (matches.size() > maximum) {
                matches.remove(matches.size() - 1);
            }
            association.send(context, Command.cancel(request.messageId()));
        }
        return true;
    }

    private QueryOutcome outcome(Status status, String comment) {
        if (!cutShort.isEmpty()) {
            return new QueryOutcome.CutShort(matches, cutShort);
        }
        return status.isDone()
                ? new QueryOutcome.Complete(matches, everyKeySupported)
                : new QueryOutcome.Refused(matches, status, comment);
    }
}
