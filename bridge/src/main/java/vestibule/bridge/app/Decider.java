package vestibule.bridge.app;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import vestibule.bridge.object.Visit;
import vestibule.bridge.patient.Evidence;
import vestibule.bridge.patient.Identity;
import vestibule.bridge.patient.NamePattern;
import vestibule.bridge.patient.Patient;
import vestibule.bridge.patient.Reason;
import vestibule.bridge.photo.Photo;
import vestibule.bridge.photo.PhotoException;
import vestibule.bridge.settings.Settings;

/** Decides who is on the photographs of a source, which view each shows and which study it goes into. */
final class Decider implements Deciding {

    private final Settings settings;
    private final Viewing viewing;

    Decider(Settings settings, Viewing viewing) {
        this.settings = settings;
        this.viewing = viewing;
    }

    @Override
    public List<Ruling> decide(List<Candidate> photos) throws IOException {
        List<Ruling> rulings = new ArrayList<>();
        for (Candidate candidate : photos) {
            if (candidate.filed()) {
                continue;
            }
            Ruling ruling = rule(candidate);
            if (!(ruling instanceof Decided decided) || !candidate.decision().equals(Optional.of(decided.decision()))) {
                rulings.add(ruling);
            }
        }
        return rulings;
    }

    private Ruling rule(Candidate candidate) throws IOException {
        if (new Words(candidate).last("not-a-photograph").isPresent()) {
            return new Aside(candidate.photo(), "a person said that it is no photograph to file");
        }
        try {
            Photo photo = Photo.read(candidate.original());
            List<Ground> grounds = new ArrayList<>();
            Optional<Patient> patient = patient(candidate, grounds);
            Sitting sitting = new Sitting(
                    patient,
                    List.of(new Sitting.Shot(candidate, photo, photo.camera().captured())));
            Viewing.Look look = viewing.look(sitting).get(0);
            DecisionText decision = DecisionText.NOTHING.with(Visit.UNSAID).with(grounds);
            if (patient.isPresent()) {
                decision = decision.with(patient.get());
            }
            if (look instanceof Viewing.Seen seen) {
                decision = decision.with(seen.shown()).with(seen.grounds());
            }
            if (patient.isEmpty()) {
                return doubt(candidate, Reason.NO_PATIENT.code(), Reason.NO_PATIENT.sentence(), decision);
            }
            return look instanceof Viewing.Unsure unsure
                    ? doubt(candidate, unsure.reason(), unsure.message(), decision)
                    : new Decided(candidate.photo(), decision.json());
        } catch (PhotoException e) {
            return new Doubtful(
                    candidate.photo(),
                    "unreadable",
                    "%s: %s; it stays in our keeping as it is.".formatted(candidate.name(), e.getMessage()),
                    Optional.empty());
        }
    }

    private static Doubtful doubt(Candidate candidate, String reason, String message, DecisionText proposal) {
        return new Doubtful(
                candidate.photo(),
                reason,
                "%s: %s.".formatted(candidate.name(), message),
                Optional.of(proposal.json()));
    }

    private Optional<Patient> patient(Candidate candidate, List<Ground> grounds) {
        Optional<Evidence> evidence = said(candidate).or(() -> named(candidate));
        Optional<Patient> patient = evidence.map(Evidence::who)
                .filter(who -> who.id().isPresent()
                        && who.name().isPresent()
                        && who.birthDate().isPresent())
                .map(who -> new Patient(
                        who.id().orElseThrow(), who.issuer(), who.name().orElseThrow(), who.birthDate(), who.sex()));
        if (patient.isPresent()) {
            evidence.ifPresent(one -> grounds.add(new Ground("patient", one.kind(), one.at(), one.origin())));
        }
        return patient;
    }

    private static Optional<Evidence> said(Candidate candidate) {
        return new Words(candidate)
                .last("patient")
                .flatMap(word -> PatientWord.parse(word.value())
                        .map(who -> new Evidence.Said(who, word.at(), word.by().orElse("somebody"))));
    }

    private Optional<Evidence> named(Candidate candidate) {
        for (NamePattern pattern : settings.patients().names()) {
            Optional<Identity> who = pattern.read(candidate.name());
            if (who.isPresent()) {
                return Optional.of(new Evidence.FileName(who.get(), candidate.takenIn(), pattern.toString()));
            }
        }
        return Optional.empty();
    }
}
