package vestibule.validator;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;

/**
 * The verdict on one object and its reasons.
 *
 * @param path the file it lies in; empty for a data set that is not written yet and for an object that came over the network
 * @param name what reports call it: the path, with the name of the entry for a ZIP file
 * @param verdict what follows from the findings
 * @param findings the findings by place, then rule
 * @param waived findings that a waiver sets aside; they do not count
 * @param notListed by rule, how many findings more there are than the list holds
 * @param reason for an unreadable file: why, in one sentence; else empty
 * @param thumbnail a small picture as a {@code data:} reference; only where it was asked for
 */
public record ObjectReport(
        Optional<Path> path,
        String name,
        Verdict verdict,
        List<Finding> findings,
        List<Waived> waived,
        Map<RuleId, Integer> notListed,
        Optional<String> reason,
        Optional<String> thumbnail) {

    /** What an object is called that has no name yet. */
    static final String UNWRITTEN = "(not written yet)";

    public ObjectReport {
        findings = List.copyOf(findings);
        waived = List.copyOf(waived);
        notListed = java.util.Collections.unmodifiableMap(new TreeMap<>(notListed));
    }

    /** What was found in an object, less what is waived on that day. */
    static ObjectReport of(Named named, Findings found, Settings settings, LocalDate today) {
        List<Finding> counting = new ArrayList<>();
        List<Waived> waived = new ArrayList<>();
        Map<RuleId, Integer> more = new TreeMap<>(found.notKept());
        for (Finding finding : found.sorted()) {
            Optional<Waiver> waiver = settings.waivers().stream()
                    .filter(one ->
                            one.rule().equals(finding.rule().id()) && one.isInForce(today) && one.covers(named.name()))
                    .findFirst();
            if (waiver.isPresent()) {
                waived.add(new Waived(finding, waiver.get()));
                more.remove(finding.rule().id());
            } else {
                counting.add(finding);
            }
        }
        return new ObjectReport(
                named.path(),
                named.name(),
                Verdict.of(counting),
                counting,
                waived,
                more,
                Optional.empty(),
                Optional.empty());
    }

    static ObjectReport unreadable(Named named, String reason) {
        return new ObjectReport(
                named.path(),
                named.name(),
                Verdict.UNREADABLE,
                List.of(),
                List.of(),
                Map.of(),
                Optional.of(Printable.of(reason)),
                Optional.empty());
    }

    /** The same with a small picture. */
    ObjectReport showing(Optional<String> picture) {
        return new ObjectReport(path, name, verdict, findings, waived, notListed, reason, picture);
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
