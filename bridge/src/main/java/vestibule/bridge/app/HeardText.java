package vestibule.bridge.app;

import java.time.DateTimeException;
import java.time.Instant;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import tools.jackson.core.JacksonException;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import vestibule.bridge.patient.Assignments.Heard;
import vestibule.bridge.patient.CardReader;
import vestibule.bridge.patient.Evidence;
import vestibule.bridge.patient.Identity;
import vestibule.bridge.patient.Reason;

/** What the cards of one source say of a photograph that another source brought, as the outbox keeps it. */
final class HeardText {

    private static final JsonMapper JSON = JsonMapper.builder().build();

    private HeardText() {}

    static String write(Heard heard) {
        Map<String, Object> all = new LinkedHashMap<>();
        heard.reason().ifPresent(reason -> all.put("reason", reason.name()));
        heard.card().ifPresent(card -> {
            all.put("kind", card.kind());
            all.put("at", card.at().toString());
            all.put("origin", card.origin());
            all.put("who", ReadingText.write(new CardReader.Card(card.who(), false)));
        });
        return JSON.writeValueAsString(all);
    }

    /** Of another version it is a doubt, until the source that says it is decided again. */
    static Heard read(String text) {
        try {
            JsonNode all = JSON.readTree(text);
            Optional<Reason> reason = all.has("reason")
                    ? Optional.of(Reason.valueOf(all.get("reason").asString()))
                    : Optional.empty();
            return new Heard(all.has("kind") ? Optional.of(card(all)) : Optional.empty(), reason);
        } catch (JacksonException | IllegalArgumentException | DateTimeException ofAnotherForm) {
            return new Heard(Optional.empty(), Optional.of(Reason.CARD_UNREADABLE));
        }
    }

    private static Evidence card(JsonNode all) {
        Instant at = Instant.parse(all.path("at").asString(""));
        String origin = all.path("origin").asString("");
        Identity who = ReadingText.read(all.path("who").asString(""))
                .filter(CardReader.Card.class::isInstance)
                .map(reading -> ((CardReader.Card) reading).who())
                .orElseThrow(IllegalArgumentException::new);
        return switch (all.path("kind").asString("")) {
            case "patient-card" -> new Evidence.PatientCard(who, at, origin);
            case "id-code" -> new Evidence.BareCode(who, at, origin);
            case "person" -> new Evidence.Said(who, at, origin);
            default -> throw new IllegalArgumentException();
        };
    }
}
