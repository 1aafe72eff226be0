package vestibule.dicom.data;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * The form that one value of text must have under its representation (PS3.5 Table 6.2-1 and 6.2.1 to 6.2.1.2). The writer refuses
 * what breaks it, the validator reports it; both ask here.
 */
public final class TextForm {

    private static final Pattern AGE = Pattern.compile("[0-9]{3}[DWMY]");
    private static final Pattern CODE = Pattern.compile("[A-Z0-9 _]*");
    private static final Pattern DECIMAL =
            Pattern.compile(" *[+-]?(?:[0-9]+(?:\\.[0-9]*)?|\\.[0-9]+)(?:[eE][+-]?[0-9]+)? *");
    private static final Pattern INTEGER = Pattern.compile(" *[+-]?[0-9]+ *");
    private static final Pattern DATE = Pattern.compile("([0-9]{4})([0-9]{2})([0-9]{2})");
    private static final Pattern TIME = Pattern.compile("([0-9]{2})(?:([0-9]{2})(?:([0-9]{2})(?:\\.[0-9]{1,6})?)?)?");
    private static final Pattern DATE_TIME = Pattern.compile(
            "([0-9]{4})(?:([0-9]{2})(?:([0-9]{2})(?:([0-9]{2})(?:([0-9]{2})(?:([0-9]{2})(?:\\.[0-9]{1,6})?)?)?)?)?)?([+-][0-9]{4})?");
    private static final Pattern URI = Pattern.compile("[A-Za-z0-9\\-._~:/?#\\[\\]@!$&'()*+,;=%]*");

    private TextForm() {}

    /**
     * What is wrong with one value.
     *
     * @param vr a representation of text
     * @param value the value, without the padding of the value field
     * @return what was found and what the form asks for, without the value itself; empty if nothing is wrong
     */
    public static Optional<String> problem(VR vr, String value) {
        if (vr == VR.PN) {
            return personName(value);
        }
        int characters = value.codePointCount(0, value.length());
        if (characters > vr.maximumLength()) {
            return Optional.of("%d characters where %s takes at most %d".formatted(characters, vr, vr.maximumLength()));
        }
        return switch (vr) {
            case AE -> applicationEntity(value);
            case AS -> match(AGE, vr, value, "three digits and one of D, W, M, Y");
            case CS -> match(CODE, vr, value, "capital letters, digits, space and underscore");
            case DA -> date(value);
            case DS -> match(DECIMAL, vr, value, "a decimal number");
            case DT -> dateTime(value);
            case IS -> integer(value);
            case TM -> time(value);
            case UI ->
                Uid.isWellFormed(value)
                        ? Optional.empty()
                        : Optional.of(
                                "no unique identifier: digits in components parted by dots, none with a leading zero");
            case UR -> match(URI, vr, value, "the characters of a URI, no space");
            case LT, ST, UT -> control(value, true);
            case LO, SH, UC -> control(value, false);
            default -> Optional.empty();
        };
    }

    private static Optional<String> match(Pattern form, VR vr, String value, String expected) {
        return form.matcher(value).matches()
                ? Optional.empty()
                : Optional.of("not the form of %s, which is %s".formatted(vr, expected));
    }

    private static Optional<String> applicationEntity(String value) {
        if (value.isBlank()) {
            return Optional.of("only spaces, which are no title");
        }
        return value.chars().allMatch(c -> c >= 0x20 && c < 0x7F && c != '\\')
                ? Optional.empty()
                : Optional.of("a character that AE does not have: printable ASCII without backslash");
    }

    private static Optional<String> control(String value, boolean freeText) {
        return value.chars().allMatch(c -> !isControl(c) || (freeText && isLayout(c)) || c == 0x1B)
                        && (freeText || value.indexOf('\\') < 0)
                ? Optional.empty()
                : Optional.of("a control character" + (freeText ? " other than TAB, LF, FF, CR" : " or a backslash"));
    }

    private static boolean isControl(int c) {
        return Character.isISOControl(c);
    }

    private static boolean isLayout(int c) {
        return c == '\t' || c == '\n' || c == '\f' || c == '\r';
    }

    private static Optional<String> date(String value) {
        Matcher form = DATE.matcher(value);
        if (!form.matches()) {
            return Optional.of("not the form of DA, which is YYYYMMDD");
        }
        return isDate(form.group(1), form.group(2), form.group(3))
                ? Optional.empty()
                : Optional.of("no day of the calendar");
    }

    private static boolean isDate(String year, String month, String day) {
        try {
            LocalDate.of(Integer.parseInt(year), Integer.parseInt(month), Integer.parseInt(day));
            return true;
        } catch (DateTimeException notInTheCalendar) {
            return false;
        }
    }

    private static Optional<String> time(String value) {
        Matcher form = TIME.matcher(value);
        if (!form.matches()) {
            return Optional.of("not the form of TM, which is HHMMSS.FFFFFF, cut at the right if at all");
        }
        return isTime(form.group(1), form.group(2), form.group(3)) ? Optional.empty() : Optional.of("no time of day");
    }

    private static boolean isTime(String hour, String minute, String second) {
        // 60 seconds are a leap second (PS3.5 Table 6.2-1)
        return below(hour, 24) && below(minute, 60) && below(second, 61);
    }

    private static boolean below(@org.jspecify.annotations.Nullable String digits, int limit) {
        return digits == null || Integer.parseInt(digits) < limit;
    }

    private static Optional<String> dateTime(String value) {
        Matcher form = DATE_TIME.matcher(value);
        if (!form.matches()) {
            return Optional.of("not the form of DT, which is YYYYMMDDHHMMSS.FFFFFF&ZZXX, cut at the right if at all");
        }
        String month = form.group(2) == null ? "01" : form.group(2);
        String day = form.group(3) == null ? "01" : form.group(3);
        boolean moment = isDate(form.group(1), month, day)
                && (form.group(4) == null || isTime(form.group(4), form.group(5), form.group(6)));
        return moment && isOffset(form.group(7))
                ? Optional.empty()
                : Optional.of("no moment of the calendar and clock");
    }

    /** Offsets run from -1200 to +1400, and -0000 is not one of them (PS3.5 Table 6.2-1, DT). */
    private static boolean isOffset(@org.jspecify.annotations.Nullable String offset) {
        if (offset == null) {
            return true;
        }
        int hours = Integer.parseInt(offset.substring(1, 3));
        int minutes = Integer.parseInt(offset.substring(3, 5));
        int total = (hours * 60 + minutes) * (offset.charAt(0) == '-' ? -1 : 1);
        return minutes < 60 && total >= -12 * 60 && total <= 14 * 60 && !offset.equals("-0000");
    }

    private static Optional<String> integer(String value) {
        if (!INTEGER.matcher(value).matches()) {
            return Optional.of("not the form of IS, which is a whole number");
        }
        long number = Long.parseLong(value.strip());
        return number >= Integer.MIN_VALUE && number <= Integer.MAX_VALUE
                ? Optional.empty()
                : Optional.of("a whole number beyond 32 bits");
    }

    private static Optional<String> personName(String value) {
        return PersonName.parse(value.replace("\u001B", "")).isPresent()
                ? Optional.empty()
                : Optional.of(
                        "not the form of PN: at most 3 groups of at most 64 characters, each at most 5 components");
    }
}
