package vestibule.validator.report;

import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import vestibule.validator.BatchReport;
import vestibule.validator.Relevelling;
import vestibule.validator.StreamDepth;
import vestibule.validator.Validator;
import vestibule.validator.ViewSet;
import vestibule.validator.Waiver;

/**
 * What stands at the head of every report.
 *
 * @param program name and version of the program
 * @param edition the edition of the standard
 * @param profile the profile's name
 * @param streams how far streams were read
 * @param relevellings rules that count otherwise than they say
 * @param sets the views that sittings should contain
 * @param today the day it was made
 */
public record ReportHeader(
        String program,
        String edition,
        String profile,
        String streams,
        List<Relevelling> relevellings,
        List<ViewSet> sets,
        LocalDate today) {

    public ReportHeader {
        relevellings = List.copyOf(relevellings);
        sets = List.copyOf(sets);
    }

    /** The header of what a validator says. */
    public static ReportHeader of(String program, Validator validator) {
        return new ReportHeader(
                program,
                validator.edition(),
                validator.settings().profile().name(),
                validator.depth().word(),
                validator.settings().relevellings(),
                validator.settings().sets(),
                validator.today());
    }

    /** What may be wrong with a picture that passes because its stream was read that far only; empty if it was decoded. */
    String limit() {
        return StreamDepth.named(streams).map(StreamDepth::limit).orElse("");
    }

    /** What reports say of a waiver besides its own words: how often it was used, or that it has expired. */
    String state(Waiver waiver, int uses) {
        if (!waiver.isInForce(today)) {
            return "expired";
        }
        return switch (uses) {
            case 0 -> "in force, not used";
            case 1 -> "in force, used once";
            default -> "in force, used " + uses + " times";
        };
    }

    /** Waivers with their state. */
    List<Map.Entry<Waiver, String>> waivers(BatchReport whole) {
        return whole.waiverUses().entrySet().stream()
                .map(entry -> Map.entry(entry.getKey(), state(entry.getKey(), entry.getValue())))
                .toList();
    }
}
