package vestibule.bridge.app;

import java.util.Optional;
import java.util.Set;
import vestibule.bridge.object.RejectionNote;
import vestibule.bridge.patient.Assignments;
import vestibule.bridge.patient.Patient;
import vestibule.bridge.patient.Reason;
import vestibule.bridge.view.ViewReason;

/** How a new ruling stands to what was decided and filed before. */
final class Standing {

    /** Grounds that a photograph has from a card before it; what a person said of the card stands in its place. */
    private static final Set<String> CARDS = Set.of("patient-card", "id-code", "person");

    private Standing() {}

    /** What there is to say of a photograph; nothing where what was decided of it stands, or where it is filed and nobody disagrees. */
    static Optional<Deciding.Ruling> news(Deciding.Candidate candidate, Deciding.Ruling ruling) {
        if (candidate.filed() && !saidWhose(candidate)) {
            Optional<Reason> doubt = ofPatient(candidate, ruling);
            if (doubt.isPresent()) {
                return Optional.of(Deciding.Doubtful.saying(
                        candidate.photo(), doubt.get().code(), doubt.get().sentence(), DecisionText.NOTHING));
            }
        }
        Deciding.Ruling edited = edited(candidate, ruling);
        if (candidate.withdrawn() && edited instanceof Deciding.Decided) {
            return Optional.of(edited);
        }
        if (candidate.filed() && !candidate.spoken()) {
            return ofFiled(edited);
        }
        return edited instanceof Deciding.Decided decided
                        && candidate.decision().equals(Optional.of(decided.decision()))
                ? Optional.empty()
                : Optional.of(edited);
    }

    /** Whether a ruling says the same as what was decided, so that a doubt that came up since is gone. */
    static boolean agrees(Deciding.Candidate candidate, Deciding.Ruling ruling) {
        return ruling instanceof Deciding.Decided && news(candidate, ruling).isEmpty();
    }

    /**
     * Whether a person said anew whose the photograph is, or accepted a proposal of that. Whoever says its stage, its view or anything else
     * has not looked at the patient, whom a late card, another folder or other settings may make somebody else by now.
     */
    private static boolean saidWhose(Deciding.Candidate candidate) {
        return candidate.unheard().stream()
                .anyMatch(word -> word.about().equals("patient")
                        || Words.proposal(word)
                                .filter(DecisionText::onlyProposesPatient)
                                .isPresent());
    }

    /** What is filed is looked at again only when a person spoke, or when its patient is in doubt or it shows another view. */
    private static Optional<Deciding.Ruling> ofFiled(Deciding.Ruling ruling) {
        // Without a proposal: what would be accepted by it holds the patient as well
        return ruling instanceof Deciding.Doubtful doubtful && isOtherView(doubtful)
                ? Optional.of(new Deciding.Doubtful(
                        doubtful.photo(), doubtful.reason(), doubtful.message(), Optional.empty()))
                : Optional.empty();
    }

    private static boolean isOtherView(Deciding.Doubtful doubtful) {
        return doubtful.reason().equals(ViewReason.FILED_AS_ANOTHER_VIEW.code());
    }

    /** A new decision says which edition it is, and why what was filed is taken back. */
    private static Deciding.Ruling edited(Deciding.Candidate candidate, Deciding.Ruling ruling) {
        Optional<DecisionText> before = before(candidate);
        if (!(ruling instanceof Deciding.Decided decided)
                || candidate.decision().isEmpty()) {
            return ruling;
        }
        DecisionText now = written(decided.decision());
        if (before.isEmpty()) {
            String unreadable = RejectionNote.Reason.WRONG_DETAIL.word();
            return new Deciding.Decided(
                    candidate.photo(),
                    now.inEdition(1).json(),
                    candidate.filed() ? Optional.of(unreadable) : Optional.empty());
        }
        if (!candidate.filed()) {
            return new Deciding.Decided(
                    candidate.photo(), now.inEdition(before.get().edition()).json());
        }
        if (candidate.withdrawn()) {
            // It is on its way out of the archive already, or was taken out by hand, so nothing that was filed can
            // stand
            return new Deciding.Decided(
                    candidate.photo(), now.inEdition(before.get().edition() + 1).json());
        }
        Correcting.Corrected corrected = Correcting.of(before.get(), now);
        return new Deciding.Decided(
                candidate.photo(),
                corrected.decision().json(),
                corrected.reason().map(RejectionNote.Reason::word));
    }

    private static DecisionText written(String decision) {
        try {
            return DecisionText.read(decision);
        } catch (Failure own) {
            throw new IllegalStateException("a decision just written cannot be read", own);
        }
    }

    private static Optional<DecisionText> before(Deciding.Candidate candidate) {
        if (candidate.decision().isEmpty()) {
            return Optional.empty();
        }
        try {
            return Optional.of(DecisionText.read(candidate.decision().get()));
        } catch (Failure ofAnotherVersion) {
            return Optional.empty();
        }
    }

    /** Why it is in doubt whose a filed photograph is, if it is. */
    private static Optional<Reason> ofPatient(Deciding.Candidate candidate, Deciding.Ruling ruling) {
        if (otherPatient(candidate, ruling)) {
            return Optional.of(Reason.FILED_UNDER_ANOTHER_PATIENT);
        }
        return isCardInDoubt(ruling) && wentByCard(candidate)
                ? Optional.of(Reason.FILED_AND_IN_DOUBT)
                : Optional.empty();
    }

    /** Whether nothing says any more which card counts, so that the same photograph would have asked before it was filed. */
    private static boolean isCardInDoubt(Deciding.Ruling ruling) {
        return ruling instanceof Deciding.Doubtful doubtful
                && Assignments.GRAVE.stream().anyMatch(reason -> reason.code().equals(doubtful.reason()));
    }

    /**
     * Whether it was filed by what a card says, or a person on a card. Who said it of the photograph itself is not asked again, for such a
     * word counts whatever the cards say.
     */
    private static boolean wentByCard(Deciding.Candidate candidate) {
        return before(candidate).stream()
                .flatMap(decision -> decision.grounds().stream())
                .anyMatch(ground -> ground.about().equals("patient") && CARDS.contains(ground.kind()));
    }

    /** Whether the evidence names somebody else; a patient who is only proposed is a question by itself. */
    private static boolean otherPatient(Deciding.Candidate candidate, Deciding.Ruling ruling) {
        Optional<Patient> before = before(candidate).flatMap(DecisionText::patient);
        if (ruling instanceof Deciding.Doubtful doubtful) {
            return doubtful.reason().equals(Reason.EVIDENCE_DISAGREES.code())
                    || doubtful.proposal()
                            .map(Standing::written)
                            .filter(proposal -> !proposal.onlyProposesPatient())
                            .filter(proposal -> differ(before, proposal.patient()))
                            .isPresent();
        }
        return ruling instanceof Deciding.Decided decided
                && differ(before, written(decided.decision()).patient());
    }

    private static boolean differ(Optional<Patient> before, Optional<Patient> now) {
        if (before.isEmpty() || now.isEmpty()) {
            return false;
        }
        return !now.get().isCalled(before.get().id(), before.get().issuer());
    }
}
