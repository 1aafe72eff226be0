package vestibule.bridge.patient;

import java.io.IOException;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import vestibule.dicom.data.PersonName;

/**
 * Ties evidence to a patient. Nothing leaves without two identifiers: id and birth date, or an id that an archive or a list confirms, or
 * a person's word. Whatever does not fit together, or fits more than one, is a doubt and never a guess. One instance serves one round of
 * decisions, so that everybody in it is asked about once and the answers cannot change under way.
 */
public final class Matching {

    private final List<Directory> directories;
    private final Optional<String> ownIssuer;
    private final Map<String, List<Known>> asked = new HashMap<>();

    /**
     * @param directories who can be asked, those that are believed first in front
     * @param ownIssuer the issuer of ids that are given without one
     */
    public Matching(List<Directory> directories, Optional<String> ownIssuer) {
        this.directories = List.copyOf(directories);
        this.ownIssuer = ownIssuer;
    }

    /**
     * Matches all evidence about one photograph.
     *
     * @throws IOException if somebody who should be asked cannot be; then it is too early to decide
     */
    public Match match(List<Evidence> evidence) throws IOException {
        if (evidence.isEmpty()) {
            return doubt(Reason.NO_PATIENT);
        }
        Optional<Identity> claim = merged(evidence);
        if (claim.isEmpty()) {
            return doubt(Reason.EVIDENCE_DISAGREES);
        }
        if (claim.get().id().isEmpty()) {
            return withoutId(claim.get());
        }
        String id = claim.get().id().get();
        if (id.contains("*") || id.contains("?") || id.contains("\\")) {
            return doubt(Reason.ID_NOT_SEARCHABLE);
        }
        List<Known> known = ofIssuer(claim.get(), withId(id));
        return known.isEmpty() ? unknown(claim.get(), evidence) : known(claim.get(), evidence, known);
    }

    /** What all the evidence says together; empty if one part contradicts another. */
    private Optional<Identity> merged(List<Evidence> evidence) {
        Identity all = Identity.UNSAID;
        for (Evidence one : evidence) {
            Identity who = one.who();
            boolean agrees = agree(all.id(), who.id())
                    && agree(all.issuer(), who.issuer())
                    && agree(all.birthDate(), who.birthDate())
                    && agree(all.sex(), who.sex())
                    && (all.name().isEmpty()
                            || who.name().isEmpty()
                            || Names.agree(all.name().get(), who.name().get()));
            if (!agrees) {
                return Optional.empty();
            }
            all = new Identity(
                    all.id().or(who::id),
                    all.issuer().or(who::issuer),
                    all.name().or(who::name),
                    all.birthDate().or(who::birthDate),
                    all.sex().or(who::sex));
        }
        return Optional.of(all);
    }

    private static <T> boolean agree(Optional<T> one, Optional<T> other) {
        return one.isEmpty() || other.isEmpty() || one.equals(other);
    }

    /** A name and a birth date may be those of two people, however few are known. */
    private Match withoutId(Identity claim) throws IOException {
        if (claim.name().isEmpty() || claim.birthDate().isEmpty()) {
            return doubt(Reason.NO_PATIENT_ID);
        }
        PersonName name = claim.name().get();
        List<Patient> candidates = people(namesakes(name, claim.birthDate().get()).stream()
                .filter(one -> Names.agree(name, one.patient().name()))
                .toList());
        return candidates.size() > 1
                ? doubt(Reason.SEVERAL_CANDIDATES)
                : new Match.Doubt(Reason.NO_PATIENT_ID, candidates.stream().findFirst());
    }

    /** Ids of other issuers belong to other people; where nobody named an issuer they are told apart further on. */
    private List<Known> ofIssuer(Identity claim, List<Known> known) {
        Optional<String> issuer = claim.issuer().or(() -> ownIssuer);
        return known.stream()
                .filter(one -> agree(issuer, one.patient().issuer()))
                .toList();
    }

    private Match unknown(Identity claim, List<Evidence> evidence) throws IOException {
        boolean said = evidence.stream().anyMatch(one -> one instanceof Evidence.Said);
        if (claim.birthDate().isEmpty() && !said) {
            return doubt(directories.isEmpty() ? Reason.ONE_IDENTIFIER : Reason.ID_UNKNOWN);
        }
        boolean slip = evidence.stream().noneMatch(Evidence::written);
        if (!directories.isEmpty() && slip) {
            return doubt(Reason.ID_UNKNOWN);
        }
        if (claim.name().isEmpty()) {
            return doubt(Reason.NAME_UNKNOWN);
        }
        if (claim.birthDate().isPresent() && !said) {
            List<Patient> others =
                    people(namesakes(claim.name().get(), claim.birthDate().get()));
            if (!others.isEmpty()) {
                return doubt(others.size() > 1 ? Reason.SEVERAL_CANDIDATES : Reason.KNOWN_UNDER_ANOTHER_ID);
            }
        }
        return new Match.Certain(
                new Patient(
                        claim.id().orElseThrow(),
                        claim.issuer().or(() -> ownIssuer),
                        claim.name().get(),
                        claim.birthDate(),
                        claim.sex()),
                evidence,
                List.of());
    }

    private Match known(Identity claim, List<Evidence> evidence, List<Known> known) {
        if (known.stream()
                        .flatMap(one -> one.patient().issuer().stream())
                        .distinct()
                        .count()
                > 1) {
            return doubt(Reason.SEVERAL_CANDIDATES);
        }
        Optional<Reason> difference = known.stream()
                .flatMap(one -> difference(claim, one.patient()).stream())
                .findFirst();
        Patient first = known.get(0).patient();
        boolean alike = known.stream()
                .allMatch(one -> difference(Identity.of(first), one.patient()).isEmpty());
        if (!alike) {
            return doubt(sameSource(known) ? Reason.SEVERAL_CANDIDATES : Reason.LISTS_DISAGREE);
        }
        if (difference.isPresent()) {
            return doubt(difference.get());
        }
        if (first.name().isEmpty()
                && claim.name().isEmpty()
                && known.stream().allMatch(one -> one.patient().name().isEmpty())) {
            return doubt(Reason.NAME_UNKNOWN);
        }
        List<Evidence> all = new ArrayList<>(evidence);
        known.forEach(one -> all.add(new Evidence.Listed(
                Identity.of(one.patient()), evidence.get(0).at(), one.source().word(), one.source())));
        return new Match.Certain(
                joined(claim, known),
                all.stream().distinct().toList(),
                known.stream()
                        .flatMap(one -> one.appointment().stream())
                        .distinct()
                        .toList());
    }

    private static boolean sameSource(List<Known> known) {
        return known.stream().map(Known::source).distinct().count() == 1;
    }

    private static Optional<Reason> difference(Identity claim, Patient patient) {
        if (claim.name().isPresent()
                && !patient.name().isEmpty()
                && !Names.agree(claim.name().get(), patient.name())) {
            return Optional.of(Reason.NAME_DIFFERS);
        }
        if (claim.birthDate().isPresent()
                && patient.birthDate().isPresent()
                && !claim.birthDate().equals(patient.birthDate())) {
            return Optional.of(Reason.BIRTH_DATE_DIFFERS);
        }
        return claim.sex().isPresent()
                        && patient.sex().isPresent()
                        && !claim.sex().equals(patient.sex())
                ? Optional.of(Reason.SEX_DIFFERS)
                : Optional.empty();
    }

    /** The words of whoever stands in front, and where that one is silent, of the next. */
    private Patient joined(Identity claim, List<Known> known) {
        List<Patient> all = known.stream().map(Known::patient).toList();
        return new Patient(
                claim.id().orElseThrow(),
                first(all.stream().map(Patient::issuer).toList())
                        .or(claim::issuer)
                        .or(() -> ownIssuer),
                all.stream()
                        .map(Patient::name)
                        .filter(name -> !name.isEmpty())
                        .findFirst()
                        .or(claim::name)
                        .orElseThrow(),
                first(all.stream().map(Patient::birthDate).toList()).or(claim::birthDate),
                first(all.stream().map(Patient::sex).toList()).or(claim::sex),
                all.stream().flatMap(one -> one.otherIds().stream()).distinct().toList());
    }

    private static <T> Optional<T> first(List<Optional<T>> values) {
        return values.stream().flatMap(Optional::stream).findFirst();
    }

    private List<Known> withId(String id) throws IOException {
        List<Known> cached = asked.get(id);
        if (cached != null) {
            return cached;
        }
        List<Known> known = new ArrayList<>();
        for (Directory directory : directories) {
            for (Known one : directory.withId(id)) {
                if (one.patient().id().equals(id)) {
                    known.add(one);
                }
            }
        }
        asked.put(id, List.copyOf(known));
        return known;
    }

    private List<Known> namesakes(PersonName name, LocalDate birthDate) throws IOException {
        String key = "\n" + birthDate + name;
        List<Known> cached = asked.get(key);
        if (cached != null) {
            return cached;
        }
        List<Known> known = new ArrayList<>();
        for (Directory directory : directories) {
            for (Known one : directory.named(name, birthDate)) {
                if (one.patient().birthDate().equals(Optional.of(birthDate))
                        && Names.related(name, one.patient().name())) {
                    known.add(one);
                }
            }
        }
        asked.put(key, List.copyOf(known));
        return known;
    }

    /** One for each id and issuer. */
    private static List<Patient> people(List<Known> known) {
        Map<String, Patient> people = new HashMap<>();
        known.forEach(one -> people.putIfAbsent(
                one.patient().id() + "\n"
                        + Objects.requireNonNullElse(one.patient().issuer().orElse(null), ""),
                one.patient()));
        return List.copyOf(people.values());
    }

    private static Match doubt(Reason reason) {
        return new Match.Doubt(reason, Optional.empty());
    }
}
