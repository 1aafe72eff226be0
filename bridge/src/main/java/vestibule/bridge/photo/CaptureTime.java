package vestibule.bridge.photo;

import java.time.DateTimeException;
import java.time.Duration;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * When the shutter opened, by the camera's clock.
 *
 * @param local date and time to the second
 * @param fraction decimal digits of the second as the camera gave them, at most six; empty if it gave none
 * @param offset how far local time was from UTC, if the camera or the settings say so
 */
public record CaptureTime(LocalDateTime local, String fraction, Optional<ZoneOffset> offset) {

    private static final Pattern MOMENT =
            Pattern.compile("([0-9]{4})[:\\-]([0-9]{2})[:\\-]([0-9]{2})[ T]([0-9]{2}):([0-9]{2}):([0-9]{2})");
    private static final Pattern OFFSET = Pattern.compile("([+-])([0-9]{2}):([0-9]{2})");

    /** The same moment with the offset of a zone, unless the camera gave one itself. */
    public CaptureTime in(ZoneId zone) {
        return offset.isPresent()
                ? this
                : new CaptureTime(local, fraction, Optional.of(zone.getRules().getOffset(local)));
    }

    /** So much later; the zone stays. */
    public CaptureTime plus(Duration correction) {
        return new CaptureTime(local.plus(correction), fraction, offset);
    }

    /** Reads what Exif writes; empty for blanks, zeros and days that no calendar has. */
    static Optional<CaptureTime> parse(String moment, Optional<String> subSeconds, Optional<String> offset) {
        Matcher form = MOMENT.matcher(moment.strip());
        if (!form.matches()) {
            return Optional.empty();
        }
        try {
            LocalDateTime local = LocalDateTime.of(
                    number(form, 1),
                    number(form, 2),
                    number(form, 3),
                    number(form, 4),
                    number(form, 5),
                    number(form, 6));
            String digits = subSeconds
                    .map(String::strip)
                    .filter(text -> text.matches("[0-9]{1,9}"))
                    .orElse("");
            return Optional.of(new CaptureTime(
                    local, digits.substring(0, Math.min(6, digits.length())), offset.flatMap(CaptureTime::offset)));
        } catch (DateTimeException notInTheCalendar) {
            return Optional.empty();
        }
    }

    private static int number(Matcher form, int group) {
        return Integer.parseInt(form.group(group));
    }

    /** Offsets that PS3.5 Table 6.2-1 (DT) does not have are no offsets. */
    private static Optional<ZoneOffset> offset(String text) {
        Matcher form = OFFSET.matcher(text.strip());
        if (!form.matches() || number(form, 3) > 59) {
            return Optional.empty();
        }
        int minutes = (number(form, 2) * 60 + number(form, 3)) * (form.group(1).equals("-") ? -1 : 1);
        return minutes < -12 * 60 || minutes > 14 * 60
                ? Optional.empty()
                : Optional.of(ZoneOffset.ofTotalSeconds(minutes * 60));
    }
}
