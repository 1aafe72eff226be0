package vestibule.validator.rules;

import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import vestibule.validator.iod.TableText;

/** The codes of PS3.16 that matter to photographs: context groups, teeth, and the old codes that stand for them. */
final class CodeTable {

    /**
     * A context group.
     *
     * @param name its name
     * @param extensible whether codes may be added
     */
    record Group(String name, boolean extensible) {}

    /**
     * A tooth.
     *
     * @param number its number under ISO 3950
     * @param arch maxilla or mandible
     * @param side right or left
     */
    record Tooth(String number, String arch, String side) {}

    private static final CodeTable STANDARD = new CodeTable();

    private final Map<String, String> meanings = new HashMap<>();
    private final Map<String, Set<String>> byMeaning = new HashMap<>();
    private final Map<String, String> retired = new HashMap<>();
    private final Map<String, Set<String>> members = new HashMap<>();
    private final Map<String, Group> groups = new HashMap<>();
    private final Map<String, Tooth> teeth = new HashMap<>();
    private final Map<String, String> olderTeeth = new HashMap<>();

    private CodeTable() {
        for (List<String> row :
                TableText.read(CodeTable.class, "context-groups.tsv", 5).rows()) {
            groups.put(row.get(0), new Group(row.get(1), row.get(4).equals("extensible")));
        }
        for (List<String> row : TableText.read(CodeTable.class, "codes.tsv", 5).rows()) {
            String code = row.get(1) + " " + row.get(2);
            meanings.putIfAbsent(code, row.get(3));
            byMeaning
                    .computeIfAbsent(fold(row.get(3)), unused -> new HashSet<>())
                    .add(code);
            members.computeIfAbsent(row.get(0), unused -> new HashSet<>()).add(code);
            if (!row.get(4).isEmpty()) {
                retired.put("SRT " + row.get(4), code);
            }
        }
        for (List<String> row : TableText.read(CodeTable.class, "teeth.tsv", 5).rows()) {
            teeth.put("SCT " + row.get(0), new Tooth(row.get(1), row.get(2), row.get(3)));
            for (String older : row.get(4).split("\\|", -1)) {
                if (older.startsWith("SCT ")) {
                    olderTeeth.put(older, "SCT " + row.get(0));
                } else if (!older.isEmpty()) {
                    retired.put(older, "SCT " + row.get(0));
                }
            }
        }
    }

    static CodeTable standard() {
        return STANDARD;
    }

    private static String fold(String meaning) {
        return meaning.strip().toLowerCase(java.util.Locale.ROOT);
    }

    /** The meaning of a code, given as scheme, blank, value. */
    Optional<String> meaning(String code) {
        return Optional.ofNullable(meanings.get(code));
    }

    /** Another code of the same scheme that has exactly this meaning. */
    Optional<String> otherWithMeaning(String code, String meaning) {
        String scheme = code.substring(0, code.indexOf(' ') + 1);
        return byMeaning.getOrDefault(fold(meaning), Set.of()).stream()
                .filter(other -> other.startsWith(scheme) && !other.equals(code))
                .sorted()
                .findFirst();
    }

    static boolean sameMeaning(String left, String right) {
        return fold(left).equals(fold(right));
    }

    /** The code of today for a code of the retired scheme. */
    Optional<String> successor(String code) {
        return Optional.ofNullable(retired.get(code));
    }

    /** The code of today for a tooth of an older edition. */
    Optional<String> newerTooth(String code) {
        return teeth.containsKey(code) ? Optional.empty() : Optional.ofNullable(olderTeeth.get(code));
    }

    Optional<Tooth> tooth(String code) {
        return Optional.ofNullable(teeth.get(code));
    }

    Optional<Group> group(String number) {
        return Optional.ofNullable(groups.get(number));
    }

    boolean contains(String group, String code) {
        return members.getOrDefault(group, Set.of()).contains(code);
    }
}
