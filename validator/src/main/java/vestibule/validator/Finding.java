package vestibule.validator;

import java.util.Comparator;
import java.util.Map;
import java.util.TreeMap;

/**
 * One breach of a rule in one object.
 *
 * @param rule the rule
 * @param severity what the breach is under the profile
 * @param where the place in the object
 * @param citation where the requirement stands: the rule's own clause, or the row of a table it follows
 * @param facts what fills the rule's sentence, by name
 */
public record Finding(Rule rule, Severity severity, Location where, Citation citation, Map<String, String> facts)
        implements Comparable<Finding> {

    private static final Comparator<Finding> ORDER = Comparator.comparing(Finding::where)
            .thenComparing(finding -> finding.rule().id())
            .thenComparing(Finding::message);

    /** @throws IllegalArgumentException if a fact that the rule's sentence names is missing, for checks are ours */
    public Finding {
        for (String name : rule.factNames()) {
            if (!facts.containsKey(name)) {
                throw new IllegalArgumentException(rule.id() + " needs the fact " + name);
            }
        }
        facts = java.util.Collections.unmodifiableMap(new TreeMap<>(facts));
    }

    /** What was found, one sentence. */
    public String message() {
        return rule.sentence(facts);
    }

    /** Place and sentence in one line, the attribute named once: {@code (0028,0010) Rows is 3000, …}. */
    public String line() {
        String place = where.toString();
        String message = message();
        String name = place.substring(place.lastIndexOf(' ') + 1);
        boolean named = !where.path().isEmpty()
                && message.startsWith(name)
                && message.length() > name.length()
                && " ,".indexOf(message.charAt(name.length())) >= 0;
        return named ? place + message.substring(name.length()) : place + ": " + message;
    }

    /** By place, then rule, then sentence: the order of every report. */
    @Override
    public int compareTo(Finding other) {
        return ORDER.compare(this, other);
    }
}
