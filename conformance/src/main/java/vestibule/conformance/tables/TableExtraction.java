package vestibule.conformance.tables;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * Makes every generated table. {@code java vestibule.conformance.tables.TableExtraction FACTS REPOSITORY} reads the folder of facts
 * (with {@code standard/} and {@code trade/} below it) and writes the tables into the source tree; a test does the same and compares.
 */
public final class TableExtraction {

    private TableExtraction() {}

    /** Arguments: the folder of facts and the root of the source tree. */
    public static void main(String[] arguments) throws IOException {
        if (arguments.length != 2) {
            System.err.println("usage: TableExtraction FACTS REPOSITORY");
            System.exit(2);
        }
        Path repository = Path.of(arguments[1]);
        for (Map.Entry<String, List<String>> table :
                tables(Path.of(arguments[0])).entrySet()) {
            Path target = repository.resolve(table.getKey());
            Files.createDirectories(target.getParent());
            Files.writeString(target, String.join("\n", table.getValue()) + "\n", StandardCharsets.UTF_8);
            System.out.println(table.getKey() + ": " + table.getValue().size() + " lines");
        }
    }

    /** Every table: path from the root of the source tree, and its lines. */
    static Map<String, List<String>> tables(Path facts) throws IOException {
        Path standard = facts.resolve("standard");
        String dictionary = "dicom/src/main/resources/vestibule/dicom/dict/";
        Map<String, List<String>> tables = new LinkedHashMap<>();
        tables.put(
                dictionary + "attributes.tsv",
                DictionaryTables.attributes(SourceFile.read(standard.resolve("data-elements.tsv"))));
        tables.put(dictionary + "uids.tsv", DictionaryTables.uids(SourceFile.read(standard.resolve("uids.tsv"))));
        tables.put(dictionary + "step.tsv", StepTable.rows(SourceFile.read(standard.resolve("services.json"))));
        String views = "bridge/src/main/resources/vestibule/bridge/view/";
        SourceFile catalogue = SourceFile.read(facts.resolve("trade/views.json"));
        tables.put(views + "views.tsv", ViewTables.views(catalogue));
        tables.put(
                "validator/src/main/resources/vestibule/validator/rules/views.tsv", ViewTables.directions(catalogue));
        tables.put(views + "sets.tsv", ViewTables.sets(SourceFile.read(facts.resolve("trade/photo-sets.json"))));
        tables.put(views + "codes.tsv", ViewTables.codes(catalogue));
        tables.put(views + "teeth.tsv", ViewTables.teeth(SourceFile.read(standard.resolve("context-groups.json"))));
        tables.putAll(CodeTables.tables(SourceFile.read(standard.resolve("context-groups.json"))));
        tables.putAll(ObjectTables.tables(SourceFile.read(standard.resolve("vl-photographic-image.json"))));
        tables.put(
                "bridge/src/main/resources/vestibule/bridge/photo/exif.tsv",
                ExifTable.rows(
                        SourceFile.read(standard.resolve("exif-to-dicom.json")),
                        SourceFile.read(standard.resolve("vl-photographic-image.json"))));
        return tables;
    }
}
