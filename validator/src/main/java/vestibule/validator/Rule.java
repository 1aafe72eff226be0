package vestibule.validator;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * One requirement. It is declared once, next to the check that looks for its breach.
 *
 * @param id its name for ever
 * @param severity what a breach of it is, before a profile says otherwise
 * @param confidence whether a breach is certain or a judgement
 * @param citation where it stands; a finding may name the exact row
 * @param requires what must be true, one sentence
 * @param found what is not, with named facts in braces, as {@code {attribute} is not there}
 * @param advice what to do about it
 * @param limit how far it looks, for its page; empty where it sees all that it is about
 */
public record Rule(
        RuleId id,
        Severity severity,
        Confidence confidence,
        Citation citation,
        String requires,
        String found,
        String advice,
        String limit) {

    private static final Pattern FACT = Pattern.compile("\\{([a-z]+)}");

    /** A rule whose breach the bytes prove. */
    public static Rule of(String id, Severity severity, String citation, String requires, String found, String advice) {
        return new Rule(
                RuleId.parse(id), severity, Confidence.CERTAIN, Citation.of(citation), requires, found, advice, "");
    }

    /** The same rule, as one whose breach is a judgement. */
    public Rule asJudgement() {
        return new Rule(id, severity, Confidence.JUDGEMENT, citation, requires, found, advice, limit);
    }

    /** The same rule, which looks no further than that sentence says. */
    public Rule within(String sentence) {
        return new Rule(id, severity, confidence, citation, requires, found, advice, sentence);
    }

    /** Whether it is a rule of the house rather than of the standard; the profile {@code practice} adds these. */
    public boolean isHouseRule() {
        return citation.part().equals("House");
    }

    /** The names of the facts that a finding must give. */
    public List<String> factNames() {
        List<String> names = new ArrayList<>();
        Matcher fact = FACT.matcher(found);
        while (fact.find()) {
            names.add(fact.group(1));
        }
        return List.copyOf(names);
    }

    /** The sentence about what was found, facts in their places. */
    String sentence(Map<String, String> facts) {
        return FACT.matcher(found)
                .replaceAll(match -> Matcher.quoteReplacement(facts.getOrDefault(match.group(1), match.group())));
    }
}
