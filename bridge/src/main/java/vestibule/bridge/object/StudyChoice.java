package vestibule.bridge.object;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import vestibule.bridge.patient.Patient;
import vestibule.bridge.settings.Study;
import vestibule.dicom.data.Uid;
import vestibule.dicom.io.Implementation;

/**
 * Which study a sitting goes into: that of the order; else, if the practice says so, the one of the same visit that the archive has
 * already; else one of its own for each patient and day (trade facts D-15).
 */
public sealed interface StudyChoice {

    /**
     * What is asked.
     *
     * @param patient whose sitting
     * @param issuer who gives ids in this practice, for a patient whose id names no issuer
     * @param day when it was taken
     * @param sitting what the sitting is known by; the same each time
     * @param said a study that a person named
     * @param order the item of the worklist, if the sitting has one
     * @param archive the studies of the patient that the archive has
     * @param customs how the practice makes studies of visits
     */
    record Question(
            Patient patient,
            Optional<String> issuer,
            Optional<LocalDate> day,
            String sitting,
            Optional<Uid> said,
            Optional<Order> order,
            List<KnownStudy> archive,
            Study customs) {

        public Question {
            archive = List.copyOf(archive);
        }
    }

    /**
     * Decided.
     *
     * @param visit the study, without the series
     * @param why a few words
     */
    record Chosen(Visit visit, String why) implements StudyChoice {}

    /**
     * A person has to say.
     *
     * @param message what is in doubt and what to do, without a full stop; it names no patient
     */
    record Unclear(String message) implements StudyChoice {}

    /** The code of the only doubt there is. */
    String SEVERAL_STUDIES = "several-studies";

    /** Chooses; the same question always has the same answer. */
    static StudyChoice of(Question question) {
        List<KnownStudy> own = question.archive().stream()
                .filter(known -> samePatient(known, question))
                .toList();
        if (question.said().isPresent()) {
            return new Chosen(visit(question, own, question.said().get()), "a person named the study");
        }
        Optional<Uid> ordered = question.order().flatMap(Order::study);
        if (ordered.isPresent()) {
            return new Chosen(visit(question, own, ordered.get()), "the study of the order");
        }
        Uid fresh = fresh(question);
        return question.customs().join() == Study.Join.NEW || question.day().isEmpty()
                ? new Chosen(visit(question, own, fresh), "a study of its own for patient and day")
                : joined(question, own, fresh);
    }

    private static StudyChoice joined(Question question, List<KnownStudy> own, Uid fresh) {
        List<Uid> sameDay = own.stream()
                .filter(known -> known.date().equals(question.day()))
                .map(KnownStudy::study)
                .distinct()
                .toList();
        if (sameDay.contains(fresh)) {
            return new Chosen(visit(question, own, fresh), "the study that the photographs of this day began");
        }
        if (sameDay.size() > 1) {
            return new Unclear("the archive has %d studies of that patient and day; say which one, or new"
                    .formatted(sameDay.size()));
        }
        return sameDay.isEmpty()
                ? new Chosen(visit(question, own, fresh), "a study of its own, since the archive has none of that day")
                : new Chosen(visit(question, own, sameDay.get(0)), "the study of the same visit in the archive");
    }

    /** Ids of two issuers may be alike; where the archive names none, the id has to do, as it had for the query. */
    private static boolean samePatient(KnownStudy known, Question question) {
        Optional<String> issuer = question.patient().issuer().or(question::issuer);
        return known.patientId().equals(question.patient().id())
                && (known.issuer().isEmpty()
                        || issuer.isEmpty()
                        || known.issuer().equals(issuer));
    }

    /** All objects of a study say the same of it (PS3.3 A.1.2.3): what the archive has of it comes first, then the order. */
    private static Visit visit(Question question, List<KnownStudy> own, Uid study) {
        Optional<KnownStudy> known =
                own.stream().filter(one -> one.study().equals(study)).findFirst();
        Optional<Order> order = question.order();
        if (known.isPresent()) {
            KnownStudy there = known.get();
            return Visit.UNSAID
                    .inStudy(study, there.date().or(question::day), there.time())
                    .described(there.studyId(), there.accession(), there.description(), there.referring())
                    .ordered(order);
        }
        return Visit.UNSAID
                .inStudy(study, order.flatMap(Order::studyDate).or(question::day), order.flatMap(Order::studyTime))
                .described(
                        Optional.empty(),
                        order.flatMap(Order::accession),
                        order.flatMap(Order::procedure)
                                .or(() -> question.customs().description()),
                        order.flatMap(Order::referring))
                .ordered(order);
    }

    private static Uid fresh(Question question) {
        return fresh(
                question.patient(),
                question.issuer(),
                question.day().map(Moments::date).orElse(question.sitting()));
    }

    /** One study for each patient and day. */
    static Uid fresh(Patient patient, Optional<String> issuer, String day) {
        return Uid.ofName(
                Implementation.CLASS_UID,
                String.join("\n", "study", patient.issuer().or(() -> issuer).orElse(""), patient.id(), day));
    }
}
