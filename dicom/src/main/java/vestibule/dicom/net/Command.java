package vestibule.dicom.net;

import java.util.Optional;
import vestibule.dicom.data.Attribute;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Uid;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.io.DicomFormatException;

/**
 * A command set (PS3.7 6.3, E): what kind of message this is, what it belongs to, and whether a data set follows.
 *
 * @param elements the elements of group 0000
 */
public record Command(DataSet elements) {

    /** Command Data Set Type (0000,0800) of a message without a data set (PS3.7 E.1). */
    private static final int NO_DATA_SET = 0x0101;

    private static final int DATA_SET_FOLLOWS = 0x0001;
    private static final int MEDIUM = 0;

    /**
     * A command set from a peer, once it has what every command set needs.
     *
     * @throws DicomFormatException if it has not
     */
    public static Command received(DataSet elements) throws DicomFormatException {
        long code = mandatory(elements, Attributes.COMMAND_FIELD);
        CommandField field = CommandField.of(code)
                .orElseThrow(() ->
                        new DicomFormatException("a command with the unknown Command Field %04X".formatted(code)));
        boolean answersOrCancels = field.isResponse() || field == CommandField.C_CANCEL_RQ;
        mandatory(elements, answersOrCancels ? Attributes.MESSAGE_ID_BEING_RESPONDED_TO : Attributes.MESSAGE_ID);
        mandatory(elements, Attributes.COMMAND_DATA_SET_TYPE);
        if (field.isResponse()) {
            mandatory(elements, Attributes.STATUS);
        }
        return new Command(elements);
    }

    private static long mandatory(DataSet elements, Attribute attribute) throws DicomFormatException {
        return elements.integers(attribute).stream()
                .findFirst()
                .orElseThrow(() -> new DicomFormatException("a command without " + attribute));
    }

    /** C-ECHO-RQ (PS3.7 9.3.5.1). */
    public static Command echo(int messageId, Uid sopClass) {
        return new Command(request(CommandField.C_ECHO_RQ, messageId, false)
                .put(Attributes.AFFECTED_SOP_CLASS_UID, sopClass.value())
                .build());
    }

    /** C-STORE-RQ (PS3.7 9.3.1.1). */
    public static Command store(int messageId, Uid sopClass, Uid sopInstance) {
        return new Command(request(CommandField.C_STORE_RQ, messageId, true)
                .put(Attributes.AFFECTED_SOP_CLASS_UID, sopClass.value())
                .put(Attributes.PRIORITY, MEDIUM)
                .put(Attributes.AFFECTED_SOP_INSTANCE_UID, sopInstance.value())
                .build());
    }

    /** This C-STORE-RQ as part of a C-MOVE (PS3.7 9.3.1.1). */
    public Command movedFor(AeTitle originator, int moveMessageId) {
        return new Command(elements.toBuilder()
                .put(Attributes.MOVE_ORIGINATOR_APPLICATION_ENTITY_TITLE, originator.value())
                .put(Attributes.MOVE_ORIGINATOR_MESSAGE_ID, moveMessageId)
                .build());
    }

    /** C-FIND-RQ (PS3.7 9.3.2.1). */
    public static Command find(int messageId, Uid sopClass) {
        return query(CommandField.C_FIND_RQ, messageId, sopClass);
    }

    /** C-GET-RQ (PS3.7 9.3.3.1). */
    public static Command get(int messageId, Uid sopClass) {
        return query(CommandField.C_GET_RQ, messageId, sopClass);
    }

    /** C-MOVE-RQ (PS3.7 9.3.4.1). */
    public static Command move(int messageId, Uid sopClass, AeTitle destination) {
        return new Command(query(CommandField.C_MOVE_RQ, messageId, sopClass).elements.toBuilder()
                .put(Attributes.MOVE_DESTINATION, destination.value())
                .build());
    }

    private static Command query(CommandField field, int messageId, Uid sopClass) {
        return new Command(request(field, messageId, true)
                .put(Attributes.AFFECTED_SOP_CLASS_UID, sopClass.value())
                .put(Attributes.PRIORITY, MEDIUM)
                .build());
    }

    /** C-CANCEL-RQ for an earlier request (PS3.7 9.3.2.3). */
    public static Command cancel(int messageId) {
        return new Command(DataSet.builder()
                .put(Attributes.COMMAND_FIELD, CommandField.C_CANCEL_RQ.code())
                .put(Attributes.MESSAGE_ID_BEING_RESPONDED_TO, messageId)
                .put(Attributes.COMMAND_DATA_SET_TYPE, NO_DATA_SET)
                .build());
    }

    /** N-ACTION-RQ with action information (PS3.7 10.3.4.1). */
    public static Command action(int messageId, Uid sopClass, Uid sopInstance, int actionType) {
        return new Command(requested(CommandField.N_ACTION_RQ, messageId, sopClass, sopInstance)
                .put(Attributes.ACTION_TYPE_ID, actionType)
                .build());
    }

    /** N-SET-RQ with a modification list (PS3.7 10.3.3.1). */
    public static Command set(int messageId, Uid sopClass, Uid sopInstance) {
        return new Command(requested(CommandField.N_SET_RQ, messageId, sopClass, sopInstance)
                .build());
    }

    private static DataSet.Builder requested(CommandField field, int messageId, Uid sopClass, Uid sopInstance) {
        return request(field, messageId, true)
                .put(Attributes.REQUESTED_SOP_CLASS_UID, sopClass.value())
                .put(Attributes.REQUESTED_SOP_INSTANCE_UID, sopInstance.value());
    }

    /** N-EVENT-REPORT-RQ with event information (PS3.7 10.3.1.1). */
    public static Command eventReport(int messageId, Uid sopClass, Uid sopInstance, int eventType) {
        return new Command(affected(CommandField.N_EVENT_REPORT_RQ, messageId, sopClass, sopInstance)
                .put(Attributes.EVENT_TYPE_ID, eventType)
                .build());
    }

    /** N-CREATE-RQ with an attribute list (PS3.7 10.3.5.1). */
    public static Command create(int messageId, Uid sopClass, Uid sopInstance) {
        return new Command(affected(CommandField.N_CREATE_RQ, messageId, sopClass, sopInstance)
                .build());
    }

    private static DataSet.Builder affected(CommandField field, int messageId, Uid sopClass, Uid sopInstance) {
        return request(field, messageId, true)
                .put(Attributes.AFFECTED_SOP_CLASS_UID, sopClass.value())
                .put(Attributes.AFFECTED_SOP_INSTANCE_UID, sopInstance.value());
    }

    private static DataSet.Builder request(CommandField field, int messageId, boolean dataSet) {
        return DataSet.builder()
                .put(Attributes.COMMAND_FIELD, field.code())
                .put(Attributes.MESSAGE_ID, messageId)
                .put(Attributes.COMMAND_DATA_SET_TYPE, dataSet ? DATA_SET_FOLLOWS : NO_DATA_SET);
    }

    /**
     * The answer to this request: classes, instances, event and action types are repeated where the request has them (PS3.7 9.3, 10.3).
     *
     * @param status Status (0000,0900)
     * @param dataSet whether a data set follows
     */
    public Command response(int status, boolean dataSet) {
        DataSet.Builder answer = DataSet.builder()
                .put(Attributes.COMMAND_FIELD, field().response().code())
                .put(Attributes.MESSAGE_ID_BEING_RESPONDED_TO, messageId())
                .put(Attributes.COMMAND_DATA_SET_TYPE, dataSet ? DATA_SET_FOLLOWS : NO_DATA_SET)
                .put(Attributes.STATUS, status);
        answer.putIfKnown(Attributes.AFFECTED_SOP_CLASS_UID, sopClass().map(Uid::value));
        answer.putIfKnown(Attributes.AFFECTED_SOP_INSTANCE_UID, sopInstance().map(Uid::value));
        elements.integer(Attributes.EVENT_TYPE_ID).ifPresent(type -> answer.put(Attributes.EVENT_TYPE_ID, type));
        elements.integer(Attributes.ACTION_TYPE_ID).ifPresent(type -> answer.put(Attributes.ACTION_TYPE_ID, type));
        return new Command(answer.build());
    }

    /** This answer with an Error Comment (0000,0902), cut to the 64 ASCII characters it takes. */
    public Command withComment(String comment) {
        String ascii = comment.replaceAll("[^ -\\[\\]-~]", "?");
        return new Command(elements.toBuilder()
                .put(Attributes.ERROR_COMMENT, ascii.substring(0, Math.min(64, ascii.length())))
                .build());
    }

    /** This answer with an Error ID (0000,0903). */
    public Command withErrorId(int errorId) {
        return new Command(
                elements.toBuilder().put(Attributes.ERROR_ID, errorId).build());
    }

    /** This answer for a SOP instance that the provider has named (PS3.7 10.1.5.1.4). */
    public Command withSopInstance(Uid sopInstance) {
        return new Command(elements.toBuilder()
                .put(Attributes.AFFECTED_SOP_INSTANCE_UID, sopInstance.value())
                .build());
    }

    /** This answer with counts of sub-operations (PS3.4 C.4.2.1.6); the number remaining goes along only if it is not negative. */
    public Command withSuboperations(int remaining, int completed, int failed, int warning) {
        DataSet.Builder answer = elements.toBuilder()
                .put(Attributes.NUMBER_OF_COMPLETED_SUBOPERATIONS, completed)
                .put(Attributes.NUMBER_OF_FAILED_SUBOPERATIONS, failed)
                .put(Attributes.NUMBER_OF_WARNING_SUBOPERATIONS, warning);
        if (remaining >= 0) {
            answer.put(Attributes.NUMBER_OF_REMAINING_SUBOPERATIONS, remaining);
        }
        return new Command(answer.build());
    }

    /** Which message this is. */
    public CommandField field() {
        return CommandField.of(number(Attributes.COMMAND_FIELD)).orElseThrow();
    }

    /** Message ID of a request. */
    public int messageId() {
        return number(Attributes.MESSAGE_ID);
    }

    /** Message ID of the request that this answers or cancels. */
    public int respondedTo() {
        return number(Attributes.MESSAGE_ID_BEING_RESPONDED_TO);
    }

    /** Whether a data set follows. */
    public boolean hasDataSet() {
        return number(Attributes.COMMAND_DATA_SET_TYPE) != NO_DATA_SET;
    }

    /** Status (0000,0900) of an answer, 0 to FFFF hexadecimal. */
    public int status() {
        return number(Attributes.STATUS);
    }

    /** Error Comment (0000,0902); empty text where there is none. It comes from the peer and may hold anything. */
    public String comment() {
        return elements.text(Attributes.ERROR_COMMENT).orElse("");
    }

    /** Affected or Requested SOP Class UID, if there is a well-formed one. */
    public Optional<Uid> sopClass() {
        return uid(Attributes.AFFECTED_SOP_CLASS_UID, Attributes.REQUESTED_SOP_CLASS_UID);
    }

    /** Affected or Requested SOP Instance UID, if there is a well-formed one. */
    public Optional<Uid> sopInstance() {
        return uid(Attributes.AFFECTED_SOP_INSTANCE_UID, Attributes.REQUESTED_SOP_INSTANCE_UID);
    }

    private Optional<Uid> uid(Attribute affected, Attribute requested) {
        return elements.text(affected).or(() -> elements.text(requested)).flatMap(Uid::parse);
    }

    private int number(Attribute attribute) {
        return elements.integers(attribute).stream().findFirst().orElse(0L).intValue();
    }

    /** Kind and number of the message only. */
    @Override
    public String toString() {
        return field().isResponse()
                ? "%s %d status %04X".formatted(field(), respondedTo(), status())
                : "%s %d".formatted(field(), messageId());
    }
}
