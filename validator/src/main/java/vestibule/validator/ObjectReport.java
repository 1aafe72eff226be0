package vestibule.validator;

import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;

/**
 * The verdict on one object and its reasons.
 *
 * @param path the file; empty for a data set that is not written yet
 * @param verdict what follows from the findings
 * @param findings the findings by place, then rule
 * @param notListed by rule, how many findings more there are than the list holds
 * @param reason for an unreadable file: why, in one sentence; else empty
 */
public record ObjectReport(
        Optional<Path> path,
        Verdict verdict,
        List<Finding> findings,
        Map<RuleId, Integer> notListed,
        Optional<String> reason) {

    public ObjectReport {
        findings = List.copyOf(findings);
        notListed = java.util.Collections.unmodifiableMap(new TreeMap<>(notListed));
    }

    static ObjectReport of(Optional<Path> path, Findings findings) {
        List<Finding> sorted = findings.sorted();
        return new ObjectReport(path, Verdict.of(sorted), sorted, findings.notKept(), Optional.empty());
    }

    static ObjectReport unreadable(Path path, String reason) {
        return new ObjectReport(
                Optional.of(path), Verdict.UNREADABLE, List.of(), Map.of(), Optional.of(Printable.of(reason)));
    }

    /** The findings that count as errors. */
    public List<Finding> errors() {
        return findings.stream()
                .filter(finding -> finding.severity() == Severity.ERROR)
                .toList();
    }

    /** Whether the object may be sent: nothing is an error. */
    public boolean isAcceptable() {
        return verdict == Verdict.PASS || verdict == Verdict.WARN;
    }
}
