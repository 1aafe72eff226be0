package vestibule.bridge.app;

import java.io.IOException;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import vestibule.bridge.object.Visit;
import vestibule.bridge.outbox.Consignments;
import vestibule.bridge.patient.Match;
import vestibule.bridge.settings.Settings;
import vestibule.bridge.view.ViewRules;
import vestibule.dicom.data.Uid;
import vestibule.dicom.jpeg.Recoding;
import vestibule.dicom.jpeg.Turn;

/** Decides the photographs of one sitting, whose patient is found: which view each shows, and which study they go into. */
final class SittingRulings {

    private final Settings settings;
    private final ViewRules rules;
    private final Viewing viewing;
    private final Optional<Studying> studying;

    /** @param studying who finds the studies; without it, photographs of one patient and day share one */
    SittingRulings(Settings settings, Viewing viewing, Optional<Studying> studying) {
        this.settings = settings;
        this.rules = ViewRules.of(
                settings.views(), settings.sets(), settings.practice().coding(), Optional.empty());
        this.viewing = viewing;
        this.studying = studying;
    }

    /** A photograph of a sitting with all that is known of it. */
    record Member(Deciding.Candidate candidate, FrameReader.Frame frame, Match match) {

        String photo() {
            return candidate.photo();
        }
    }

    /** Of what is no photograph that can be used. */
    static Deciding.Ruling unreadable(String photo, FrameReader.Unusable unusable) {
        return Deciding.Doubtful.saying(
                photo,
                "unreadable",
                unusable.problem() + "; it stays in our keeping as it is, and may be discarded",
                DecisionText.NOTHING);
    }

    /**
     * Decides all of a sitting.
     *
     * @param members photographs of one run of frames and one patient, or of nobody certain, in the order they were taken
     * @param whole whether these are all photographs of it
     * @param source where they lie, which knows what we filed
     * @param rulings where each ruling goes
     * @return how the sitting stands
     */
    SittingState rule(
            List<Member> members, boolean whole, Deciding.Photographs source, Map<String, Deciding.Ruling> rulings)
            throws IOException {
        Sitting sitting = sitting(members, whole);
        Viewing.Looked looked = viewing.look(sitting);
        List<Viewing.Look> looks = looked.looks();
        Studying.Studied studied = studied(sitting, looks, source);
        for (int i = 0; i < members.size(); i++) {
            Member member = members.get(i);
            Visit visit =
                    studied instanceof Studying.Visits visits ? visits.visits().get(i) : Visit.UNSAID;
            Deciding.Ruling ruling = rule(member, looks.get(i), visit);
            rulings.put(
                    member.photo(),
                    studied instanceof Studying.Undecided undecided && ruling instanceof Deciding.Decided decided
                            ? studyDoubt(undecided, decided)
                            : ruling);
        }
        return SittingState.of(sitting, looked.report(), rules.views());
    }

    /** Whoever named the study, an archive that keeps one for two patients shows one of them what is the other's. */
    private Studying.Studied studied(Sitting sitting, List<Viewing.Look> looks, Deciding.Photographs source)
            throws IOException {
        if (studying.isEmpty() || sitting.patient().isEmpty()) {
            return new Studying.Visits(looks.stream().map(look -> Visit.UNSAID).toList(), "nobody was asked");
        }
        Studying.Studied studied = studying.get().study(sitting, looks);
        if (studied instanceof Studying.Visits visits) {
            for (Uid study : visits.studies()) {
                if (source.isOfAnother(study, sitting.patient().get())) {
                    return new Studying.Undecided(
                            Consignments.STUDY_OF_ANOTHER_PATIENT,
                            "something was filed in that study under another patient, and no study is two patients'; say which study it is, or new");
                }
            }
        }
        return studied;
    }

    private static Sitting sitting(List<Member> members, boolean whole) {
        Match match = members.get(0).match();
        List<Sitting.Shot> shots = members.stream()
                .map(member -> new Sitting.Shot(member.candidate(), member.frame()))
                .toList();
        return match instanceof Match.Certain certain
                ? new Sitting(Optional.of(certain.patient()), certain.appointments(), shots, whole)
                : new Sitting(Optional.empty(), List.of(), shots, whole);
    }

    private static Deciding.Ruling studyDoubt(Studying.Undecided undecided, Deciding.Decided decided) {
        Deciding.Doubtful doubt = Deciding.Doubtful.saying(
                decided.photo(), undecided.reason(), undecided.message(), DecisionText.NOTHING);
        return new Deciding.Doubtful(doubt.photo(), doubt.reason(), doubt.message(), Optional.of(decided.decision()));
    }

    private Deciding.Ruling rule(Member member, Viewing.Look look, Visit visit) {
        DecisionText decision = new DecisionText(
                Optional.empty(), Optional.empty(), visit, member.frame().clock(), clockGrounds(member));
        if (look instanceof Viewing.Seen seen) {
            decision = decision.with(seen.shown()).with(seen.grounds());
        } else if (look instanceof Viewing.Unsure unsure && unsure.proposal().isPresent()) {
            decision = decision.with(unsure.proposal().get().shown());
        }
        if (member.match() instanceof Match.Certain certain) {
            decision = decision.with(certain.patient()).with(grounds(certain));
        } else if (member.match() instanceof Match.Doubt doubt) {
            decision = doubt.proposal().map(decision::with).orElse(decision);
            return Deciding.Doubtful.saying(
                    member.photo(), doubt.reason().code(), doubt.reason().sentence(), decision);
        }
        if (look instanceof Viewing.Unsure unsure) {
            return Deciding.Doubtful.saying(member.photo(), unsure.reason(), unsure.message(), decision);
        }
        return edgeDoubt(member, decision).orElse(new Deciding.Decided(member.photo(), decision.json()));
    }

    private static List<Ground> clockGrounds(Member member) {
        return member.frame().clock().isZero()
                ? List.of()
                : List.of(new Ground(
                        "clock",
                        "settings",
                        member.candidate().takenIn(),
                        "the camera noted "
                                + member.frame()
                                        .noted()
                                        .map(time -> time.local().toString())
                                        .orElse("nothing")));
    }

    private static List<Ground> grounds(Match.Certain certain) {
        return certain.evidence().stream()
                .map(one -> new Ground("patient", one.kind(), one.at(), one.origin()))
                .toList();
    }

    /** Where the picture would lose its edge in being turned and the practice keeps no raw one, a person has to say what is to be done. */
    private Optional<Deciding.Ruling> edgeDoubt(Member member, DecisionText decision) {
        try {
            Turn turn = member.frame()
                    .upright()
                    .then(decision.decisions(rules).placement().putRight());
            boolean loses = !turn.edgeLoss(member.frame().header()).isNone();
            boolean refused = settings.practice()
                    .pictures()
                    .edge(settings.practice().pictures().keepRaw())
                    .equals(Recoding.Edge.KEEP);
            return loses && refused
                    ? Optional.of(Deciding.Doubtful.saying(
                            member.photo(),
                            "edge-would-be-lost",
                            "without loss it cannot be laid the right way round, and no raw picture is kept beside it; set pictures.keep-raw, or pictures.edge to trim",
                            decision))
                    : Optional.empty();
        } catch (Failure contradiction) {
            return Optional.of(Deciding.Doubtful.saying(
                    member.photo(),
                    "view-contradiction",
                    String.valueOf(contradiction.getMessage()).replaceAll("\\.$", ""),
                    decision));
        }
    }
}
