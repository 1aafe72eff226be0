package vestibule.bridge.view;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** The labels of views by language: the catalogue's own in English, others from a resource of their own. */
final class Labels {

    static final List<String> LANGUAGES = List.of("en", "de");

    private Labels() {}

    /** View id to label; empty for English, whose labels the catalogue has. */
    static Map<String, String> of(String language) {
        Map<String, String> labels = new LinkedHashMap<>();
        if (language.equals("en")) {
            return labels;
        }
        String text = Tables.text("labels_" + language + ".properties")
                .orElseThrow(() -> new IllegalArgumentException("there are no labels in " + language));
        text.lines().filter(line -> !line.isBlank() && !line.startsWith("#")).forEach(line -> {
            int parted = line.indexOf('=');
            labels.put(
                    line.substring(0, parted).strip(),
                    line.substring(parted + 1).strip());
        });
        return labels;
    }
}
