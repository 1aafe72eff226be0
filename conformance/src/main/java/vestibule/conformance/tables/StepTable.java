package vestibule.conformance.tables;

import java.util.ArrayList;
import java.util.List;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** What a performed procedure step must and may have, for the dictionary. */
final class StepTable {

    private static final JsonMapper JSON = JsonMapper.builder().build();

    private StepTable() {}

    static List<String> rows(SourceFile services) {
        JsonNode root = JSON.readTree(services.text());
        List<String> lines = new ArrayList<>(
                services.header(
                        "attributes of a performed procedure step (PS3.4 Table F.7.2-1)",
                        root.get("edition").asString(),
                        "depth in sequences, attribute, keyword, type for N-CREATE, type for N-SET (no: not set), type in a final state"));
        add(lines, 0, root.at("/mpps/attributes"));
        return lines;
    }

    /** Types are those of the user, before the stroke; a note in the place of a type is no type. */
    private static void add(List<String> lines, int depth, JsonNode attributes) {
        for (JsonNode attribute : attributes) {
            if (!attribute.has("tag")) {
                continue;
            }
            String tag = attribute.get("tag").asString();
            String end = attribute.path("final").asString("");
            lines.add(String.join(
                    "\t",
                    String.valueOf(depth),
                    tag.substring(1, 5) + tag.substring(6, 10),
                    attribute.get("keyword").asString(),
                    attribute.get("create").asString().split("/")[0],
                    attribute.get("set").asString().split("/")[0],
                    end.length() > 2 ? "" : end));
            add(lines, depth + 1, attribute.path("attributes"));
        }
    }
}
