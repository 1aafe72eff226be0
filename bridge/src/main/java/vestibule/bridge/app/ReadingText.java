package vestibule.bridge.app;

import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import tools.jackson.core.JacksonException;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import vestibule.bridge.patient.CardReader;
import vestibule.bridge.patient.CardReader.Reading;
import vestibule.bridge.patient.Identity;
import vestibule.dicom.data.PersonName;

/** What was found of patient cards in a photograph, as the outbox remembers it. */
final class ReadingText {

    /** Counted up whenever cards are read otherwise: what an earlier version read is then read again. */
    private static final int VERSION = 3;

    private static final JsonMapper JSON = JsonMapper.builder().build();

    private ReadingText() {}

    static String write(Reading reading) {
        Map<String, Object> all = new LinkedHashMap<>();
        all.put("version", VERSION);
        if (reading instanceof CardReader.Nothing) {
            all.put("found", "nothing");
        } else if (reading instanceof CardReader.Unreadable) {
            all.put("found", "unreadable");
        } else if (reading instanceof CardReader.Text text) {
            all.put("found", "text");
            all.put("text", text.text());
            all.put("mirrored", text.mirrored());
        } else if (reading instanceof CardReader.Card card) {
            all.put("found", "card");
            all.put("mirrored", card.mirrored());
            put(all, "id", card.who().id());
            put(all, "issuer", card.who().issuer());
            put(all, "name", card.who().name());
            put(all, "birthDate", card.who().birthDate());
            put(all, "sex", card.who().sex());
        } else {
            throw new AssertionError(reading);
        }
        return JSON.writeValueAsString(all);
    }

    private static void put(Map<String, Object> all, String key, Optional<?> value) {
        value.ifPresent(one -> all.put(key, one.toString()));
    }

    /** Empty where it is of another version: then the photograph is to be read again. */
    static Optional<Reading> read(String text) {
        try {
            JsonNode all = JSON.readTree(text);
            boolean mirrored = all.path("mirrored").asBoolean(false);
            return all.path("version").asInt(0) != VERSION
                    ? Optional.empty()
                    : switch (all.path("found").asString("")) {
                        case "nothing" -> Optional.of(new CardReader.Nothing());
                        case "unreadable" -> Optional.of(new CardReader.Unreadable());
                        case "text" -> string(all, "text").map(found -> new CardReader.Text(found, mirrored));
                        case "card" -> Optional.of(new CardReader.Card(who(all), mirrored));
                        default -> Optional.empty();
                    };
        } catch (JacksonException | DateTimeParseException ofAnotherForm) {
            return Optional.empty();
        }
    }

    private static Identity who(JsonNode all) {
        return new Identity(
                string(all, "id"),
                string(all, "issuer"),
                string(all, "name").flatMap(PersonName::parse),
                string(all, "birthDate").map(LocalDate::parse),
                string(all, "sex"));
    }

    private static Optional<String> string(JsonNode all, String key) {
        return all.has(key) ? Optional.of(all.get(key).asString()) : Optional.empty();
    }
}
