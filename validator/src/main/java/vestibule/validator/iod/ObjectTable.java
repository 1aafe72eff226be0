package vestibule.validator.iod;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Tag;
import vestibule.validator.Citation;

/** The VL Photographic Image IOD: its modules and their attributes, from the committed tables (PS3.3 A.32.4). */
public final class ObjectTable {

    private static final String MACRO = "code-sequence";
    private static final String OVERLAY = "60xx";
    private static final ObjectTable PHOTOGRAPHS = new ObjectTable();

    private final String edition;
    private final Map<String, Module> modules = new LinkedHashMap<>();
    private final Map<String, Set<Tag>> signs = new HashMap<>();
    private final Level root = new Level();
    private final Level overlay = new Level();
    private final Level codes = new Level();

    private ObjectTable() {
        TableText moduleTable = TableText.read(ObjectTable.class, "modules.tsv", 7);
        edition = moduleTable.edition();
        for (List<String> row : moduleTable.rows()) {
            modules.put(row.get(0), new Module(row.get(0), row.get(1), row.get(3), row.get(4)));
        }
        modules.put(MACRO, new Module(MACRO, "Code Sequence", "M", "8.8"));
        TableText attributes = TableText.read(ObjectTable.class, "attributes.tsv", 15);
        Repeated repeated = new Repeated();
        for (List<String> row : attributes.rows()) {
            add(row, repeated);
        }
        findSigns(attributes.rows());
    }

    /** The table. */
    public static ObjectTable photographs() {
        return PHOTOGRAPHS;
    }

    /** The edition it comes from. */
    public String edition() {
        return edition;
    }

    Level root() {
        return root;
    }

    /** The attributes of group 6000, which stand for those of every overlay group (PS3.5 7.6). */
    Level overlay() {
        return overlay;
    }

    /** The modules that an object uses: the mandatory ones, and those of which it has an attribute that no mandatory one has. */
    Set<Module> used(DataSet dataSet) {
        Set<Module> used = new HashSet<>();
        for (Module module : modules.values()) {
            boolean shows = signs.getOrDefault(module.key(), Set.of()).stream()
                    .anyMatch(tag -> dataSet.find(tag).isPresent());
            if (module.isMandatory() || shows) {
                used.add(module);
            }
        }
        return used;
    }

    Optional<Module> module(String key) {
        return Optional.ofNullable(modules.get(key));
    }

    /** What many rows say in the same words, read once: the start of the program waits for the table. */
    private static final class Repeated {
        private final Map<String, Citation> citations = new HashMap<>();
        private final Map<String, Condition> conditions = new HashMap<>();

        Citation citation(String text) {
            return citations.computeIfAbsent(text, Citation::of);
        }

        Condition condition(String text) {
            return conditions.computeIfAbsent(text, ConditionParser::parse);
        }
    }

    private void add(List<String> row, Repeated repeated) {
        Module module = java.util.Objects.requireNonNull(modules.get(row.get(0)), row.get(0));
        String[] path = row.get(1).replace(OVERLAY, "6000").split("/", -1);
        Level level = module.key().equals(MACRO) ? codes : row.get(1).startsWith(OVERLAY) ? overlay : root;
        for (int i = 0; i < path.length - 1; i++) {
            level = level.contentOf(tag(path[i]));
        }
        Tag tag = tag(path[path.length - 1]);
        level.node(tag).statements().add(statement(module, row, repeated));
        if (row.get(7).equals("code")) {
            level.contentOf(tag).include(codes);
        }
    }

    private static Tag tag(String digits) {
        return new Tag(Integer.parseUnsignedInt(digits, 16));
    }

    private static Statement statement(Module module, List<String> row, Repeated repeated) {
        Citation clause =
                repeated.citation("PS3.3 " + module.section() + (row.get(8).isEmpty() ? "" : ", " + row.get(8)));
        int blank = row.get(13).indexOf(' ');
        String section = blank < 0 ? row.get(13) : row.get(13).substring(0, blank);
        List<String> values =
                row.get(14).isEmpty() ? List.of() : List.of(row.get(14).split("\\|", -1));
        return new Statement(
                module,
                Requirement.parse(row.get(5)),
                row.get(9).isEmpty() ? Optional.empty() : Optional.of(repeated.condition(row.get(9))),
                row.get(10),
                row.get(11).equals("absent"),
                row.get(6),
                row.get(12).equals("enumerated"),
                values,
                section.isEmpty() ? clause : repeated.citation("PS3.3 " + section),
                clause);
    }

    /**
     * What shows that an optional module is used: the attributes it does not share with a mandatory one; where it shares all of them, those
     * it must have.
     */
    private void findSigns(List<List<String>> rows) {
        Set<String> mandatory = new HashSet<>();
        Map<String, List<List<String>>> optional = new LinkedHashMap<>();
        for (List<String> row : rows) {
            Module module = java.util.Objects.requireNonNull(modules.get(row.get(0)));
            boolean outermost = row.get(1).length() == 8 && !row.get(1).startsWith(OVERLAY);
            if (outermost && module.isMandatory()) {
                mandatory.add(row.get(1));
            } else if (outermost) {
                optional.computeIfAbsent(module.key(), unused -> new ArrayList<>())
                        .add(row);
            }
        }
        optional.forEach((module, own) -> {
            Set<Tag> distinct = new HashSet<>();
            own.stream().filter(row -> !mandatory.contains(row.get(1))).forEach(row -> distinct.add(tag(row.get(1))));
            if (distinct.isEmpty()) {
                own.stream().filter(row -> row.get(5).equals("1")).forEach(row -> distinct.add(tag(row.get(1))));
            }
            signs.put(module, distinct);
        });
    }
}
