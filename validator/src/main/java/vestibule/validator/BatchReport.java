package vestibule.validator;

import java.util.List;
import java.util.Map;

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

    /** Whether no object fails or is unreadable and nothing about the whole is an error. */
    public boolean isAcceptable() {
        return summary.fail() + summary.unreadable() == 0
                && findings.stream().noneMatch(finding -> finding.severity() == Severity.ERROR);
    }
}
