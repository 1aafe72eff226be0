package vestibule.dicom.service;

import java.io.IOException;
import java.util.List;
import java.util.Optional;
import java.util.random.RandomGenerator;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Uid;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.io.DicomFormatException;
import vestibule.dicom.net.AeTitle;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.CommandField;
import vestibule.dicom.net.Message;
import vestibule.dicom.net.SupportedContext;

/**
 * Takes what is told of performed procedure steps (PS3.4 F.7, N-CREATE and N-SET): a step begins IN PROGRESS, is changed while it is, and is
 * left alone once it is COMPLETED or DISCONTINUED. Whatever breaks that order is refused and changes nothing.
 */
public final class PerformedStepProvider implements ProvidedService {

    /** Error ID beside status 0110: the step may no longer be changed (PS3.4 F.7.2.2). */
    public static final int MAY_NO_LONGER_BE_UPDATED = 0xA710;

    private static final int LONGEST_DATA_SET = 1 << 20;

    /** Keeps steps. Called by one thread at a time. */
    public interface Handler {
        /** The step as it was kept last; empty if there is none. */
        Optional<DataSet> find(Uid step) throws IOException;

        /**
         * Keeps a step; success is answered only after it returns.
         *
         * @param step its SOP Instance UID
         * @param attributes all of them, in place of those kept before
         * @param from who told it
         * @throws RefusedException if it is not taken
         * @throws IOException if it cannot be kept
         */
        void keep(Uid step, DataSet attributes, AeTitle from) throws RefusedException, IOException;
    }

    private final Handler handler;
    private final RandomGenerator random;

    /**
     * @param handler keeps the steps
     * @param random makes an identifier for a step that comes without one
     */
    public PerformedStepProvider(Handler handler, RandomGenerator random) {
        this.handler = handler;
        this.random = random;
    }

    @Override
    public List<SupportedContext> contexts() {
        return List.of(SupportedContext.provider(Uids.MODALITY_PERFORMED_PROCEDURE_STEP, Contexts.WITHOUT_PIXELS));
    }

    @Override
    public void handle(Association association, Message request) throws IOException {
        CommandField field = request.command().field();
        if (field != CommandField.N_CREATE_RQ && field != CommandField.N_SET_RQ) {
            ServiceProvider.unrecognized(association, request);
            return;
        }
        Failures.OF_NORMALIZED_OPERATIONS.answered(association, request, () -> {
            Uid step = step(request);
            if (!request.command().hasDataSet()) {
                throw new DicomFormatException("a performed procedure step without attributes");
            }
            DataSet attributes = association.receiveDataSet(request, LONGEST_DATA_SET);
            AeTitle from = association.peer().calling();
            if (field == CommandField.N_CREATE_RQ) {
                create(step, attributes, from);
            } else {
                change(step, attributes, from);
            }
            association.send(
                    request.context(),
                    request.command().response(Status.SUCCESS, false).withSopInstance(step));
        });
    }

    /** A requestor may leave it to us to name the step it creates (PS3.7 10.1.5.1.4). */
    private Uid step(Message request) throws RefusedException {
        if (request.command().field() == CommandField.N_CREATE_RQ
                && !request.command().namesSopInstance()) {
            return Uid.random(random);
        }
        return request.command()
                .sopInstance()
                .orElseThrow(
                        () -> new RefusedException(Status.MALFORMED_SOP_INSTANCE, "no well-formed SOP Instance UID"));
    }

    private synchronized void create(Uid step, DataSet attributes, AeTitle from) throws RefusedException, IOException {
        PerformedStepRules.checkCreation(attributes);
        if (handler.find(step).isPresent()) {
            throw new RefusedException(Status.DUPLICATE_SOP_INSTANCE, "there is such a step already");
        }
        handler.keep(step, attributes, from);
    }

    /** Text of both may need more than the character set of either, so the set is chosen anew. */
    private static DataSet merged(DataSet kept, DataSet changes) {
        return QueryKeys.withCharacterSet(kept.toBuilder()
                .putAll(changes)
                .remove(Attributes.SPECIFIC_CHARACTER_SET)
                .build());
    }

    private synchronized void change(Uid step, DataSet changes, AeTitle from) throws RefusedException, IOException {
        DataSet kept = handler.find(step)
                .orElseThrow(() -> new RefusedException(Status.NO_SUCH_SOP_INSTANCE, "there is no such step"));
        if (PerformedStepRules.isFinal(kept)) {
            throw new RefusedException(
                    Status.PROCESSING_FAILURE,
                    MAY_NO_LONGER_BE_UPDATED,
                    "the step has ended and is not changed any more");
        }
        PerformedStepRules.checkChanges(changes);
        DataSet changed = merged(kept, changes);
        if (PerformedStepRules.isFinal(changed)) {
            PerformedStepRules.checkEnd(changed);
        }
        handler.keep(step, changed, from);
    }
}
