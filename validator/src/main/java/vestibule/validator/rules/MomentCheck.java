package vestibule.validator.rules;

import java.time.LocalDate;
import java.time.LocalTime;
import java.time.Period;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;
import vestibule.dicom.data.Attribute;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.dict.Dictionary;
import vestibule.validator.Check;
import vestibule.validator.Findings;
import vestibule.validator.Location;
import vestibule.validator.Rule;
import vestibule.validator.Severity;
import vestibule.validator.Subject;

/** When the photograph was taken, against the study, the birth of the patient and today. */
final class MomentCheck implements Check {

    private static final int DAYS_APART = 1;
    private static final int MINUTES_BEFORE = 60;

    private static final Pattern HOUR_AND_MINUTE = Pattern.compile("(?:[01][0-9]|2[0-3])[0-5][0-9]");
    private static final Pattern AGE_FORM = Pattern.compile("[0-9]{3}[DWMY]");

    private static final Rule BEFORE_BIRTH = Rule.of(
            "PHO-004",
            Severity.ERROR,
            "PS3.3 C.7.1.1",
            "Nothing is recorded of a patient before birth.",
            "{attribute} is a day before PatientBirthDate",
            "Find out which of the dates is wrong; it may be the wrong patient.");
    private static final Rule OTHER_DAY = Rule.of(
                    "PHO-005",
                    Severity.WARNING,
                    "PS3.3 C.7.2.1",
                    "A photograph is taken on the day of its study.",
                    "AcquisitionDateTime and StudyDate are {days} days apart",
                    "See whether the clock of the camera is right and the photograph is in its study.")
            .asJudgement();
    private static final Rule FUTURE = Rule.of(
                    "PHO-013",
                    Severity.ERROR,
                    "PS3.3 C.7.2.1",
                    "Nothing is recorded before it happened.",
                    "{attribute} is a day that has not come yet",
                    "See whether the clock of the camera, or of the computer that checks, is right.")
            .asJudgement();
    private static final Rule CLOCK_NOT_SET = Rule.of(
                    "PHO-014",
                    Severity.WARNING,
                    "House clocks",
                    "The clock of the camera is set.",
                    "the photograph was taken on {day}, the day on which many clocks start that were never set",
                    "Find out when it was taken, and set the clock of the camera.")
            .asJudgement();
    private static final Rule BEFORE_STUDY = Rule.of(
                    "PHO-015",
                    Severity.WARNING,
                    "PS3.3 C.7.2.1",
                    "A photograph is taken after its study began.",
                    "AcquisitionDateTime is {minutes} minutes before StudyTime",
                    "See whether the clock of the camera is right and the photograph is of this patient.")
            .asJudgement();
    private static final Rule AGE = Rule.of(
            "PHO-016",
            Severity.WARNING,
            "PS3.3 C.7.2.2",
            "The age is that which birth date and study date make.",
            "PatientAge is \"{age}\", and the dates make {years} years",
            "Find out which is wrong; it may be the wrong patient.");

    private static final Attribute ACQUISITION = Attributes.ACQUISITION_DATE_TIME;
    private static final Attribute PATIENT_AGE =
            Dictionary.standard().find("PatientAge").orElseThrow().attribute();
    /** First days of usual clocks; common practice, no source. */
    private static final Set<LocalDate> FIRST_DAYS = Set.of(
            LocalDate.of(1970, 1, 1), LocalDate.of(1980, 1, 1), LocalDate.of(2000, 1, 1), LocalDate.of(2001, 1, 1));

    @Override
    public List<Rule> rules() {
        return List.of(BEFORE_BIRTH, OTHER_DAY, FUTURE, CLOCK_NOT_SET, BEFORE_STUDY, AGE);
    }

    @Override
    public void run(Subject subject, Findings findings) {
        DataSet dataSet = subject.dataSet();
        checkFuture(subject, findings);
        if (!subject.isPhotograph()) {
            return;
        }
        checkBirth(dataSet, findings);
        checkAge(dataSet, findings);
        Optional<LocalDate> taken = Days.of(dataSet, ACQUISITION);
        if (taken.filter(FIRST_DAYS::contains).isPresent()) {
            findings.report(
                    CLOCK_NOT_SET, Location.of(ACQUISITION), "day", taken.get().toString());
        }
        Optional<LocalDate> study = Days.of(dataSet, Attributes.STUDY_DATE);
        if (taken.isPresent() && study.isPresent()) {
            long days = Math.abs(ChronoUnit.DAYS.between(taken.get(), study.get()));
            if (days > DAYS_APART) {
                findings.report(OTHER_DAY, Location.of(ACQUISITION), "days", Long.toString(days));
            } else if (days == 0) {
                checkTime(dataSet, findings);
            }
        }
    }

    /** A day is in the future only if no zone on earth has it already. */
    private static void checkFuture(Subject subject, Findings findings) {
        LocalDate latest = LocalDate.ofInstant(subject.now(), ZoneOffset.ofHours(14));
        for (Attribute attribute :
                List.of(Attributes.PATIENT_BIRTH_DATE, Attributes.STUDY_DATE, Attributes.CONTENT_DATE, ACQUISITION)) {
            if (Days.of(subject.dataSet(), attribute)
                    .filter(day -> day.isAfter(latest))
                    .isPresent()) {
                findings.report(FUTURE, Location.of(attribute), "attribute", attribute.keyword());
            }
        }
    }

    private static void checkBirth(DataSet dataSet, Findings findings) {
        Optional<LocalDate> birth = Days.of(dataSet, Attributes.PATIENT_BIRTH_DATE);
        if (birth.isPresent()) {
            for (Attribute attribute : List.of(Attributes.STUDY_DATE, Attributes.CONTENT_DATE, ACQUISITION)) {
                if (Days.of(dataSet, attribute)
                        .filter(day -> day.isBefore(birth.get()))
                        .isPresent()) {
                    findings.report(BEFORE_BIRTH, Location.of(attribute), "attribute", attribute.keyword());
                }
            }
        }
    }

    private static void checkTime(DataSet dataSet, Findings findings) {
        Optional<LocalTime> taken =
                dataSet.text(ACQUISITION).filter(text -> text.length() > 8).flatMap(text -> time(text.substring(8)));
        Optional<LocalTime> begun = dataSet.text(Attributes.STUDY_TIME).flatMap(MomentCheck::time);
        if (taken.isPresent() && begun.isPresent()) {
            long minutes = ChronoUnit.MINUTES.between(taken.get(), begun.get());
            if (minutes > MINUTES_BEFORE) {
                findings.report(BEFORE_STUDY, Location.of(ACQUISITION), "minutes", Long.toString(minutes));
            }
        }
    }

    private static Optional<LocalTime> time(String text) {
        if (!HOUR_AND_MINUTE.matcher(text).lookingAt()) {
            return Optional.empty();
        }
        return Optional.of(
                LocalTime.of(Integer.parseInt(text.substring(0, 2)), Integer.parseInt(text.substring(2, 4))));
    }

    private static void checkAge(DataSet dataSet, Findings findings) {
        Optional<String> age =
                dataSet.text(PATIENT_AGE).filter(text -> AGE_FORM.matcher(text).matches());
        Optional<LocalDate> birth = Days.of(dataSet, Attributes.PATIENT_BIRTH_DATE);
        Optional<LocalDate> study = Days.of(dataSet, Attributes.STUDY_DATE);
        if (age.isEmpty() || birth.isEmpty() || study.isEmpty() || birth.get().isAfter(study.get())) {
            return;
        }
        int count = Integer.parseInt(age.get().substring(0, 3));
        int years = Period.between(birth.get(), study.get()).getYears();
        int stated = switch (age.get().charAt(3)) {
            case 'Y' -> count;
            case 'M' -> count / 12;
            case 'W' -> count * 7 / 365;
            default -> count / 365;
        };
        if (Math.abs(stated - years) > 1) {
            findings.report(AGE, Location.of(PATIENT_AGE), "age", age.get(), "years", Integer.toString(years));
        }
    }
}
