package vestibule.bridge.patient;

import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.PersonName;
import vestibule.dicom.dict.Attributes;

/**
 * A patient whom an archive or a list knows.
 *
 * @param patient the patient
 * @param source who knows
 * @param appointment what is planned for the patient, if the source says so
 */
public record Known(Patient patient, Evidence.Source source, Optional<Appointment> appointment) {

    /**
     * What is planned.
     *
     * @param start when it begins, by the practice's clock
     * @param accession Accession Number (0008,0050)
     * @param study Study Instance UID (0020,000D)
     * @param description what is to be done
     * @param item the worklist item it comes from, with all it says
     * @param listed when the list it stands in was written; where nothing else says the day, it is for that one
     */
    public record Appointment(
            Optional<LocalDateTime> start,
            Optional<String> accession,
            Optional<String> study,
            Optional<String> description,
            Optional<DataSet> item,
            Optional<Instant> listed) {

        /** One that stands in no list. */
        public Appointment(
                Optional<LocalDateTime> start,
                Optional<String> accession,
                Optional<String> study,
                Optional<String> description,
                Optional<DataSet> item) {
            this(start, accession, study, description, item, Optional.empty());
        }

        /** The day it is planned for, which may be known where the hour is not. */
        public Optional<LocalDate> day() {
            return start.map(LocalDateTime::toLocalDate).or(() -> item.flatMap(Known::scheduled));
        }
    }

    /** The patient of a match at PATIENT or STUDY level, or of a worklist item; empty if it has no id. */
    public static Optional<Known> of(DataSet match, Evidence.Source source) {
        Optional<String> id =
                match.text(Attributes.PATIENT_ID).map(String::strip).filter(text -> !text.isEmpty());
        return id.map(known -> new Known(
                new Patient(
                        known,
                        match.text(Attributes.ISSUER_OF_PATIENT_ID)
                                .map(String::strip)
                                .filter(text -> !text.isEmpty()),
                        match.text(Attributes.PATIENT_NAME)
                                .flatMap(PersonName::parse)
                                .orElse(new PersonName(
                                        PersonName.Group.NONE, PersonName.Group.NONE, PersonName.Group.NONE)),
                        match.text(Attributes.PATIENT_BIRTH_DATE).flatMap(Known::day),
                        match.text(Attributes.PATIENT_SEX).filter(text -> text.matches("[MFO]")),
                        others(match, known)),
                source,
                appointment(match)));
    }

    private static List<Patient.OtherId> others(DataSet match, String own) {
        List<Patient.OtherId> others = new ArrayList<>();
        for (DataSet item : match.items(Attributes.OTHER_PATIENT_I_DS_SEQUENCE)) {
            item.text(Attributes.PATIENT_ID)
                    .filter(id -> !id.isBlank() && !id.equals(own))
                    .ifPresent(id -> others.add(new Patient.OtherId(id, item.text(Attributes.ISSUER_OF_PATIENT_ID))));
        }
        return others;
    }

    private static Optional<Appointment> appointment(DataSet match) {
        List<DataSet> steps = match.items(Attributes.SCHEDULED_PROCEDURE_STEP_SEQUENCE);
        if (steps.isEmpty()) {
            return Optional.empty();
        }
        DataSet step = steps.get(0);
        Optional<LocalDate> day = scheduled(match);
        Optional<LocalTime> time =
                step.text(Attributes.SCHEDULED_PROCEDURE_STEP_START_TIME).flatMap(Known::time);
        return Optional.of(new Appointment(
                day.flatMap(date -> time.map(date::atTime)),
                match.text(Attributes.ACCESSION_NUMBER).filter(text -> !text.isBlank()),
                match.text(Attributes.STUDY_INSTANCE_UID).filter(text -> !text.isBlank()),
                step.text(Attributes.SCHEDULED_PROCEDURE_STEP_DESCRIPTION)
                        .or(() -> match.text(Attributes.REQUESTED_PROCEDURE_DESCRIPTION))
                        .filter(text -> !text.isBlank()),
                Optional.of(match)));
    }

    private static Optional<LocalDate> scheduled(DataSet match) {
        return match.items(Attributes.SCHEDULED_PROCEDURE_STEP_SEQUENCE).stream()
                .findFirst()
                .flatMap(step -> step.text(Attributes.SCHEDULED_PROCEDURE_STEP_START_DATE))
                .flatMap(Known::day);
    }

    private static Optional<LocalDate> day(String text) {
        try {
            return Optional.of(LocalDate.parse(text.strip(), DateTimeFormatter.BASIC_ISO_DATE));
        } catch (DateTimeException noDay) {
            return Optional.empty();
        }
    }

    /** A time in whole, or to the minute or the hour (PS3.5 Table 6.2-1, TM). */
    private static Optional<LocalTime> time(String text) {
        String digits = (text.strip().replaceAll("\\..*", "") + "0000").substring(0, 6);
        try {
            return Optional.of(LocalTime.parse(digits, DateTimeFormatter.ofPattern("HHmmss")));
        } catch (DateTimeException noTime) {
            return Optional.empty();
        }
    }
}
