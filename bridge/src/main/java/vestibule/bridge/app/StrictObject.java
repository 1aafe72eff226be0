package vestibule.bridge.app;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;
import tools.jackson.core.JacksonException;
import tools.jackson.core.StreamReadFeature;
import tools.jackson.databind.DeserializationFeature;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** An object of JSON that is read to the last key: what is not expected is refused, never overlooked. No value stands in a message. */
final class StrictObject {

    private static final int LONGEST = 1 << 20;
    private static final JsonMapper JSON = JsonMapper.builder()
            .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
            .enable(DeserializationFeature.FAIL_ON_TRAILING_TOKENS)
            .build();

    private final String what;
    private final JsonNode node;
    private final Set<String> read = new HashSet<>();

    private StrictObject(String what, JsonNode node) throws Failure {
        this.what = what;
        this.node = node;
        if (!node.isObject()) {
            throw wrong(what, "an object");
        }
    }

    /**
     * Reads a text that is one object.
     *
     * @param what how messages name it
     */
    static StrictObject of(String what, String text) throws Failure {
        if (text.length() > LONGEST) {
            throw wrong(what, "at most %d characters".formatted(LONGEST));
        }
        try {
            return new StrictObject(what, JSON.readTree(text));
        } catch (JacksonException e) {
            throw wrong(what, "JSON without a key twice and without anything behind it");
        }
    }

    boolean has(String key) {
        return node.has(key) && !node.get(key).isNull();
    }

    StrictObject object(String key) throws Failure {
        read.add(key);
        return new StrictObject(what + " " + key, node.path(key));
    }

    List<StrictObject> objects(String key) throws Failure {
        List<StrictObject> objects = new ArrayList<>();
        for (JsonNode item : array(key)) {
            objects.add(new StrictObject(what + " " + key, item));
        }
        return objects;
    }

    List<String> texts(String key) throws Failure {
        List<String> texts = new ArrayList<>();
        for (JsonNode item : array(key)) {
            if (!item.isString()) {
                throw wrong(what + " " + key, "texts");
            }
            texts.add(item.stringValue());
        }
        return texts;
    }

    private JsonNode array(String key) throws Failure {
        read.add(key);
        if (!node.path(key).isArray()) {
            throw wrong(what + " " + key, "an array");
        }
        return node.path(key);
    }

    int number(String key) throws Failure {
        read.add(key);
        if (!node.path(key).isInt()) {
            throw wrong(what + " " + key, "a whole number");
        }
        return node.path(key).intValue();
    }

    Optional<Integer> optionalNumber(String key) throws Failure {
        return has(key) ? Optional.of(number(key)) : Optional.empty();
    }

    String text(String key) throws Failure {
        read.add(key);
        if (!node.path(key).isString()) {
            throw wrong(what + " " + key, "a text");
        }
        return node.path(key).stringValue();
    }

    Optional<String> optionalText(String key) throws Failure {
        return has(key) ? Optional.of(text(key)) : Optional.empty();
    }

    /** A text of a form; the form throws or returns nothing for any other. */
    <T> T formed(String key, Function<String, Optional<T>> form, String expected) throws Failure {
        String text = text(key);
        try {
            return form.apply(text).orElseThrow(() -> wrong(what + " " + key, expected));
        } catch (java.time.DateTimeException otherForm) {
            throw wrong(what + " " + key, expected);
        }
    }

    <T> Optional<T> optional(String key, Function<String, Optional<T>> form, String expected) throws Failure {
        return has(key) ? Optional.of(formed(key, form, expected)) : Optional.empty();
    }

    /** Called when all that is known was asked for. */
    void end() throws Failure {
        Set<String> unknown = node.propertyNames().stream()
                .filter(key -> !read.contains(key) && !node.get(key).isNull())
                .collect(Collectors.toSet());
        if (!unknown.isEmpty()) {
            throw wrong(what, "no key beside the known ones, and there are " + unknown.size());
        }
    }

    private static Failure wrong(String what, String expected) {
        return new Failure(
                Exit.BAD_DATA, "%s: found something else than expected, which is %s.".formatted(what, expected));
    }
}
