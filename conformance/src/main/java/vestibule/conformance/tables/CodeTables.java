package vestibule.conformance.tables;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import java.util.stream.StreamSupport;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** The tables of the {@code validator} module for codes, from PS3.16. */
final class CodeTables {

    private static final String IOD = "validator/src/main/resources/vestibule/validator/iod/";
    private static final String CODES = "validator/src/main/resources/vestibule/validator/rules/";

    private final SourceFile source;
    private final JsonNode root;
    private final String edition;

    private CodeTables(SourceFile source) {
        this.source = source;
        this.root = JsonMapper.builder().build().readTree(source.text());
        this.edition = root.path("edition").asString();
    }

    /** Path from the root of the source tree, and lines. */
    static Map<String, List<String>> tables(SourceFile source) {
        CodeTables tables = new CodeTables(source);
        Map<String, List<String>> all = new LinkedHashMap<>();
        all.put(IOD + "body-parts.tsv", tables.bodyParts());
        all.put(CODES + "context-groups.tsv", tables.groups());
        all.put(CODES + "codes.tsv", tables.codes());
        all.put(CODES + "teeth.tsv", tables.teeth());
        return all;
    }

    private List<String> bodyParts() {
        List<String> lines = new ArrayList<>(source.header(
                "body parts (PS3.16 L)", edition, "SNOMED CT code, term of Body Part Examined, paired or single"));
        for (JsonNode row : root.path("bodyPartExamined").path("rows")) {
            String paired = row.path("paired").asBoolean(false) ? "paired" : "single";
            lines.add(String.join("\t", text(row, "code"), text(row, "bodyPartExamined"), paired));
        }
        return lines;
    }

    private List<String> groups() {
        List<String> lines = new ArrayList<>(
                source.header("context groups (PS3.16 B)", edition, "CID, name, UID, version, extensible or closed"));
        for (JsonNode group : root.path("groups")) {
            lines.add(String.join(
                    "\t",
                    Integer.toString(group.path("cid").asInt()),
                    text(group, "name"),
                    text(group, "uid"),
                    text(group, "version"),
                    group.path("extensible").asBoolean() ? "extensible" : "closed"));
        }
        return lines;
    }

    private List<String> codes() {
        List<String> lines = new ArrayList<>(source.header(
                "codes of context groups (PS3.16 B), and 0 for codes found elsewhere in PS3.16",
                edition,
                "CID, scheme, value, meaning, retired SNOMED-RT value"));
        for (JsonNode group : root.path("groups")) {
            for (JsonNode code : group.path("codes")) {
                lines.add(group.path("cid").asInt() + "\t" + cells(code, 4));
            }
        }
        for (JsonNode code : root.path("oralAndFacialCodes").path("rows")) {
            lines.add("0\t" + cells(code, 3) + "\t");
        }
        for (JsonNode row : root.path("bodyPartExamined").path("rows")) {
            lines.add(String.join(
                    "\t", "0", text(row, "scheme"), text(row, "code"), text(row, "meaning"), text(row, "srt")));
        }
        return lines;
    }

    private static String cells(JsonNode code, int count) {
        List<String> cells = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            cells.add(code.path(i).asString(""));
        }
        return String.join("\t", cells);
    }

    private List<String> teeth() {
        List<String> lines = new ArrayList<>(
                source.header(
                        "teeth (PS3.16 CID 4018, 4019)",
                        edition,
                        "SNOMED CT code, ISO 3950 number, arch, side, codes of older editions (scheme and value, parted by |)"));
        for (JsonNode row : root.path("teeth").path("rows")) {
            String legacy = StreamSupport.stream(row.path("legacy").spliterator(), false)
                    .map(code -> code.path(0).asString() + " " + code.path(1).asString())
                    .collect(Collectors.joining("|"));
            String retired = text(row, "srt").isEmpty() ? legacy : "SRT " + text(row, "srt");
            lines.add(String.join(
                    "\t", text(row, "code"), text(row, "iso3950"), text(row, "arch"), text(row, "side"), retired));
        }
        return lines;
    }

    private static String text(JsonNode node, String field) {
        return node.path(field).asString("").replace('\t', ' ').replace('\n', ' ');
    }
}
