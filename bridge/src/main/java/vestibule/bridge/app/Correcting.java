package vestibule.bridge.app;

import java.util.List;
import java.util.Optional;
import vestibule.bridge.object.RejectionNote.Reason;
import vestibule.bridge.object.Visit;

/** What it means that something that was filed is decided otherwise. */
final class Correcting {

    private Correcting() {}

    /**
     * The decision as it is to be recorded.
     *
     * @param decision with the edition it is, and with what need not change left as it was filed
     * @param reason why what was filed is wrong; empty where it stands
     */
    record Corrected(DecisionText decision, Optional<Reason> reason) {}

    /** Holds a new decision against the one that was filed. */
    static Corrected of(DecisionText filed, DecisionText now) {
        DecisionText kept = asWritten(filed, now).inEdition(filed.edition()).with(numbered(now.visit(), filed.visit()));
        DecisionText bare = bare(kept);
        if (bare.equals(bare(filed))) {
            return new Corrected(kept, Optional.empty());
        }
        DecisionText corrected = now.inEdition(filed.edition() + 1).with(kept.visit());
        return new Corrected(corrected, Optional.of(reason(filed, kept)));
    }

    /** Where it was not kept which way the filed picture lies, that it is known by now makes no difference. */
    private static DecisionText asWritten(DecisionText filed, DecisionText now) {
        boolean unknown =
                filed.shown().map(shown -> shown.orientation().isEmpty()).orElse(false);
        return unknown && now.shown().isPresent() ? now.with(now.shown().get().withoutOrientation()) : now;
    }

    /** Where nothing but the number in the series came out otherwise, the number that was filed stays. */
    private static Visit numbered(Visit now, Visit filed) {
        Visit same = now.photographed(now.stage(), filed.instanceNumber());
        return same.equals(filed) ? filed : now;
    }

    /** Without the grounds, which no object holds. */
    private static DecisionText bare(DecisionText decision) {
        return new DecisionText(
                decision.patient(),
                decision.shown(),
                decision.visit(),
                decision.clock(),
                List.of(),
                decision.edition());
    }

    /** The gravest of what differs. */
    private static Reason reason(DecisionText filed, DecisionText now) {
        if (!filed.patient().equals(now.patient())) {
            return Reason.WRONG_PATIENT;
        }
        if (!filed.shown().equals(now.shown())) {
            return Reason.WRONG_VIEW;
        }
        boolean study = !filed.visit().study().equals(now.visit().study())
                || !filed.visit().order().equals(now.visit().order());
        return study ? Reason.WRONG_ORDER : Reason.WRONG_DETAIL;
    }
}
