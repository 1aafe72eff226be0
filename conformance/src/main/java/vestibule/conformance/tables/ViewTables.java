package vestibule.conformance.tables;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.StreamSupport;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** The catalogue of views, the codes it uses and the teeth, for the {@code view} package of the bridge. */
final class ViewTables {

    private static final JsonMapper JSON = JsonMapper.builder().build();

    private ViewTables() {}

    /** One line a view; lists are parted by blanks, an empty column means: none. */
    static List<String> views(SourceFile source) {
        List<String> lines = new ArrayList<>(
                source.header(
                        "views of clinical dental photographs",
                        "trade-views/1",
                        "id, group, name, label, capture, orientation mode, patient orientation, accepted orientations, "
                                + "camera frames (the usual one first), recognizable features, look direction, front: raw orientation, front: transform, behind: raw orientation, "
                                + "behind: transform, dental: region, modifier, laterality, structures, "
                                + "ortho: region, modifier, laterality, structures, views a direction may be taken from, teeth to offer"));
        for (JsonNode view : JSON.readTree(source.text()).get("views")) {
            lines.add(String.join("\t", row(view)));
        }
        return lines;
    }

    /** What of the views the validator compares objects with. */
    static List<String> directions(SourceFile source) {
        List<String> lines = new ArrayList<>(source.header(
                "views of clinical dental photographs and their directions",
                "trade-views/1",
                "id, taken by mirror or direct, orientation mode, accepted orientations, look direction, side"));
        for (JsonNode view : JSON.readTree(source.text()).get("views")) {
            lines.add(String.join(
                    "\t",
                    text(view.get("id")),
                    text(view.at("/capture/value")),
                    text(view.get("orientation_mode")),
                    list(view.at("/final/accepted")),
                    text(view.at("/look_direction/value")),
                    side(view.at("/coding/dental"))));
        }
        return lines;
    }

    private static String side(JsonNode coding) {
        return switch (text(coding.get("region_modifier"))) {
            case "qual.right" -> "R";
            case "qual.left" -> "L";
            default -> text(coding.get("image_laterality")).replaceAll("[BU]", "");
        };
    }

    private static List<String> row(JsonNode view) {
        JsonNode raw = view.get("raw");
        List<String> row = new ArrayList<>(List.of(
                text(view.get("id")),
                text(view.get("group")),
                text(view.at("/name/value")),
                text(view.at("/view_label/value")),
                text(view.at("/capture/value")),
                text(view.get("orientation_mode")),
                text(view.at("/final/patient_orientation/value")),
                list(view.at("/final/accepted")),
                (text(view.at("/camera_frame/value")) + " " + list(view.at("/camera_frame/alternatives"))).strip(),
                text(view.at("/recognizable_visual_features/value")),
                text(view.at("/look_direction/value"))));
        for (int setUp = 0; setUp < 2; setUp++) {
            JsonNode taken = raw.size() > setUp ? raw.get(setUp) : JSON.createObjectNode();
            row.add(text(taken.path("patient_orientation")));
            row.add(text(taken.path("transform")));
        }
        row.addAll(coding(view.at("/coding/dental"), list(view.at("/primary_structure/codes"))));
        row.addAll(coding(view.at("/coding/ortho"), text(view.at("/coding/ortho/primary_structure"))));
        row.add(list(view.path("inherits_from")));
        row.add(list(view.at("/teeth_suggested/iso3950")));
        return row;
    }

    private static List<String> coding(JsonNode coding, String structures) {
        return List.of(
                text(coding.get("anatomic_region")),
                text(coding.get("region_modifier")),
                text(coding.get("image_laterality")),
                structures);
    }

    /** One line a code that a view names. */
    static List<String> codes(SourceFile source) {
        List<String> lines = new ArrayList<>(
                source.header("codes the views use (PS3.16 2024c)", "trade-views/1", "id, scheme, value, meaning"));
        for (JsonNode code : JSON.readTree(source.text()).get("codes")) {
            if (!text(code.get("id")).startsWith("tooth.")) {
                lines.add(String.join(
                        "\t",
                        text(code.get("id")),
                        text(code.get("scheme")),
                        text(code.get("value")),
                        text(code.get("meaning"))));
            }
        }
        return lines;
    }

    /** One line a tooth (PS3.16 CID 4018 and 4019, ISO 3950). */
    static List<String> teeth(SourceFile source) {
        JsonNode facts = JSON.readTree(source.text());
        List<String> lines = new ArrayList<>(source.header(
                "teeth (PS3.16 CID 4018 and 4019; designations of ISO 3950)",
                text(facts.get("edition")),
                "ISO 3950 designation, dentition, arch, side, scheme, code, meaning, Universal number (from memory)"));
        for (JsonNode tooth : facts.at("/teeth/rows")) {
            lines.add(String.join(
                    "\t",
                    text(tooth.get("iso3950")),
                    text(tooth.get("dentition")),
                    text(tooth.get("arch")),
                    text(tooth.get("side")),
                    text(tooth.get("scheme")),
                    text(tooth.get("code")),
                    text(tooth.get("meaning")),
                    text(tooth.get("universal"))));
        }
        return lines;
    }

    /** One line a place in a set; views that may fill it are parted by blanks, the usual one first. */
    static List<String> sets(SourceFile source) {
        List<String> lines = new ArrayList<>(source.header(
                "sets of views, in filing order",
                "trade-photo-sets/1",
                "set, name, use, position, views, required or optional, once or repeat, stage"));
        for (JsonNode set : JSON.readTree(source.text()).get("sets")) {
            for (JsonNode item : set.get("items")) {
                lines.add(String.join(
                        "\t",
                        text(set.get("id")),
                        text(set.get("name")),
                        text(set.get("use")),
                        text(item.get("position")),
                        (text(item.get("view")) + " " + list(item.path("substitutes"))).strip(),
                        item.get("required").asBoolean() ? "required" : "optional",
                        item.path("repeat").asBoolean(false) ? "repeat" : "once",
                        text(item.path("stage"))));
            }
        }
        return lines;
    }

    private static String text(JsonNode node) {
        return node.isMissingNode() || node.isNull() ? "" : node.asString();
    }

    private static String list(JsonNode node) {
        return String.join(
                " ",
                StreamSupport.stream(node.spliterator(), false)
                        .map(ViewTables::text)
                        .toList());
    }
}
