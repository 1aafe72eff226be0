package vestibule.bridge.delivery;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import vestibule.dicom.data.Uid;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.net.AeTitle;
import vestibule.dicom.net.ApplicationEntity;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.AssociationException;
import vestibule.dicom.net.AssociationRequest;
import vestibule.dicom.net.Deadlines;
import vestibule.dicom.net.NegotiatedContext;
import vestibule.dicom.net.ProposedContext;
import vestibule.dicom.service.EchoOutcome;
import vestibule.dicom.service.QueryLevel;
import vestibule.dicom.service.QueryUser;
import vestibule.dicom.service.VerificationUser;

/** Tests the link to an archive without sending an object. */
public final class Probe {

    /** What became of a step. */
    public enum Result {
        PASSED("passed"),
        FAILED("failed"),
        NOT_ASKED("not asked");

        private final String words;

        Result(String words) {
            this.words = words;
        }

        /** As reports name it. */
        public String words() {
            return words;
        }
    }

    /**
     * One step.
     *
     * @param name what was tried
     * @param result what became of it
     * @param sentence what was found, and what to change
     * @param needed whether photographs can be stored without it
     */
    public record Step(String name, Result result, String sentence, boolean needed) {}

    private final ApplicationEntity archive;
    private final AeTitle calling;
    private final Deadlines deadlines;

    /** Of that archive, under our title. */
    public Probe(Destination archive, String callingAe, Deadlines deadlines) {
        this.archive = archive.entity();
        this.calling = new AeTitle(callingAe);
        this.deadlines = deadlines;
    }

    /** Takes every step; those after a failed one that they need are not asked. */
    public List<Step> run() {
        List<Step> steps = new ArrayList<>();
        List<ProposedContext> proposals = List.of(
                VerificationUser.proposal(),
                ProposedContext.of(Uids.VL_PHOTOGRAPHIC_IMAGE_STORAGE, Uids.JPEG_BASELINE8_BIT),
                QueryUser.proposal(QueryLevel.Model.STUDY_ROOT));
        try (Association association =
                Association.open(AssociationRequest.of(calling, proposals), archive, deadlines)) {
            steps.add(new Step("association", Result.PASSED, "%s accepts %s".formatted(archive, calling), true));
            steps.add(echo(association));
            steps.add(context(association, "photographs", Uids.VL_PHOTOGRAPHIC_IMAGE_STORAGE, true));
            steps.add(context(association, "queries", Uids.STUDY_ROOT_QUERY_RETRIEVE_INFORMATION_MODEL_FIND, false));
        } catch (AssociationException e) {
            steps.add(new Step("association", Result.FAILED, String.valueOf(e.getMessage()), true));
            for (String name : List.of("echo", "photographs", "queries")) {
                steps.add(new Step(name, Result.NOT_ASKED, "there is no association", false));
            }
        }
        return steps;
    }

    private static Step echo(Association association) {
        EchoOutcome outcome = new VerificationUser(association).echo();
        if (outcome instanceof EchoOutcome.Alive alive) {
            return new Step(
                    "echo",
                    Result.PASSED,
                    "answered in %d ms".formatted(alive.roundTrip().toMillis()),
                    true);
        }
        if (outcome instanceof EchoOutcome.Refused refused) {
            return new Step(
                    "echo",
                    Result.FAILED,
                    "%s %s".formatted(refused.status(), refused.comment()).strip(),
                    true);
        }
        if (outcome instanceof EchoOutcome.NotSent notSent) {
            return new Step("echo", Result.FAILED, notSent.reason(), true);
        }
        if (outcome instanceof EchoOutcome.Unknown unknown) {
            return new Step(
                    "echo", Result.FAILED, String.valueOf(unknown.cause().getMessage()), true);
        }
        throw new AssertionError(outcome);
    }

    private static Step context(Association association, String name, Uid sopClass, boolean needed) {
        Optional<NegotiatedContext> context = association.contexts().stream()
                .filter(one -> one.abstractSyntax().equals(Optional.of(sopClass)))
                .findFirst();
        boolean accepted = context.isPresent() && context.get().isAccepted();
        String what = needed ? "VL Photographic Image Storage in JPEG Baseline" : "Study Root C-FIND";
        return new Step(
                name,
                accepted ? Result.PASSED : Result.FAILED,
                accepted
                        ? what + " is accepted"
                        : "%s: %s"
                                .formatted(
                                        what,
                                        context.map(one -> one.result().words()).orElse("not answered")),
                needed);
    }
}
