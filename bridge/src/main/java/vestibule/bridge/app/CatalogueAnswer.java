package vestibule.bridge.app;

import java.util.List;
import java.util.Map;
import org.apache.commons.cli.Options;
import tools.jackson.databind.SerializationFeature;
import tools.jackson.databind.json.JsonMapper;

/**
 * What a command prints of a catalogue: a table for people, or all of it as JSON for programs.
 *
 * @param described all of it
 * @param rows the table
 */
record CatalogueAnswer(Map<String, Object> described, List<Map<String, String>> rows) {

    private static final JsonMapper JSON =
            JsonMapper.builder().enable(SerializationFeature.INDENT_OUTPUT).build();

    /** The options of such a command. */
    static Options options() {
        return Given.all(
                Given.flag("json", "print JSON instead of a table"),
                Given.value("config", "FILE", "settings; else vestibule.toml if it is here"));
    }

    void print(Arguments arguments, Terminal terminal) {
        if (arguments.has("json")) {
            terminal.out().println(JSON.writeValueAsString(described));
        } else {
            TextTable.print(rows, terminal.out());
        }
    }
}
