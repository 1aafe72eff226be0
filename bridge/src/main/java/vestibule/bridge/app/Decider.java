package vestibule.bridge.app;

import java.io.IOException;
import java.time.Clock;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import vestibule.bridge.object.RejectionNote;
import vestibule.bridge.object.Visit;
import vestibule.bridge.patient.Assignments;
import vestibule.bridge.patient.CaptureChecks;
import vestibule.bridge.patient.Frame;
import vestibule.bridge.patient.Match;
import vestibule.bridge.patient.Matching;
import vestibule.bridge.patient.Patient;
import vestibule.bridge.patient.Reason;
import vestibule.bridge.patient.Sittings;
import vestibule.bridge.photo.CaptureTime;
import vestibule.bridge.settings.Settings;
import vestibule.bridge.view.ViewRules;
import vestibule.dicom.jpeg.Turn;

/**
 * Decides who is on the photographs of a source, which view each shows and which study it goes into. First the whole source is read and
 * cut into runs of one patient; then each photograph is tied to a patient by all evidence there is; then the views of each sitting are
 * found, and its study.
 */
final class Decider implements Deciding {

    private static final String DISCARDED = "A person does not want it filed.";

    private final Settings settings;
    private final ViewRules rules;
    private final Directories directories;
    private final Viewing viewing;
    private final Optional<Studying> studying;
    private final FrameReader reader;
    private final PatientEvidence evidence;
    private final CaptureChecks checks;

    /**
     * @param settings of the practice
     * @param directories who can be asked about patients
     * @param viewing who finds the views
     * @param studying who finds the studies; without it, photographs of one patient and day share one
     * @param memory what was read in photographs before
     * @param clock for the zone that cameras run in where the practice names none
     */
    Decider(
            Settings settings,
            Directories directories,
            Viewing viewing,
            Optional<Studying> studying,
            Memory memory,
            Clock clock) {
        this.settings = settings;
        this.rules = ViewRules.of(
                settings.views(), settings.sets(), settings.practice().coding(), Optional.empty());
        this.directories = directories;
        this.viewing = viewing;
        this.studying = studying;
        this.reader = new FrameReader(settings.cameras(), settings.patients(), memory);
        this.evidence = new PatientEvidence(settings.patients());
        ZoneId zone = settings.practice().zone().orElse(clock.getZone());
        this.checks = new CaptureChecks(zone);
    }

    @Override
    public Round decide(List<Candidate> photos) throws IOException {
        Sorting round = new Sorting(photos, reader.read(photos));
        List<Ruling> rulings = new ArrayList<>();
        Map<String, Ruling> all = round.rulings();
        for (Candidate candidate : photos) {
            Ruling ruling = all.get(candidate.photo());
            if (ruling != null) {
                Ruling edited = Standing.edited(candidate, ruling);
                if (Standing.news(candidate, edited)) {
                    rulings.add(Standing.seen(candidate, edited));
                }
            }
        }
        return new Round(rulings, round.sittings);
    }

    /** How a new ruling stands to what was decided and filed before. */
    private static final class Standing {

        private Standing() {}

        /** A new decision says which edition it is, and why what was filed is taken back. */
        static Ruling edited(Candidate candidate, Ruling ruling) {
            Optional<DecisionText> before = before(candidate);
            if (!(ruling instanceof Decided decided) || candidate.decision().isEmpty()) {
                return ruling;
            }
            DecisionText now = written(decided.decision());
            if (before.isEmpty()) {
                String unreadable = RejectionNote.Reason.WRONG_DETAIL.word();
                return new Decided(
                        candidate.photo(),
                        now.inEdition(1).json(),
                        candidate.filed() ? Optional.of(unreadable) : Optional.empty());
            }
            if (!candidate.filed()) {
                return new Decided(
                        candidate.photo(), now.inEdition(before.get().edition()).json());
            }
            Correcting.Corrected corrected = Correcting.of(before.get(), now);
            return new Decided(
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
        static boolean news(Candidate candidate, Ruling ruling) {
            if (candidate.filed() && !spoken(candidate)) {
                return otherPatient(candidate, ruling);
            }
            return !(ruling instanceof Decided decided)
                    || !candidate.decision().equals(Optional.of(decided.decision()));
        }

        static Ruling seen(Candidate candidate, Ruling ruling) {
            return candidate.filed() && !spoken(candidate)
                    ? doubt(
                            candidate,
                            Reason.FILED_UNDER_ANOTHER_PATIENT.code(),
                            Reason.FILED_UNDER_ANOTHER_PATIENT.sentence(),
                            DecisionText.NOTHING)
                    : ruling;
        }

        private static Optional<DecisionText> before(Candidate candidate) {
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
        private static boolean spoken(Candidate candidate) {
            List<Ground> grounds = before(candidate).map(DecisionText::grounds).orElse(List.of());
            return candidate.statements().stream()
                    .anyMatch(word ->
                            grounds.stream().noneMatch(ground -> !ground.at().isBefore(word.at())));
        }

        private static boolean otherPatient(Candidate candidate, Ruling ruling) {
            Optional<Patient> before = before(candidate).flatMap(DecisionText::patient);
            boolean disagrees =
                    ruling instanceof Doubtful doubtful && doubtful.reason().equals(Reason.EVIDENCE_DISAGREES.code());
            if (before.isEmpty() || !(ruling instanceof Decided decided)) {
                return disagrees;
            }
            Patient now = written(decided.decision()).patient().orElseThrow();
            boolean sameIssuer = now.issuer().isEmpty()
                    || before.get().issuer().isEmpty()
                    || now.issuer().equals(before.get().issuer());
            return !now.id().equals(before.get().id()) || !sameIssuer;
        }
    }

    private static Doubtful doubt(Candidate candidate, String reason, String message, DecisionText proposal) {
        return new Doubtful(
                candidate.photo(),
                reason,
                sentence(message),
                Optional.of(proposal.json()).filter(text -> !proposal.equals(DecisionText.NOTHING)));
    }

    /** Names of files may name patients, so none stands in a sentence; whoever prints it has the name of the file beside it. */
    private static String sentence(String message) {
        return message.substring(0, 1).toUpperCase(Locale.ROOT) + message.substring(1) + ".";
    }

    /** One round of decisions about one source. */
    private final class Sorting {

        private final List<Candidate> candidates;
        private final Map<String, FrameReader.Content> contents;
        private final Map<String, Ruling> rulings = new HashMap<>();
        private final Map<String, Assignments.Assigned> assigned = new HashMap<>();
        private final List<SittingState> sittings = new ArrayList<>();

        Sorting(List<Candidate> candidates, Map<String, FrameReader.Content> contents) {
            this.candidates = candidates;
            this.contents = contents;
        }

        Map<String, Ruling> rulings() throws IOException {
            List<Frame> frames = frames();
            Directories.Opened opened = directories.open(days(frames));
            Assignments assignments = new Assignments(
                    new Sittings(settings.cameras().pause(), settings.cameras().merge(), opened.diary()),
                    new Matching(opened.all(), settings.practice().issuer()),
                    checks);
            Map<String, Candidate> byKey = candidates.stream()
                    .collect(Collectors.toMap(Candidate::photo, candidate -> candidate, (one, same) -> one));
            assigned.putAll(assignments.of(frames.stream()
                    .map(frame -> item(frame, known(byKey, frame.key())))
                    .toList()));
            Map<String, List<Candidate>> together = new LinkedHashMap<>();
            frames.stream().sorted(Sittings.order()).map(Frame::key).forEach(key -> {
                if (!rulings.containsKey(key)) {
                    together.computeIfAbsent(sitting(known(assigned, key)), name -> new ArrayList<>())
                            .add(known(byKey, key));
                }
            });
            for (List<Candidate> sitting : together.values()) {
                rule(sitting);
            }
            return rulings;
        }

        private Assignments.Item item(Frame frame, Candidate candidate) {
            return new Assignments.Item(
                    frame,
                    candidate.fileTime(),
                    candidate.takenIn(),
                    evidence.said(candidate),
                    evidence.written(candidate, frame(candidate).text()));
        }

        /** Everything that is a photograph, and rulings for what is none. */
        private List<Frame> frames() {
            List<Frame> frames = new ArrayList<>();
            for (Candidate candidate : candidates) {
                FrameReader.Content content = contents.get(candidate.photo());
                if (content instanceof FrameReader.Unusable unusable) {
                    rulings.put(
                            candidate.photo(),
                            doubt(
                                    candidate,
                                    "unreadable",
                                    unusable.problem() + "; it stays in our keeping as it is, and may be discarded",
                                    DecisionText.NOTHING));
                } else if (content instanceof FrameReader.Frame frame) {
                    Optional<Frame.Mark> mark = evidence.mark(candidate, frame.code());
                    frames.add(new Frame(
                            candidate.photo(),
                            candidate.name(),
                            frame.camera(),
                            frame.taken().map(CaptureTime::local),
                            mark));
                    setAside(candidate, mark);
                }
                if (new Words(candidate).discarded()) {
                    rulings.put(candidate.photo(), new Aside(candidate.photo(), DISCARDED));
                }
            }
            return frames;
        }

        private void setAside(Candidate candidate, Optional<Frame.Mark> mark) {
            if (new Words(candidate).last("not-a-photograph").isPresent()) {
                rulings.put(
                        candidate.photo(),
                        new Aside(candidate.photo(), "A person said that it is no photograph to file."));
            } else if (mark.isPresent() && mark.get() instanceof Frame.Start) {
                rulings.put(candidate.photo(), new Aside(candidate.photo(), "It is a patient card."));
            } else if (mark.isPresent() && mark.get() instanceof Frame.Broken broken) {
                rulings.put(
                        candidate.photo(),
                        doubt(candidate, broken.reason().code(), broken.reason().sentence(), DecisionText.NOTHING));
            }
        }

        private Set<LocalDate> days(List<Frame> frames) {
            return frames.stream()
                    .flatMap(frame -> frame.taken().stream())
                    .map(java.time.LocalDateTime::toLocalDate)
                    .collect(Collectors.toSet());
        }

        private static <T> T known(Map<String, T> map, String photo) {
            return Objects.requireNonNull(map.get(photo));
        }

        private FrameReader.Frame frame(Candidate candidate) {
            return (FrameReader.Frame) known(contents, candidate.photo());
        }

        private static String sitting(Assignments.Assigned assigned) {
            return assigned.run()
                    + (assigned.match() instanceof Match.Certain certain
                            ? "\n" + certain.patient().issuer().orElse("") + "\n"
                                    + certain.patient().id()
                            : "");
        }

        private Match match(Candidate candidate) {
            return known(assigned, candidate.photo()).match();
        }

        private void rule(List<Candidate> candidates) throws IOException {
            Match match = match(candidates.get(0));
            Sitting sitting = new Sitting(
                    match instanceof Match.Certain certain ? Optional.of(certain.patient()) : Optional.empty(),
                    match instanceof Match.Certain certain
                            ? certain.appointments().stream()
                                    .map(VisitStudying::order)
                                    .toList()
                            : List.of(),
                    candidates.stream()
                            .map(candidate -> new Sitting.Shot(
                                    candidate,
                                    frame(candidate).photo(),
                                    frame(candidate).taken()))
                            .toList());
            Viewing.Looked looked = viewing.look(sitting);
            List<Viewing.Look> looks = looked.looks();
            sittings.add(SittingState.of(sitting, looked.report(), rules.views()));
            Studying.Studied studied = studying.isPresent() && sitting.patient().isPresent()
                    ? studying.get().study(sitting, looks)
                    : new Studying.Visits(
                            candidates.stream().map(candidate -> Visit.UNSAID).toList(), "nobody was asked");
            for (int i = 0; i < candidates.size(); i++) {
                Candidate candidate = candidates.get(i);
                Visit visit = studied instanceof Studying.Visits visits
                        ? visits.visits().get(i)
                        : Visit.UNSAID;
                Ruling ruling = rule(candidate, match(candidate), looks.get(i), visit);
                rulings.put(
                        candidate.photo(),
                        studied instanceof Studying.Undecided undecided && ruling instanceof Decided decided
                                ? new Doubtful(
                                        candidate.photo(),
                                        undecided.reason(),
                                        sentence(undecided.message()),
                                        Optional.of(decided.decision()))
                                : ruling);
            }
        }

        private Ruling rule(Candidate candidate, Match match, Viewing.Look look, Visit visit) {
            FrameReader.Frame frame = frame(candidate);
            DecisionText decision = new DecisionText(
                    Optional.empty(), Optional.empty(), visit, frame.clock(), clockGrounds(candidate, frame));
            if (look instanceof Viewing.Seen seen) {
                decision = decision.with(seen.shown()).with(seen.grounds());
            } else if (look instanceof Viewing.Unsure unsure
                    && unsure.proposal().isPresent()) {
                decision = decision.with(unsure.proposal().get().shown());
            }
            if (match instanceof Match.Certain certain) {
                decision = decision.with(certain.patient()).with(grounds(certain));
            } else if (match instanceof Match.Doubt doubt) {
                decision = doubt.proposal().map(decision::with).orElse(decision);
                return doubt(candidate, doubt.reason().code(), doubt.reason().sentence(), decision);
            }
            if (look instanceof Viewing.Unsure unsure) {
                return doubt(candidate, unsure.reason(), unsure.message(), decision);
            }
            return edgeDoubt(candidate, decision).orElse(new Decided(candidate.photo(), decision.json()));
        }

        private List<Ground> clockGrounds(Candidate candidate, FrameReader.Frame frame) {
            return frame.clock().isZero()
                    ? List.of()
                    : List.of(new Ground(
                            "clock",
                            "settings",
                            candidate.takenIn(),
                            "the camera noted "
                                    + frame.photo()
                                            .camera()
                                            .captured()
                                            .map(time -> time.local().toString())
                                            .orElse("nothing")));
        }

        private static List<Ground> grounds(Match.Certain certain) {
            return certain.evidence().stream()
                    .map(one -> new Ground("patient", one.kind(), one.at(), one.origin()))
                    .toList();
        }

        /** Where the picture would lose its edge in being turned and the practice keeps no raw one, a person has to say what is to be done. */
        private Optional<Ruling> edgeDoubt(Candidate candidate, DecisionText decision) {
            try {
                Turn turn = frame(candidate)
                        .photo()
                        .upright()
                        .then(decision.decisions(rules).placement().putRight());
                boolean loses =
                        !turn.edgeLoss(frame(candidate).photo().jpeg().frame()).isNone();
                boolean refused = settings.practice()
                        .pictures()
                        .edge(settings.practice().pictures().keepRaw())
                        .equals(vestibule.dicom.jpeg.Recoding.Edge.KEEP);
                return loses && refused
                        ? Optional.of(doubt(
                                candidate,
                                "edge-would-be-lost",
                                "without loss it cannot be laid the right way round, and no raw picture is kept beside it; set pictures.keep-raw, or pictures.edge to trim",
                                decision))
                        : Optional.empty();
            } catch (Failure contradiction) {
                return Optional.of(doubt(
                        candidate,
                        "view-contradiction",
                        String.valueOf(contradiction.getMessage()).replaceAll("\\.$", ""),
                        decision));
            }
        }
    }
}
