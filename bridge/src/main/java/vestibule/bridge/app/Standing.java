package vestibule.bridge.app;

import java.util.List;
import java.util.Optional;
import vestibule.bridge.object.RejectionNote;
import vestibule.bridge.patient.Patient;
import vestibule.bridge.patient.Reason;
import vestibule.bridge.view.ViewReason;

/** How a new ruling stands to what was decided and filed before. */
final class Standing {

    private Standing() {}

    /** What there is to say of a photograph; nothing where what was decided of it stands. */
    static Optional<Deciding.Ruling> news(Deciding.Candidate candidate, Deciding.Ruling ruling) {
        Deciding.Ruling edited = edited(candidate, ruling);
        return isNews(candidate, edited) ? Optional.of(seen(candidate, edited)) : Optional.empty();
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

    /** Whether there is anything to say; what is filed is looked at again only when a person spoke, or when it is another patient's. */
    private static boolean isNews(Deciding.Candidate candidate, Deciding.Ruling ruling) {
        if (candidate.filed() && !spoken(candidate)) {
            return isOtherView(ruling) || otherPatient(candidate, ruling);
        }
        return !(ruling instanceof Deciding.Decided decided)
                || !candidate.decision().equals(Optional.of(decided.decision()));
    }

    private static Deciding.Ruling seen(Deciding.Candidate candidate, Deciding.Ruling ruling) {
        return candidate.filed() && !spoken(candidate) && !isOtherView(ruling)
                ? Deciding.Doubtful.saying(
                        candidate.photo(),
                        Reason.FILED_UNDER_ANOTHER_PATIENT.code(),
                        Reason.FILED_UNDER_ANOTHER_PATIENT.sentence(),
                        DecisionText.NOTHING)
                : ruling;
    }

    private static boolean isOtherView(Deciding.Ruling ruling) {
        return ruling instanceof Deciding.Doubtful doubtful
                && doubtful.reason().equals(ViewReason.FILED_AS_ANOTHER_VIEW.code());
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

    /** Whether a person said anything that the decision does not rest on yet. */
    private static boolean spoken(Deciding.Candidate candidate) {
        List<Ground> grounds = before(candidate).map(DecisionText::grounds).orElse(List.of());
        return candidate.statements().stream()
                .anyMatch(word ->
                        grounds.stream().noneMatch(ground -> !ground.at().isBefore(word.at())));
    }

    private static boolean otherPatient(Deciding.Candidate candidate, Deciding.Ruling ruling) {
        Optional<Patient> before = before(candidate).flatMap(DecisionText::patient);
        boolean disagrees = ruling instanceof Deciding.Doubtful doubtful
                && doubtful.reason().equals(Reason.EVIDENCE_DISAGREES.code());
        if (before.isEmpty() || !(ruling instanceof Deciding.Decided decided)) {
            return disagrees;
        }
        Patient now = written(decided.decision()).patient().orElseThrow();
        boolean sameIssuer = now.issuer().isEmpty()
                || before.get().issuer().isEmpty()
                || now.issuer().equals(before.get().issuer());
        return !now.id().equals(before.get().id()) || !sameIssuer;
    }
}
