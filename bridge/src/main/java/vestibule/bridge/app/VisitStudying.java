package vestibule.bridge.app;

import java.io.IOException;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import vestibule.bridge.object.KnownStudy;
import vestibule.bridge.object.Order;
import vestibule.bridge.object.StudyChoice;
import vestibule.bridge.object.Visit;
import vestibule.bridge.patient.Known;
import vestibule.bridge.patient.Patient;
import vestibule.bridge.settings.Settings;
import vestibule.bridge.settings.Study;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Uid;
import vestibule.dicom.dict.Attributes;

/** One study for each visit and one series for each sitting, as the practice's settings have it. */
final class VisitStudying implements Studying {

    /** What a person says who wants a study of its own. */
    private static final String NEW = "new";

    private static final String ORDER_OF_WHICH_DAY = "order-of-which-day";

    private final Settings settings;
    private final Studies studies;
    private final ZoneId zone;

    /** Who knows the studies that a patient has already. */
    @FunctionalInterface
    interface Studies {

        /** No archive to ask. */
        Studies NONE = patient -> List.of();

        /**
         * The patient's studies.
         *
         * @throws IOException if the archive cannot be asked, or not to the end
         */
        List<KnownStudy> of(Patient patient) throws IOException;
    }

    /** @param zone of the practice's clocks */
    VisitStudying(Settings settings, Studies studies, ZoneId zone) {
        this.settings = settings;
        this.studies = studies;
        this.zone = zone;
    }

    @Override
    public Studied study(Sitting sitting, List<Viewing.Look> looks) throws IOException {
        Patient patient = sitting.patient()
                .orElseThrow(() -> new IllegalArgumentException("a study belongs to a patient, and none is decided"));
        Optional<LocalDate> day = sitting.shots().stream()
                .flatMap(shot -> shot.taken().stream())
                .map(time -> time.local().toLocalDate())
                .findFirst();
        Optional<String> said = said(sitting, patient);
        Optional<Undecided> unclear = said.isEmpty() ? ofWhichDay(sitting, day) : Optional.empty();
        if (unclear.isPresent()) {
            return unclear.get();
        }
        List<Order> orders = said.equals(Optional.of(NEW)) ? List.of() : orders(sitting, day, said.flatMap(Uid::parse));
        if (orders.size() > 1) {
            return new Undecided(
                    "several-orders",
                    "the worklist has %d orders for that patient and day; say which study it is, or new"
                            .formatted(orders.size()));
        }
        // A row of the day list that names no study is an appointment, and asks the archive nothing
        boolean ask = orders.stream().anyMatch(order -> order.study().isPresent())
                || settings.study().join() == Study.Join.VISIT;
        StudyChoice choice = StudyChoice.of(new StudyChoice.Question(
                patient,
                settings.practice().issuer(),
                day,
                name(sitting),
                said.flatMap(Uid::parse),
                orders.stream().findFirst(),
                ask ? studies.of(patient) : List.of(),
                said.equals(Optional.of(NEW)) ? settings.study().apart() : settings.study()));
        if (choice instanceof StudyChoice.Chosen chosen) {
            return new Visits(visits(sitting, looks, chosen.visit()), chosen.why());
        }
        return new Undecided(StudyChoice.SEVERAL_STUDIES, ((StudyChoice.Unclear) choice).message());
    }

    /** Where it cannot be told whether an order is for the day. */
    private Optional<Undecided> ofWhichDay(Sitting sitting, Optional<LocalDate> day) {
        if (day.isEmpty()) {
            return isOrdered(sitting.appointments().stream().filter(one -> day(one).isPresent()))
                    ? Optional.of(
                            new Undecided(
                                    ORDER_OF_WHICH_DAY,
                                    "the worklist or day list has an order for that patient, and nothing says on which day it was taken; say which study it is, or new"))
                    : Optional.empty();
        }
        boolean ofAnother = ofDay(sitting.appointments(), day).isEmpty()
                && isOrdered(sitting.appointments().stream()
                        .filter(one -> one.day().isEmpty() && one.listed().isPresent()));
        return ofAnother
                ? Optional.of(
                        new Undecided(
                                ORDER_OF_WHICH_DAY,
                                "the day list has an order for that patient that names no day, and it was taken on another day than that list was written; say which study it is, or new"))
                : Optional.empty();
    }

    /** The day that an appointment is for: its own, else that of its list. */
    private Optional<LocalDate> day(Known.Appointment appointment) {
        return appointment.day().or(() -> appointment.listed().map(written -> LocalDate.ofInstant(written, zone)));
    }

    /** The orders of the day that differ in their study; where a person named a study, the order of that one, whatever its day. */
    private List<Order> orders(Sitting sitting, Optional<LocalDate> day, Optional<Uid> said) {
        List<Known.Appointment> appointments =
                said.isPresent() ? sitting.appointments() : ofDay(sitting.appointments(), day);
        Map<Object, Order> byStudy = new LinkedHashMap<>();
        for (Known.Appointment appointment : appointments) {
            Order order = order(appointment);
            if (said.isEmpty() || order.study().equals(said)) {
                byStudy.putIfAbsent(order.study().map(Object.class::cast).orElse(order), order);
            }
        }
        return List.copyOf(byStudy.values());
    }

    /** Those that name the day; else those that name none, if their list was written on it or they stand in none. */
    private List<Known.Appointment> ofDay(List<Known.Appointment> appointments, Optional<LocalDate> day) {
        List<Known.Appointment> dated = appointments.stream()
                .filter(appointment -> day.isPresent() && appointment.day().equals(day))
                .toList();
        return dated.isEmpty()
                ? appointments.stream()
                        .filter(appointment -> appointment.day().isEmpty())
                        .filter(appointment ->
                                day(appointment).isEmpty() || day(appointment).equals(day))
                        .toList()
                : dated;
    }

    private static boolean isOrdered(Stream<Known.Appointment> appointments) {
        return appointments
                .map(VisitStudying::order)
                .anyMatch(
                        order -> order.study().isPresent() || order.accession().isPresent());
    }

    /** What an appointment orders; one of a list that is no worklist says less. */
    private static Order order(Known.Appointment appointment) {
        DataSet.Builder item = appointment.item().orElse(DataSet.EMPTY).toBuilder();
        appointment.study().ifPresent(study -> item.put(Attributes.STUDY_INSTANCE_UID, study));
        appointment.accession().ifPresent(number -> item.put(Attributes.ACCESSION_NUMBER, number));
        return Order.of(item.build());
    }

    private List<Visit> visits(Sitting sitting, List<Viewing.Look> looks, Visit study) {
        Optional<String> together =
                settings.study().series() == Study.Series.SITTING ? Optional.of(name(sitting)) : Optional.empty();
        List<Visit> visits = new ArrayList<>();
        for (Viewing.Look look : looks) {
            Optional<Viewing.Seen> seen =
                    look instanceof Viewing.Seen one ? Optional.of(one) : ((Viewing.Unsure) look).proposal();
            visits.add(study.inSeries(settings.study().seriesDescription(), seen.flatMap(Viewing.Seen::set), together)
                    .photographed(seen.flatMap(Viewing.Seen::stage), seen.flatMap(Viewing.Seen::number)));
        }
        return visits;
    }

    /** What a sitting is known by: what was decided of it before, else its first photograph. */
    private static String name(Sitting sitting) {
        return sitting.shots().stream()
                .filter(shot -> shot.candidate().filed())
                .flatMap(shot -> shot.candidate().decision().stream())
                .flatMap(VisitStudying::sittingOf)
                .findFirst()
                .orElseGet(() -> sitting.shots().get(0).candidate().photo());
    }

    private static Stream<String> sittingOf(String decision) {
        try {
            return DecisionText.read(decision).visit().sitting().stream();
        } catch (Failure ofAnotherVersion) {
            return Stream.empty();
        }
    }

    /**
     * What a person said last of the study, for any photograph of the sitting: a unique identifier, or {@code new}. What was said while the
     * photograph was another patient's says nothing of this one.
     */
    private static Optional<String> said(Sitting sitting, Patient patient) {
        return sitting.shots().stream()
                .flatMap(shot -> shot.candidate().statements().stream())
                .filter(statement -> statement.about().equals(StudyWord.ABOUT))
                .filter(statement -> StudyWord.parse(statement.value()).isOf(patient))
                .reduce((earlier, later) -> later.at().isBefore(earlier.at()) ? earlier : later)
                .map(statement -> StudyWord.parse(statement.value()).study());
    }
}
