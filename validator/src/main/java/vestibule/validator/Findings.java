package vestibule.validator;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * Takes what checks find in one object, levels it as the settings say, and keeps at most {@value #KEPT} findings a rule: the rest is
 * counted, so that a hostile file cannot fill the memory.
 */
public final class Findings {

    /** How many findings of one rule are kept for one object. */
    public static final int KEPT = 100;

    private final Settings settings;
    private final int most;
    private final List<Finding> kept = new ArrayList<>();
    private final Map<RuleId, Integer> counts = new HashMap<>();

    Findings(Settings settings, int most) {
        this.settings = settings;
        this.most = most;
    }

    /**
     * Reports a breach.
     *
     * @param facts name, value, name, value…
     */
    public void report(Rule rule, Location where, String... facts) {
        report(rule, rule.citation(), where, facts);
    }

    /**
     * Reports a breach of a row of a table.
     *
     * @param citation the row's clause
     * @param facts name, value, name, value…
     */
    public void report(Rule rule, Citation citation, Location where, String... facts) {
        if (!settings.profile().includes(rule)) {
            return;
        }
        if (counts.merge(rule.id(), 1, Integer::sum) > most) {
            return;
        }
        Map<String, String> named = new HashMap<>();
        for (int i = 0; i + 1 < facts.length; i += 2) {
            named.put(facts[i], Printable.of(facts[i + 1]));
        }
        kept.add(new Finding(rule, settings.severity(rule), where, citation, named));
    }

    /** Whether the profile takes an undecidable condition for false, so that it need not be noted. */
    public boolean assumesFalse(String words) {
        return settings.profile().assumedFalse().contains(words);
    }

    List<Finding> sorted() {
        return kept.stream().sorted().toList();
    }

    /** By rule, how many findings were counted but not kept. */
    Map<RuleId, Integer> notKept() {
        Map<RuleId, Integer> more = new TreeMap<>();
        counts.forEach((id, count) -> {
            if (count > most) {
                more.put(id, count - most);
            }
        });
        return more;
    }
}
