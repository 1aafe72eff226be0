package vestibule.conformance.tables;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.StreamSupport;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** Which Exif tag becomes which attribute of the photographic modules, for the {@code photo} package of the bridge. */
final class ExifTable {

    private static final JsonMapper JSON = JsonMapper.builder().build();

    /** Conversions that are one number or text to one attribute; the others are code or stay out. */
    private static final Set<String> SIMPLE = Set.of("DS", "US", "IS", "UT");

    /** Who owns the camera, its serial numbers, points in a picture that may be turned, and what has another multiplicity in PS3.6. */
    private static final Set<String> LEFT_OUT = Set.of("0xA430", "0xA435", "0x9214", "0xA214", "0x013E", "0x013F");

    private ExifTable() {}

    static List<String> rows(SourceFile mapping, SourceFile object) {
        Map<String, String> allowed = definedNumbers(JSON.readTree(object.text()));
        List<String> lines = new ArrayList<>(mapping.header(
                "Exif tags and the attributes they become (PS3.3 C.8.12.10, C.8.12.11)",
                "Exif 2.3x, 2024c",
                "IFD, Exif tag, attribute, keyword, VR, numbers with a defined meaning (none: any number)"));
        for (JsonNode row : JSON.readTree(mapping.text()).get("rows")) {
            String id = row.get("id").asString();
            String ifd = row.get("ifd").asString();
            JsonNode targets = row.path("dicom");
            if (targets.size() != 1 || LEFT_OUT.contains(id) || ifd.equals("GPS") || ifd.equals("Interop")) {
                continue;
            }
            JsonNode target = targets.get(0);
            String tag = target.get("tag").asString();
            if (tag.startsWith("(0016,") && SIMPLE.contains(target.get("vr").asString())) {
                String keyword = target.get("keyword").asString();
                lines.add(String.join(
                        "\t",
                        ifd,
                        id.substring(2),
                        tag.substring(1, 5) + tag.substring(6, 10),
                        keyword,
                        target.get("vr").asString(),
                        allowed.getOrDefault(keyword, "")));
            }
        }
        return lines;
    }

    private static Map<String, String> definedNumbers(JsonNode object) {
        Map<String, String> numbers = new HashMap<>();
        for (JsonNode module : object.get("modules")) {
            for (JsonNode attribute : module.get("attributes")) {
                JsonNode list = attribute.at("/values/list");
                if (attribute.get("tag").asString().startsWith("(0016,") && !list.isMissingNode()) {
                    numbers.put(
                            attribute.get("keyword").asString(),
                            String.join(
                                    " ",
                                    StreamSupport.stream(list.spliterator(), false)
                                            .map(value -> value.get(0).asString())
                                            .toList()));
                }
            }
        }
        return numbers;
    }
}
