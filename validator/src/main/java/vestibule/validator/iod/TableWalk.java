package vestibule.validator.iod;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Element;
import vestibule.dicom.data.Tag;
import vestibule.dicom.data.Value;
import vestibule.dicom.dict.Dictionary;
import vestibule.validator.Findings;
import vestibule.validator.Location;
import vestibule.validator.Rule;

/** Holds the statements of the used modules against a data set and the items in it. */
final class TableWalk {

    private final Set<Module> used;
    private final OutsideKnowledge outside;
    private final Findings findings;
    private final SortedMap<String, Set<String>> undecided = new TreeMap<>();

    TableWalk(Set<Module> used, OutsideKnowledge outside, Findings findings) {
        this.used = used;
        this.outside = outside;
        this.findings = findings;
    }

    /** Whether there are conditional attributes of which nobody can say whether they should be there. */
    boolean hasUndecided() {
        return !undecided.isEmpty();
    }

    /** These attributes, by what would have to be known. */
    String undecided() {
        return undecided.entrySet().stream()
                .map(entry -> "if " + entry.getKey() + ": " + String.join(", ", entry.getValue()))
                .collect(Collectors.joining("; "));
    }

    void walk(Level level, Scope scope, Location where) {
        for (Level.Node node : level.nodes()) {
            check(node, node.tag(), scope, where);
        }
    }

    /** The same for an overlay group, whose attributes stand in the tables under group 6000. */
    void walkOverlay(Level overlay, int group, Scope scope) {
        for (Level.Node node : overlay.nodes()) {
            check(node, Tag.of(group, node.tag().element()), scope, Location.OBJECT);
        }
    }

    private void check(Level.Node node, Tag tag, Scope scope, Location where) {
        Optional<Element> element = scope.dataSet().find(tag);
        if (element.isEmpty() && !node.mayBeNeeded()) {
            return;
        }
        List<Statement> applicable = applicable(node);
        if (applicable.isEmpty()) {
            return;
        }
        if (element.isEmpty()) {
            checkMissing(applicable, tag, scope, where);
            return;
        }
        checkFilled(applicable, element.get(), scope, where);
        checkAllowed(applicable, element.get(), scope, where);
        checkValues(applicable, element.get(), where);
        if (element.get().value() instanceof Value.Items items) {
            checkItems(applicable, tag, items.all(), where);
            node.content().ifPresent(content -> descend(content, tag, items.all(), scope, where));
        }
    }

    private List<Statement> applicable(Level.Node node) {
        List<Statement> applicable = new ArrayList<>(node.statements().size());
        for (Statement statement : node.statements()) {
            if (used.contains(statement.module())) {
                applicable.add(statement);
            }
        }
        return applicable;
    }

    private void descend(Level content, Tag tag, List<DataSet> items, Scope scope, Location where) {
        for (int i = 0; i < items.size(); i++) {
            walk(content, scope.item(items.get(i)), where.at(tag).item(i + 1));
        }
    }

    private Truth isNeeded(Statement statement, Scope scope) {
        if (!statement.type().needsPresence()) {
            return Truth.FALSE;
        }
        return statement
                .condition()
                .map(condition -> condition.test(scope, outside))
                .orElse(Truth.TRUE);
    }

    private void checkMissing(List<Statement> applicable, Tag tag, Scope scope, Location where) {
        Statement strictest = null;
        for (Statement statement : applicable) {
            Truth needed = isNeeded(statement, scope);
            if (needed == Truth.UNKNOWN) {
                String words = statement.condition().stream()
                        .flatMap(Condition::outsideWords)
                        .distinct()
                        .collect(Collectors.joining(", "));
                undecided.computeIfAbsent(words, unused -> new TreeSet<>()).add(keyword(tag));
            } else if (needed == Truth.TRUE
                    && (strictest == null || statement.type().compareTo(strictest.type()) < 0)) {
                strictest = statement;
            }
        }
        if (strictest != null) {
            report(missing(strictest), strictest, tag, where);
        }
    }

    private static Rule missing(Statement statement) {
        return switch (statement.type()) {
            case TYPE_1 -> ModuleRules.TYPE_1_MISSING;
            case TYPE_1C -> ModuleRules.TYPE_1C_MISSING;
            case TYPE_2 -> ModuleRules.TYPE_2_MISSING;
            case TYPE_2C -> ModuleRules.TYPE_2C_MISSING;
            case TYPE_3 -> throw new AssertionError(statement);
        };
    }

    private void report(Rule rule, Statement statement, Tag tag, Location where) {
        findings.report(
                rule,
                statement.clause(),
                where.at(tag),
                "attribute",
                keyword(tag),
                "module",
                statement.module().name(),
                "type",
                statement.type().code(),
                "condition",
                statement.words());
    }

    private void checkFilled(List<Statement> applicable, Element element, Scope scope, Location where) {
        if (Values.isFilled(element)) {
            return;
        }
        boolean alwaysValued =
                applicable.stream().allMatch(statement -> statement.type().needsValue());
        for (Statement statement : applicable) {
            // A conditional attribute that may be there though its condition does not hold is there for its value,
            // unless another
            // module takes it without one.
            boolean valued = alwaysValued || isNeeded(statement, scope) != Truth.FALSE;
            if (statement.type().needsValue() && valued) {
                boolean conditional = statement.type().isConditional();
                Rule rule = conditional ? ModuleRules.TYPE_1C_EMPTY : ModuleRules.TYPE_1_EMPTY;
                report(rule, statement, element.tag(), where);
                return;
            }
        }
        boolean mayBeEmpty = applicable.stream()
                .anyMatch(
                        statement -> statement.type() == Requirement.TYPE_2 || statement.type() == Requirement.TYPE_2C);
        if (element.value() instanceof Value.Items && !mayBeEmpty) {
            findings.report(ModuleRules.NO_ITEMS, where.at(element.tag()), "attribute", keyword(element.tag()));
        }
    }

    /** Wrong only where every module that knows the attribute forbids it here. */
    private void checkAllowed(List<Statement> applicable, Element element, Scope scope, Location where) {
        boolean forbidden = applicable.stream()
                .allMatch(statement -> statement.type().isConditional()
                        && statement.absentOtherwise()
                        && isForbidden(statement, scope));
        if (forbidden) {
            report(ModuleRules.MUST_BE_ABSENT, applicable.get(0), element.tag(), where);
        }
    }

    private boolean isForbidden(Statement statement, Scope scope) {
        return statement
                        .condition()
                        .map(condition -> condition.test(scope, outside.whenPresent()))
                        .orElse(Truth.UNKNOWN)
                == Truth.FALSE;
    }

    private void checkValues(List<Statement> applicable, Element element, Location where) {
        List<Statement> lists = applicable.stream()
                .filter(statement -> !statement.values().isEmpty())
                .toList();
        for (String text : lists.isEmpty() ? List.<String>of() : Values.texts(element)) {
            Optional<Statement> broken = broken(lists, text, true).or(() -> broken(lists, text, false));
            if (!text.isEmpty() && broken.isPresent()) {
                Statement statement = broken.get();
                findings.report(
                        statement.closedList() ? ModuleRules.ENUMERATED : ModuleRules.DEFINED_TERM,
                        statement.valuesClause(),
                        where.at(element.tag()),
                        "attribute",
                        keyword(element.tag()),
                        "value",
                        text,
                        "values",
                        String.join(", ", statement.values()));
            }
        }
    }

    private static Optional<Statement> broken(List<Statement> lists, String text, boolean closed) {
        return lists.stream()
                .filter(statement ->
                        statement.closedList() == closed && !statement.values().contains(text))
                .findFirst();
    }

    private void checkItems(List<Statement> applicable, Tag tag, List<DataSet> items, Location where) {
        for (Statement statement : applicable) {
            boolean one = statement.items().equals("1") || statement.items().equals("0-1");
            if (one && items.size() > 1) {
                findings.report(
                        ModuleRules.ITEM_COUNT,
                        statement.clause(),
                        where.at(tag),
                        "attribute",
                        keyword(tag),
                        "count",
                        Integer.toString(items.size()),
                        "allowed",
                        statement.items());
                return;
            }
        }
    }

    static String keyword(Tag tag) {
        return Dictionary.standard()
                .find(tag)
                .map(entry -> entry.attribute().keyword())
                .orElseGet(tag::toString);
    }
}
