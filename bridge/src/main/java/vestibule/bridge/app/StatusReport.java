package vestibule.bridge.app;

import java.io.IOException;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import tools.jackson.databind.json.JsonMapper;
import vestibule.bridge.intake.LeaveAlone;
import vestibule.bridge.outbox.Nodes;
import vestibule.bridge.outbox.Outbox;
import vestibule.bridge.outbox.Overview;
import vestibule.bridge.outbox.PhotoState;
import vestibule.bridge.outbox.Withdrawals;
import vestibule.bridge.settings.Settings;
import vestibule.bridge.settings.Study;

/**
 * What there is to know about all photographs.
 *
 * @param counts how many are in each state
 * @param attention what a person must see to: doubts, and what the archive refused
 * @param noted what the archive said that a person may want to know
 * @param takeBack what was filed wrongly and nothing took back yet
 * @param rejection how the archive is told of it
 * @param sittings how the sittings of the last hours stand against their sets
 * @param sources every card and folder, with its verdict
 * @param serving the services that run on it now, with what keeps them from going on
 */
record StatusReport(
        Map<PhotoState, Integer> counts,
        List<Overview.Photograph> attention,
        List<Overview.Photograph> noted,
        List<Withdrawals.Open> takeBack,
        Study.Rejection rejection,
        List<SittingState> sittings,
        List<CardVerdict> sources,
        List<Nodes.Serving> serving) {

    private static final JsonMapper JSON = JsonMapper.builder().build();
    /** While a patient may still sit there, and a little longer. */
    private static final Duration LATELY = Duration.ofHours(12);

    private static final String REFUSED = "archive-refused";
    private static final int MOST_LEFT_BEHIND = 20;

    static StatusReport of(Keeping keeping, Settings settings, Instant now) throws IOException {
        Outbox outbox = keeping.outbox();
        CardVerdict.Asking asking = new CardVerdict.Asking(
                outbox,
                keeping.originals(),
                keeping.owner(),
                LeaveAlone.USUAL.and(settings.running().intake().leaveAlone()),
                settings.running().intake().hangs());
        List<CardVerdict> verdicts = new ArrayList<>();
        for (Overview.Source source : outbox.overview().sources()) {
            verdicts.add(CardVerdict.of(asking, source));
        }
        return new StatusReport(
                outbox.overview().counts(),
                outbox.overview().in(PhotoState.NEEDS_ATTENTION, PhotoState.REJECTED),
                outbox.overview().noted(),
                outbox.withdrawals().open(Optional.empty()),
                settings.study().rejection(),
                SittingState.since(outbox, now.minus(LATELY)),
                verdicts,
                outbox.nodes().serving());
    }

    /** Whether a person has anything to do. */
    boolean asks() {
        return !attention.isEmpty() || takeBack.stream().anyMatch(open -> TakingBack.byHand(open, rejection));
    }

    private int in(PhotoState state) {
        return counts.getOrDefault(state, 0);
    }

    /** Photographs in the five states together. */
    int total() {
        return counts.entrySet().stream()
                .filter(entry -> entry.getKey() != PhotoState.SET_ASIDE)
                .mapToInt(Map.Entry::getValue)
                .sum();
    }

    /** Why a photograph is on the list. */
    static String reason(Overview.Photograph photo) {
        return photo.reason().orElse(REFUSED);
    }

    /** The sentence about it. */
    static String message(Overview.Photograph photo) {
        return photo.message().or(photo::note).orElse("the archive refused it for good");
    }

    String json() {
        Map<String, Object> photos = new LinkedHashMap<>();
        photos.put("total", total());
        for (PhotoState state : PhotoState.values()) {
            photos.put(state.word(), in(state));
        }
        Map<String, Object> report = new LinkedHashMap<>();
        report.put("photos", photos);
        report.put("attention", attention.stream().map(StatusReport::attention).toList());
        report.put("takeBack", takeBack.stream().map(this::takeBack).toList());
        report.put("sittings", sittings.stream().map(SittingState::described).toList());
        report.put("sources", sources.stream().map(StatusReport::source).toList());
        report.put("notes", noted.stream().map(StatusReport::note).toList());
        report.put("serving", serving.size());
        report.put("troubles", troubles());
        return JSON.writeValueAsString(report);
    }

    /** What keeps photographs from going on that nobody is asked about. */
    private List<String> troubles() {
        if (serving.isEmpty() && in(PhotoState.WAITING) + in(PhotoState.SENT) > 0) {
            return List.of("no service runs, so nothing is sent and nothing is committed: start vestibule run");
        }
        return serving.stream()
                .flatMap(node -> node.troubles().stream())
                .distinct()
                .toList();
    }

    private static Map<String, Object> attention(Overview.Photograph photo) {
        Map<String, Object> entry = new LinkedHashMap<>();
        entry.put("photo", photo.photo());
        entry.put("file", photo.name());
        entry.put("reason", reason(photo));
        entry.put("message", message(photo));
        return entry;
    }

    private static Map<String, Object> note(Overview.Photograph photo) {
        return Map.of(
                "photo",
                photo.photo(),
                "file",
                photo.name(),
                "message",
                photo.note().orElse(""));
    }

    private Map<String, Object> takeBack(Withdrawals.Open open) {
        Map<String, Object> entry = new LinkedHashMap<>();
        entry.put("photo", open.photo());
        entry.put("file", open.name());
        entry.put("object", open.sopInstance());
        entry.put("reason", open.reason());
        entry.put("byHand", TakingBack.byHand(open, rejection));
        return entry;
    }

    private static Map<String, Object> source(CardVerdict verdict) {
        Map<String, Object> entry = new LinkedHashMap<>();
        entry.put("source", verdict.source());
        entry.put("photos", verdict.photos());
        entry.put("safeToClear", verdict.safeToClear());
        entry.put("verdict", verdict.sentence());
        entry.put(
                "leftBehind",
                verdict.leftBehind().stream()
                        .map(left -> Map.of("file", left.file(), "message", left.sentence()))
                        .toList());
        entry.put("proofs", verdict.proofs());
        return entry;
    }

    private static void print(CardVerdict verdict, java.io.PrintStream out) {
        out.println("%s: %s".formatted(verdict.source(), verdict.sentence()));
        verdict.leftBehind().stream()
                .limit(MOST_LEFT_BEHIND)
                .forEach(left -> out.println("not taken in: %s: %s".formatted(left.file(), left.sentence())));
        if (verdict.leftBehind().size() > MOST_LEFT_BEHIND) {
            out.println("not taken in: and %d more, in status --json"
                    .formatted(verdict.leftBehind().size() - MOST_LEFT_BEHIND));
        }
    }

    void print(java.io.PrintStream out) {
        StringBuilder line = new StringBuilder(Counted.of(total(), "photograph") + ":");
        for (PhotoState state : PhotoState.values()) {
            line.append(" %d %s%s".formatted(in(state), state.word(), state == PhotoState.SET_ASIDE ? "" : ","));
        }
        out.println(line);
        troubles().forEach(out::println);
        attention.forEach(photo -> out.println("%s  %s  %s  %s"
                .formatted(photo.photo().substring(0, 12), photo.name(), reason(photo), message(photo))));
        takeBack.forEach(open -> out.println(TakingBack.sentence(open, rejection)));
        sittings.forEach(sitting -> sitting.lines().forEach(out::println));
        noted.stream()
                .filter(photo -> photo.state() != PhotoState.REJECTED)
                .forEach(photo -> out.println("%s  %s  note: %s"
                        .formatted(
                                photo.photo().substring(0, 12),
                                photo.name(),
                                photo.note().orElse(""))));
        sources.forEach(verdict -> print(verdict, out));
    }
}
