package vestibule.dicom.service;

import java.io.IOException;
import java.util.List;
import java.util.Optional;
import java.util.function.Supplier;
import vestibule.dicom.data.Attribute;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Uid;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.net.AeTitle;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.Command;
import vestibule.dicom.net.CommandField;
import vestibule.dicom.net.Message;
import vestibule.dicom.net.SupportedContext;

/**
 * Takes what is told of performed procedure steps (PS3.4 F.7, N-CREATE and N-SET of Modality Performed Procedure Step). A step begins as
 * IN PROGRESS and ends as COMPLETED or DISCONTINUED, after which it is not changed any more.
 */
public final class PerformedStepProvider implements ProvidedService {

    private static final int LONGEST_STEP = 4 << 20;

    /** What goes with the status when a step in a final state is to be changed (PS3.4 F.7). */
    private static final int MAY_NOT_BE_UPDATED = 0xA710;

    /** Keeps steps. Called by several threads. */
    public interface Register {
        /**
         * Keeps a new step.
         *
         * @param step its SOP Instance UID
         * @param attributes as created, its text not bound to a character set
         * @param calling who performs it
         * @return false if there is a step of that identifier already, which then stays as it is
         * @throws RefusedException if it is not taken
         * @throws IOException if it cannot be kept
         */
        boolean create(Uid step, DataSet attributes, AeTitle calling) throws RefusedException, IOException;

        /**
         * Changes a step, so that no other change comes between reading and writing.
         *
         * @param step its SOP Instance UID
         * @param change makes what is to be kept from what is kept; what it throws is passed on, and nothing is changed
         * @param calling who changes it
         * @return false if there is no such step
         * @throws RefusedException if the change is not taken
         * @throws IOException if it cannot be kept
         */
        boolean update(Uid step, Change change, AeTitle calling) throws RefusedException, IOException;
    }

    /** A change of a step. */
    public interface Change {
        /** The step after the change; nothing if the change is not allowed. */
        DataSet apply(DataSet before) throws RefusedException;
    }

    private final Register register;
    private final Supplier<Uid> identifiers;

    /**
     * @param register keeps the steps
     * @param identifiers makes the SOP Instance UID of a step whose creator gives none (PS3.7 10.1.5.1.4)
     */
    public PerformedStepProvider(Register register, Supplier<Uid> identifiers) {
        this.register = register;
        this.identifiers = identifiers;
    }

    @Override
    public List<SupportedContext> contexts() {
        return Answering.plain(Uids.MODALITY_PERFORMED_PROCEDURE_STEP);
    }

    @Override
    public void handle(Association association, Message request) throws IOException {
        CommandField field = request.command().field();
        if (field != CommandField.N_CREATE_RQ && field != CommandField.N_SET_RQ) {
            ServiceProvider.unrecognized(association, request);
            return;
        }
        Optional<Uid> step = Answering.NORMALIZED.attempt(
                association,
                request,
                () -> field == CommandField.N_CREATE_RQ ? create(association, request) : set(association, request));
        if (step.isPresent()) {
            Command answer = request.command().response(Status.SUCCESS, false).withSopInstance(step.get());
            association.send(request.context(), answer);
        }
    }

    private Uid create(Association association, Message request) throws RefusedException, IOException {
        Command command = request.command();
        checkSopClass(command);
        Uid step = instance(command, Attributes.AFFECTED_SOP_INSTANCE_UID).orElseGet(identifiers);
        DataSet attributes = attributes(association, request);
        StepState state = StepState.of(attributes).orElse(StepState.IN_PROGRESS);
        StepRules.checkCreation(attributes);
        if (state != StepState.IN_PROGRESS) {
            throw new RefusedException(Status.INVALID_ATTRIBUTE_VALUE, "a step is created IN PROGRESS");
        }
        if (!register.create(step, attributes, association.peer().calling())) {
            throw new RefusedException(Status.DUPLICATE_SOP_INSTANCE, "there is a step of this SOP Instance UID");
        }
        return step;
    }

    private Uid set(Association association, Message request) throws RefusedException, IOException {
        Command command = request.command();
        checkSopClass(command);
        Uid step = instance(command, Attributes.REQUESTED_SOP_INSTANCE_UID)
                .orElseThrow(() -> new RefusedException(Status.NO_SUCH_SOP_INSTANCE, "no step is named"));
        DataSet changes = attributes(association, request);
        boolean found = register.update(
                step, before -> changed(before, changes), association.peer().calling());
        if (!found) {
            throw new RefusedException(Status.NO_SUCH_SOP_INSTANCE, "there is no step of this SOP Instance UID");
        }
        return step;
    }

    /** A sequence that is set takes the place of the one before, with all its items (PS3.4 F.7.2.2, from memory). */
    private static DataSet changed(DataSet before, DataSet changes) throws RefusedException {
        if (StepState.of(before).orElse(StepState.IN_PROGRESS).isFinal()) {
            throw new RefusedException(
                    Status.PROCESSING_FAILURE,
                    "Performed Procedure Step Object may no longer be updated",
                    MAY_NOT_BE_UPDATED);
        }
        Optional<StepState> next = StepState.of(changes);
        StepRules.checkChange(changes);
        DataSet after = before.toBuilder().putAll(changes).build();
        if (next.filter(StepState::isFinal).isPresent()) {
            StepRules.checkEnd(after);
        }
        return after;
    }

    private static void checkSopClass(Command command) throws RefusedException {
        boolean ours = command.sopClass()
                .filter(Uids.MODALITY_PERFORMED_PROCEDURE_STEP::equals)
                .isPresent();
        if (!ours) {
            throw new RefusedException(Status.NO_SUCH_SOP_CLASS, "not the SOP class of performed procedure steps");
        }
    }

    private static Optional<Uid> instance(Command command, Attribute attribute) throws RefusedException {
        Optional<String> text = command.elements().text(attribute);
        Optional<Uid> instance = text.flatMap(Uid::parse);
        if (text.isPresent() && instance.isEmpty()) {
            throw new RefusedException(Status.MALFORMED_SOP_INSTANCE, "the SOP Instance UID is no identifier");
        }
        return instance;
    }

    /** Text is decoded by now: the character set it came in is not that of the step, to which later changes add theirs. */
    private static DataSet attributes(Association association, Message request) throws RefusedException, IOException {
        if (!request.command().hasDataSet()) {
            throw new RefusedException(
                    Status.MISSING_ATTRIBUTE, request.command().field() + " without attributes");
        }
        return association.receiveDataSet(request, LONGEST_STEP).toBuilder()
                .remove(Attributes.SPECIFIC_CHARACTER_SET)
                .build();
    }
}
