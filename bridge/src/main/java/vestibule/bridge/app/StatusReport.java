package vestibule.bridge.app;

import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import tools.jackson.databind.json.JsonMapper;
import vestibule.bridge.intake.LeaveAlone;
import vestibule.bridge.outbox.Outbox;
import vestibule.bridge.outbox.Overview;
import vestibule.bridge.outbox.PhotoState;

/**
 * What there is to know about all photographs.
 *
 * @param counts how many are in each state
 * @param attention what a person must see to: doubts, and what the archive refused
 * @param noted what the archive said that a person may want to know
 * @param sources every card and folder, with its verdict
 */
record StatusReport(
        Map<PhotoState, Integer> counts,
        List<Overview.Photograph> attention,
        List<Overview.Photograph> noted,
        List<CardVerdict> sources) {

    private static final JsonMapper JSON = JsonMapper.builder().build();
    private static final String REFUSED = "archive-refused";

    static StatusReport of(Outbox outbox, String place, LeaveAlone leaveAlone) throws IOException {
        List<CardVerdict> verdicts = new ArrayList<>();
        for (Overview.Source source : outbox.overview().sources()) {
            verdicts.add(CardVerdict.of(outbox, source, place, leaveAlone));
        }
        return new StatusReport(
                outbox.overview().counts(),
                outbox.overview().in(PhotoState.NEEDS_ATTENTION, PhotoState.REJECTED),
                outbox.overview().noted(),
                verdicts);
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
        report.put("sources", sources.stream().map(StatusReport::source).toList());
        report.put("notes", noted.stream().map(StatusReport::note).toList());
        return JSON.writeValueAsString(report);
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

    private static Map<String, Object> source(CardVerdict verdict) {
        Map<String, Object> entry = new LinkedHashMap<>();
        entry.put("source", verdict.source());
        entry.put("photos", verdict.photos());
        entry.put("safeToClear", verdict.safeToClear());
        entry.put("verdict", verdict.sentence());
        entry.put("proofs", verdict.proofs());
        return entry;
    }

    void print(java.io.PrintStream out) {
        StringBuilder line = new StringBuilder("%d photographs:".formatted(total()));
        for (PhotoState state : PhotoState.values()) {
            line.append(" %d %s%s".formatted(in(state), state.word(), state == PhotoState.SET_ASIDE ? "" : ","));
        }
        out.println(line);
        attention.forEach(photo -> out.println("%s  %s  %s  %s"
                .formatted(photo.photo().substring(0, 12), photo.name(), reason(photo), message(photo))));
        noted.stream()
                .filter(photo -> photo.state() != PhotoState.REJECTED)
                .forEach(photo -> out.println("%s  %s  note: %s"
                        .formatted(
                                photo.photo().substring(0, 12),
                                photo.name(),
                                photo.note().orElse(""))));
        sources.forEach(verdict -> out.println("%s: %s".formatted(verdict.source(), verdict.sentence())));
    }
}
