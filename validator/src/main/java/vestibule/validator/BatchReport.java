package vestibule.validator;

import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * What is to be said of a batch as a whole.
 *
 * @param summary how many objects got which verdict
 * @param findings what concerns no single object, as views that are missing in a series
 * @param waiverUses how many findings each waiver of the settings set aside, in their order
 */
public record BatchReport(Summary summary, List<Finding> findings, Map<Waiver, Integer> waiverUses) {

    public BatchReport {
        findings = List.copyOf(findings);
        waiverUses = java.util.Collections.unmodifiableMap(new java.util.LinkedHashMap<>(waiverUses));
    }

    /** How much was found of the batch as a whole, in one line; empty if nothing was. */
    public Optional<String> sentenceOfWhole() {
        long errors = count(Severity.ERROR);
        long warnings = count(Severity.WARNING);
        return errors + warnings == 0
                ? Optional.empty()
                : Optional.of("the batch as a whole: %d error%s, %d warning%s"
                        .formatted(errors, errors == 1 ? "" : "s", warnings, warnings == 1 ? "" : "s"));
    }

    private long count(Severity severity) {
        return findings.stream()
                .filter(finding -> finding.severity() == severity)
                .count();
    }

    /** Whether no object fails or is unreadable and nothing about the whole is an error. */
    public boolean isAcceptable() {
        return summary.fail() + summary.unreadable() == 0
                && findings.stream().noneMatch(finding -> finding.severity() == Severity.ERROR);
    }
}
