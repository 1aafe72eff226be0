package vestibule.bridge.patient;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.Month;
import java.time.ZoneId;
import java.util.Optional;

/**
 * Compares the moment a camera noted with what else is known of time: when the file was changed, when it was taken in, when the patient was
 * born.
 *
 * @param zone the zone of the practice's clocks
 */
public record CaptureChecks(ZoneId zone) {

    /** Clocks of cards and computers differ by minutes, and a camera may stand an hour off after the clocks were changed. */
    private static final Duration SLACK = Duration.ofMinutes(90);

    /** Card file systems keep local time without a zone (common practice, no source), and a reader may take it for another zone's. */
    private static final Duration FILE_SLACK = Duration.ofHours(26);

    private static final Duration FRESH = Duration.ofDays(7);

    /** A memory card is read on the day, or after the holidays of the practice (common practice, no source). */
    private static final Duration LONGEST_ON_A_CARD = Duration.ofDays(30);

    /** Whether the camera's clock cannot be right. */
    public Optional<Reason> clock(LocalDateTime taken, Instant fileTime, Instant takenIn) {
        Instant moment = taken.atZone(zone).toInstant();
        if (moment.isAfter(takenIn.plus(SLACK))) {
            return Optional.of(Reason.FROM_THE_FUTURE);
        }
        // A clock without battery starts on a first of January again (common practice, no source)
        boolean newYear = taken.getMonth() == Month.JANUARY && taken.getDayOfMonth() == 1;
        if (newYear && Duration.between(moment, takenIn).compareTo(FRESH) > 0) {
            return Optional.of(Reason.CLOCK_UNSET);
        }
        return moment.isAfter(fileTime.plus(FILE_SLACK))
                ? Optional.of(Reason.FILE_OLDER_THAN_PICTURE)
                : Optional.empty();
    }

    /**
     * Whether a picture is so old that its camera's clock may have begun anew years ago. The file's time says nothing of it: on a memory card
     * that is the camera's clock as well.
     */
    Optional<Reason> age(LocalDateTime taken, Instant takenIn) {
        return taken.atZone(zone).toInstant().isBefore(takenIn.minus(LONGEST_ON_A_CARD))
                ? Optional.of(Reason.CLOCK_UNSET)
                : Optional.empty();
    }

    /** Whether it was taken before the patient was born. */
    public static Optional<Reason> age(LocalDateTime taken, Optional<LocalDate> birthDate) {
        return birthDate.isPresent() && taken.toLocalDate().isBefore(birthDate.get())
                ? Optional.of(Reason.OLDER_THAN_PATIENT)
                : Optional.empty();
    }
}
