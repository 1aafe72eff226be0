package vestibule.bridge.object;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.Optional;
import vestibule.bridge.photo.CaptureTime;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.dict.Attributes;

/**
 * The moments of an object: when the picture was taken, and the day of the study (PS3.3 C.7.10.1, C.7.6.1, C.7.2.1).
 *
 * @param captured when the shutter opened, with its offset where the camera or the settings know it
 */
record Moments(Optional<CaptureTime> captured) {

    private static final DateTimeFormatter TIME = DateTimeFormatter.ofPattern("HHmmss");

    static Moments of(PhotographicObject.Material material) {
        Optional<CaptureTime> noted = material.photo().camera().captured();
        return new Moments(
                noted.map(time -> material.practice().zone().map(time::in).orElse(time)));
    }

    /** The day by the camera's clock. */
    Optional<LocalDate> day() {
        return captured.map(time -> time.local().toLocalDate());
    }

    /** A date as attributes of that kind have it (PS3.5 Table 6.2-1, DA). */
    static Optional<LocalDate> day(String text) {
        try {
            return Optional.of(LocalDate.parse(text.strip(), DateTimeFormatter.BASIC_ISO_DATE));
        } catch (DateTimeException noDay) {
            return Optional.empty();
        }
    }

    /** A time of day, to the second, from one in whole, to the minute or to the hour (PS3.5 Table 6.2-1, TM). */
    static Optional<LocalTime> time(String text) {
        String digits = (text.strip().replaceAll("\\..*", "") + "000000").substring(0, 6);
        try {
            return text.strip().length() < 2 ? Optional.empty() : Optional.of(LocalTime.parse(digits, TIME));
        } catch (DateTimeException noTime) {
            return Optional.empty();
        }
    }

    static String date(LocalDate day) {
        return DateTimeFormatter.BASIC_ISO_DATE.format(day);
    }

    /** General Acquisition (PS3.3 C.7.10.1), Content Date and Time (C.7.6.1), and the zone they are all in (C.12.1.1.8). */
    void putAcquisition(DataSet.Builder object) {
        captured.ifPresent(time -> {
            String date = date(time.local().toLocalDate());
            String clock = TIME.format(time.local()) + (time.fraction().isEmpty() ? "" : "." + time.fraction());
            Optional<String> offset = time.offset().map(Moments::offset);
            object.put(Attributes.ACQUISITION_DATE, date);
            object.put(Attributes.ACQUISITION_TIME, clock);
            object.put(Attributes.ACQUISITION_DATE_TIME, date + clock + offset.orElse(""));
            object.put(Attributes.CONTENT_DATE, date);
            object.put(Attributes.CONTENT_TIME, clock);
            object.putIfKnown(Attributes.TIMEZONE_OFFSET_FROM_UTC, offset);
        });
    }

    /** {@code +0130}; UTC itself is +0000, for -0000 is forbidden (PS3.5 Table 6.2-1, DT). */
    private static String offset(ZoneOffset offset) {
        int minutes = offset.getTotalSeconds() / 60;
        return "%s%02d%02d".formatted(minutes < 0 ? "-" : "+", Math.abs(minutes) / 60, Math.abs(minutes) % 60);
    }
}
