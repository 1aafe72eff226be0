package vestibule.validator;

/**
 * A rule that counts otherwise than it says.
 *
 * @param rule the rule
 * @param severity what a breach of it counts as
 * @param reason why
 */
public record Relevelling(RuleId rule, Severity severity, String reason) {

    /** What is changed and why, in one line. */
    public String sentence() {
        return "%s counts as %s, because %s".formatted(rule, severity.word(), reason);
    }
}
