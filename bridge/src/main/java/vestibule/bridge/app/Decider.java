package vestibule.bridge.app;

import java.io.IOException;
import java.time.Clock;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import vestibule.bridge.patient.Assignments;
import vestibule.bridge.patient.CaptureChecks;
import vestibule.bridge.patient.Frame;
import vestibule.bridge.patient.Match;
import vestibule.bridge.patient.Matching;
import vestibule.bridge.patient.Sittings;
import vestibule.bridge.settings.Settings;

/**
 * Decides who is on the photographs of a source, which view each shows and which study it goes into. First the whole source is read and
 * cut into runs of one patient; then each photograph is tied to a patient by all evidence there is; then the views of each sitting are
 * found, and its study.
 */
final class Decider implements Deciding {

    private static final int WORDS_AT_ONCE = 100;
    private static final String DISCARDED = "A person does not want it filed.";

    private final Settings settings;
    private final Directories directories;
    private final FrameReader reader;
    private final SittingRulings sittingRulings;
    private final PatientEvidence evidence;
    private final CaptureChecks checks;
    private final ZoneId zone;

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
        this.directories = directories;
        this.sittingRulings = new SittingRulings(settings, viewing, studying);
        this.reader = new FrameReader(settings.cameras(), settings.patients(), memory);
        this.evidence = new PatientEvidence(settings.patients());
        this.zone = settings.practice().zone().orElse(clock.getZone());
        this.checks = new CaptureChecks(zone);
    }

    @Override
    public void decide(Photographs photographs) throws IOException {
        new Sorting(photographs).decide();
    }

    /** A photograph in brief, where it stands among the others, and whether the practice said anything of its camera's clock. */
    private record Brief(Photograph photograph, Frame frame, boolean clockSaid) {}

    /** One round of decisions about one source: everything in brief first, then one sitting after the other in full. */
    private final class Sorting {

        private final Photographs source;
        private final Map<String, Ruling> apart = new HashMap<>();
        private final Map<String, String> texts = new HashMap<>();
        private final Blanks blanks = new Blanks(evidence, zone);

        Sorting(Photographs source) {
            this.source = source;
        }

        void decide() throws IOException {
            List<Photograph> all = source.all();
            List<Brief> briefs = briefs(all);
            List<Frame> frames = briefs.stream().map(Brief::frame).toList();
            Directories.Opened opened = directories.open(days(frames));
            Assignments.Cut cut = new Assignments(
                            new Sittings(
                                    settings.cameras().pause(),
                                    settings.cameras().merge(),
                                    opened.diary()),
                            new Matching(opened.all(), settings.practice().issuer()),
                            checks)
                    .cut(blanks.among(frames));
            // Asks everybody who is to be asked about patients, so before anything is recorded
            List<List<Brief>> sittings = sittings(briefs, cut);
            bearWitness(briefs, cut);
            recordApart(all);
            for (List<Brief> sitting : sittings) {
                List<List<Brief>> portions = Portions.of(sitting);
                for (List<Brief> portion : portions) {
                    rule(portion, portions.size() == 1, cut);
                }
            }
        }

        /** Everything that is a photograph; what is none, or is not to be filed, is ruled on apart. */
        private List<Brief> briefs(List<Photograph> all) throws IOException {
            Map<String, FrameReader.Glance> glances = reader.glances(source, all);
            List<Brief> briefs = new ArrayList<>();
            source.unread().forEach(blanks::add);
            for (Photograph photograph : all) {
                FrameReader.Glance glance = glances.get(photograph.photo());
                if (glance instanceof FrameReader.Unusable unusable) {
                    blanks.add(photograph, unusable);
                    apart.put(photograph.photo(), SittingRulings.unreadable(photograph.photo(), unusable));
                } else if (glance instanceof FrameReader.Noted noted) {
                    Optional<Frame.Mark> mark = evidence.mark(photograph, noted.code());
                    briefs.add(new Brief(
                            photograph,
                            new Frame(
                                    photograph.photo(),
                                    photograph.name(),
                                    noted.camera(),
                                    photograph.medium(),
                                    noted.taken(),
                                    mark),
                            noted.clockSaid()));
                    noted.text().ifPresent(text -> texts.put(photograph.photo(), text));
                    setApart(photograph, mark);
                }
                if (new Words(photograph).discarded()) {
                    apart.put(photograph.photo(), new Aside(photograph.photo(), DISCARDED));
                }
            }
            return briefs;
        }

        private void setApart(Photograph photograph, Optional<Frame.Mark> mark) {
            String photo = photograph.photo();
            Words words = new Words(photograph);
            if (words.isNoPhotograph()) {
                apart.put(photo, new Aside(photo, "A person said that it is no photograph to file."));
            } else if (mark.isPresent() && !words.isToBeFiled()) {
                apart.put(photo, ofCard(photo, mark.get()));
            }
        }

        private static Ruling ofCard(String photo, Frame.Mark mark) {
            return mark instanceof Frame.Broken broken
                    ? Doubtful.saying(
                            photo, broken.reason().code(), broken.reason().sentence(), DecisionText.NOTHING)
                    : new Aside(photo, "It is a patient card.");
        }

        /** What the cards here say of photographs that another source brought first counts there, for it may lack a card. */
        private void bearWitness(List<Brief> briefs, Assignments.Cut cut) throws IOException {
            Map<String, Optional<String>> words = new HashMap<>();
            for (Brief brief : briefs) {
                Optional<String> says = cut.heard(brief.frame()).map(HeardText::write);
                if (brief.photograph().elsewhere().borne()
                        && !says.equals(brief.photograph().elsewhere().says())) {
                    words.put(brief.photograph().photo(), says);
                }
                if (words.size() == WORDS_AT_ONCE) {
                    source.goOn();
                    source.bear(words);
                    words.clear();
                }
            }
            source.bear(words);
        }

        private void recordApart(List<Photograph> all) throws IOException {
            List<Photograph> some = all.stream()
                    .filter(photograph -> apart.containsKey(photograph.photo()))
                    .filter(photograph -> !photograph.elsewhere().decided())
                    .toList();
            for (List<Photograph> portion : Portions.of(some)) {
                record(source.candidates(portion), apart, List.of());
            }
        }

        private void record(List<Candidate> about, Map<String, Ruling> rulings, List<SittingState> sittings)
                throws IOException {
            List<Ruling> news = about.stream()
                    .flatMap(candidate -> Standing.news(candidate, known(rulings, candidate.photo())).stream())
                    .toList();
            Set<String> agreeing = about.stream()
                    .filter(candidate -> Standing.agrees(candidate, known(rulings, candidate.photo())))
                    .map(Candidate::photo)
                    .collect(Collectors.toSet());
            source.record(about, new Round(news, agreeing, sittings));
        }

        private static <T> T known(Map<String, T> map, String photo) {
            return Objects.requireNonNull(map.get(photo));
        }

        private static Set<LocalDate> days(List<Frame> frames) {
            return frames.stream()
                    .flatMap(frame -> frame.taken().stream())
                    .map(LocalDateTime::toLocalDate)
                    .collect(Collectors.toSet());
        }

        /** Photographs of one run of frames and one patient, in the order they were taken. */
        private List<List<Brief>> sittings(List<Brief> briefs, Assignments.Cut cut) throws IOException {
            Map<String, List<Brief>> together = new LinkedHashMap<>();
            List<Brief> ordered = briefs.stream()
                    .filter(brief -> !apart.containsKey(brief.frame().key()))
                    .filter(brief -> !brief.photograph().elsewhere().decided())
                    .sorted(Comparator.comparing(
                            Brief::frame,
                            Sittings.order(briefs.stream().map(Brief::frame).toList())))
                    .toList();
            for (Brief brief : ordered) {
                source.goOn();
                together.computeIfAbsent(name(cut.of(item(brief))), name -> new ArrayList<>())
                        .add(brief);
            }
            return List.copyOf(together.values());
        }

        private static String name(Assignments.Assigned assigned) {
            return assigned.run()
                    + (assigned.match() instanceof Match.Certain certain
                            ? "\n" + certain.patient().issuer().orElse("") + "\n"
                                    + certain.patient().id()
                            : "");
        }

        private Assignments.Item item(Brief brief) {
            Photograph photograph = brief.photograph();
            return new Assignments.Item(
                    brief.frame(),
                    photograph.fileTime(),
                    photograph.takenIn(),
                    brief.clockSaid(),
                    evidence.said(photograph),
                    evidence.seenBeside(photograph),
                    evidence.written(photograph, Optional.ofNullable(texts.get(photograph.photo()))),
                    photograph.elsewhere().heard().stream().map(HeardText::read).toList());
        }

        private void rule(List<Brief> sitting, boolean whole, Assignments.Cut cut) throws IOException {
            List<Candidate> candidates =
                    source.candidates(sitting.stream().map(Brief::photograph).toList());
            Map<String, Match> matches = new HashMap<>();
            for (Brief brief : sitting) {
                matches.put(brief.frame().key(), cut.of(item(brief)).match());
            }
            Map<String, Ruling> rulings = new HashMap<>();
            List<SittingRulings.Member> members = new ArrayList<>();
            for (Candidate candidate : candidates) {
                source.goOn();
                FrameReader.Content content = reader.read(candidate);
                if (content instanceof FrameReader.Frame frame) {
                    members.add(new SittingRulings.Member(candidate, frame, known(matches, candidate.photo())));
                } else {
                    rulings.put(candidate.photo(), SittingRulings.unreadable(candidate.photo(), (FrameReader.Unusable)
                            content));
                }
            }
            List<SittingState> states =
                    members.isEmpty() ? List.of() : List.of(sittingRulings.rule(members, whole, source, rulings));
            record(candidates, rulings, states);
        }
    }
}
