package vestibule.conformance.tables;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import java.util.stream.StreamSupport;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** The tables of the {@code validator} module for the VL Photographic Image IOD, from PS3.3 A.32.4, C and PS3.5 8.2. */
final class ObjectTables {

    private static final String FOLDER = "validator/src/main/resources/vestibule/validator/iod/";
    private static final String MACRO = "code-sequence";
    /** The IOD narrows the module's defined terms to one value (PS3.3 A.32.4.4.1), and the table says so. */
    private static final String MODALITY_SECTION = "A.32.4.4.1";

    private final SourceFile source;
    private final JsonNode root;
    private final String edition;

    private ObjectTables(SourceFile source) {
        this.source = source;
        this.root = JsonMapper.builder().build().readTree(source.text());
        this.edition = root.path("edition").asString();
    }

    /** Path from the root of the source tree, and lines. */
    static Map<String, List<String>> tables(SourceFile source) {
        ObjectTables tables = new ObjectTables(source);
        Map<String, List<String>> all = new LinkedHashMap<>();
        all.put(FOLDER + "modules.tsv", tables.modules());
        all.put(FOLDER + "attributes.tsv", tables.attributes());
        all.put(FOLDER + "photometric.tsv", tables.photometric());
        return all;
    }

    private List<String> modules() {
        List<String> lines = new ArrayList<>(source.header(
                "modules of the VL Photographic Image IOD (PS3.3 A.32.4.3)",
                edition,
                "key, name, information entity, usage, section, table, condition of a conditional module in words"));
        for (JsonNode module : root.path("modules")) {
            lines.add(String.join(
                    "\t",
                    text(module, "key"),
                    text(module, "name"),
                    text(module, "ie"),
                    text(module, "usage"),
                    text(module, "section"),
                    text(module, "table"),
                    text(module.path("condition"), "text")));
        }
        return lines;
    }

    private List<String> attributes() {
        List<String> lines = new ArrayList<>(source.header(
                "attributes of the VL Photographic Image IOD (PS3.3 C); rows of module " + MACRO
                        + " are the Code Sequence macro (PS3.3 8.8), to which content 'code' refers",
                edition,
                "module, path of tags, keyword, VR, VM, type, items, content of items (code: the macro; any), macro table,"
                        + " condition, condition in words, otherwise, kind of value list, its section, values"));
        for (JsonNode module : root.path("modules")) {
            addRows(lines, text(module, "key"), "", module.path("attributes"));
        }
        addRows(lines, MACRO, "", root.path("macros").path(MACRO).path("attributes"));
        return lines;
    }

    private static void addRows(List<String> lines, String module, String parent, JsonNode attributes) {
        for (JsonNode attribute : attributes) {
            String path = parent + digits(text(attribute, "tag"));
            lines.add(row(module, path, attribute));
            addRows(lines, module, path + "/", attribute.path("attributes"));
        }
    }

    private static String row(String module, String path, JsonNode attribute) {
        JsonNode condition = attribute.path("condition");
        JsonNode values = attribute.path("values");
        boolean modality =
                module.equals("general-series") && text(attribute, "keyword").equals("Modality");
        String content = attribute.has("codeSequence") ? "code" : attribute.has("anyAttribute") ? "any" : "";
        return String.join(
                "\t",
                module,
                path,
                text(attribute, "keyword"),
                text(attribute, "vr"),
                text(attribute, "vm"),
                text(attribute, "type"),
                text(attribute, "items"),
                content,
                text(attribute, "from"),
                text(condition, "expr"),
                text(condition, "text"),
                text(condition, "otherwise"),
                modality ? "enumerated" : text(values, "kind"),
                modality ? MODALITY_SECTION : text(values, "section"),
                StreamSupport.stream(values.path("list").spliterator(), false)
                        .map(value -> value.get(0).asString())
                        .collect(Collectors.joining("|")));
    }

    private List<String> photometric() {
        List<String> lines = new ArrayList<>(source.header(
                "photometric interpretation by transfer syntax for VL images (PS3.3 C.8.12.1.1.1 with PS3.5 8.2)",
                edition,
                "transfer syntax UID, values for three samples (several parted by |), values for one sample"));
        for (JsonNode row : root.path("pixelConstraints").path("byTransferSyntax")) {
            for (JsonNode uid : row.path("uid")) {
                lines.add(String.join("\t", uid.asString(), joined(row.path("color")), joined(row.path("grey"))));
            }
        }
        return lines;
    }

    private static String joined(JsonNode values) {
        return StreamSupport.stream(values.spliterator(), false)
                .map(JsonNode::asString)
                .collect(Collectors.joining("|"));
    }

    private static String digits(String tag) {
        return tag.substring(1, 5) + tag.substring(6, 10);
    }

    private static String text(JsonNode node, String field) {
        return node.path(field).asString("").replace('\t', ' ').replace('\n', ' ');
    }
}
