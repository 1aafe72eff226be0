package vestibule.validator.rules;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.Optional;
import vestibule.dicom.data.Attribute;
import vestibule.dicom.data.DataSet;

/** The day in a date or a moment (PS3.5 6.2, DA and DT). */
final class Days {

    private Days() {}

    /** The day, where the value has one that is in the calendar. */
    static Optional<LocalDate> of(DataSet dataSet, Attribute attribute) {
        return dataSet.text(attribute).filter(text -> text.length() >= 8).flatMap(text -> {
            for (int i = 0; i < 8; i++) {
                if (text.charAt(i) < '0' || text.charAt(i) > '9') {
                    return Optional.empty();
                }
            }
            try {
                return Optional.of(LocalDate.of(
                        Integer.parseInt(text.substring(0, 4)),
                        Integer.parseInt(text.substring(4, 6)),
                        Integer.parseInt(text.substring(6, 8))));
            } catch (DateTimeException notInTheCalendar) {
                return Optional.empty();
            }
        });
    }
}
