package vestibule.dicom.net.upper;

import static vestibule.dicom.net.upper.Effect.CLOSE_TRANSPORT;
import static vestibule.dicom.net.upper.Effect.OPEN_TRANSPORT;
import static vestibule.dicom.net.upper.Effect.SEND_ABORT_BY_PROVIDER;
import static vestibule.dicom.net.upper.Effect.SEND_ABORT_BY_USER;
import static vestibule.dicom.net.upper.Effect.SEND_ASSOCIATE_AC;
import static vestibule.dicom.net.upper.Effect.SEND_ASSOCIATE_RJ;
import static vestibule.dicom.net.upper.Effect.SEND_ASSOCIATE_RQ;
import static vestibule.dicom.net.upper.Effect.SEND_DATA;
import static vestibule.dicom.net.upper.Effect.SEND_RELEASE_RP;
import static vestibule.dicom.net.upper.Effect.SEND_RELEASE_RQ;
import static vestibule.dicom.net.upper.Effect.START_ARTIM;
import static vestibule.dicom.net.upper.Effect.STOP_ARTIM;
import static vestibule.dicom.net.upper.Effect.TELL_ABORTED;
import static vestibule.dicom.net.upper.Effect.TELL_ABORTED_BY_PROVIDER;
import static vestibule.dicom.net.upper.Effect.TELL_ACCEPTED;
import static vestibule.dicom.net.upper.Effect.TELL_DATA;
import static vestibule.dicom.net.upper.Effect.TELL_REJECTED;
import static vestibule.dicom.net.upper.Effect.TELL_RELEASED;
import static vestibule.dicom.net.upper.Effect.TELL_RELEASE_REQUESTED;
import static vestibule.dicom.net.upper.Effect.TELL_REQUESTED;

import java.util.List;

/** The actions of the upper layer: effects in order, and the state after them (PS3.8 9.2.3, Tables 9-6 to 9-9). */
public enum Action {
    AE_1(State.STA4, OPEN_TRANSPORT),
    AE_2(State.STA5, SEND_ASSOCIATE_RQ),
    AE_3(State.STA6, TELL_ACCEPTED),
    AE_4(State.STA1, TELL_REJECTED, CLOSE_TRANSPORT),
    AE_5(State.STA2, START_ARTIM),
    /** To Sta3 if the provider can take the request; else it rejects by itself, which is {@link #AE_8}, to Sta13. */
    AE_6(State.STA3, STOP_ARTIM, TELL_REQUESTED),
    AE_7(State.STA6, SEND_ASSOCIATE_AC),
    AE_8(State.STA13, SEND_ASSOCIATE_RJ, START_ARTIM),
    DT_1(State.STA6, SEND_DATA),
    DT_2(State.STA6, TELL_DATA),
    AR_1(State.STA7, SEND_RELEASE_RQ),
    AR_2(State.STA8, TELL_RELEASE_REQUESTED),
    AR_3(State.STA1, TELL_RELEASED, CLOSE_TRANSPORT),
    AR_4(State.STA13, SEND_RELEASE_RP, START_ARTIM),
    AR_5(State.STA1, STOP_ARTIM),
    AR_6(State.STA7, TELL_DATA),
    AR_7(State.STA8, SEND_DATA),
    /** A release collision: to Sta9 for the requestor of the association, to Sta10 for its acceptor. */
    AR_8(State.STA9, TELL_RELEASE_REQUESTED),
    AR_9(State.STA11, SEND_RELEASE_RP),
    AR_10(State.STA12, TELL_RELEASED),
    AA_1(State.STA13, SEND_ABORT_BY_USER, START_ARTIM),
    AA_2(State.STA1, STOP_ARTIM, CLOSE_TRANSPORT),
    AA_3(State.STA1, TELL_ABORTED, CLOSE_TRANSPORT),
    AA_4(State.STA1, TELL_ABORTED_BY_PROVIDER),
    AA_5(State.STA1, STOP_ARTIM),
    AA_6(State.STA13),
    AA_7(State.STA13, SEND_ABORT_BY_PROVIDER),
    AA_8(State.STA13, SEND_ABORT_BY_PROVIDER, TELL_ABORTED_BY_PROVIDER, START_ARTIM);

    private final State next;

    @SuppressWarnings("ImmutableEnumChecker") // List.of is immutable
    private final List<Effect> effects;

    Action(State next, Effect... effects) {
        this.next = next;
        this.effects = List.of(effects);
    }

    /** What is to be done, in order. */
    public List<Effect> effects() {
        return effects;
    }

    /**
     * The state after the action.
     *
     * @param requestor whether this side asked for the association; it decides who is who in a release collision
     */
    public State next(boolean requestor) {
        return this == AR_8 && !requestor ? State.STA10 : next;
    }
}
