package vestibule.conformance.tables;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/** The attribute and UID tables of the {@code dicom} module, from PS3.6 and PS3.7. */
final class DictionaryTables {

    private DictionaryTables() {}

    /** PS3.6 6 to 9 and PS3.7 E.1: one line an attribute; entries without a name and item delimiters are left out. */
    static List<String> attributes(SourceFile source) {
        List<String> lines = new ArrayList<>(source.header(
                "attributes (PS3.6 6 to 9; command elements PS3.7 E)",
                "2026b list, names 2024d",
                "tag (x: any digit), VR (several parted by /), VM, keyword, name, R if retired"));
        source.rows().stream()
                .filter(row -> !row[3].isEmpty() && !row[1].equals("NONE"))
                .sorted(Comparator.comparing(row -> row[0]))
                .map(row -> String.join(
                        "\t",
                        row[0].substring(1, 5) + row[0].substring(6, 10),
                        row[1].replace(" or ", "/"),
                        row[2],
                        row[3],
                        row[4],
                        row[5].equals("Y") ? "R" : ""))
                .forEach(lines::add);
        return lines;
    }

    /** PS3.6 A: one line a unique identifier; context groups are left out, for they are named by number. */
    static List<String> uids(SourceFile source) {
        List<String> lines = new ArrayList<>(source.header(
                "unique identifiers (PS3.6 A)",
                "2024c with additions to 2025d",
                "UID, type, keyword, name, R if retired"));
        source.rows().stream()
                .filter(row -> !row[1].equals("Context Group"))
                .sorted(Comparator.comparing(row -> row[0]))
                .map(row -> String.join("\t", row[0], row[1], row[2], row[3], row[4].equals("Y") ? "R" : ""))
                .forEach(lines::add);
        return lines;
    }
}
