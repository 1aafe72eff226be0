package vestibule.bridge.patient;

import java.io.IOException;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Random;
import vestibule.dicom.data.PersonName;

/**
 * A practice that works, forgets and errs, with the truth kept beside: who really sat in the chair at each shot. It knows nothing of how
 * matching is done; it writes cards, lists and times as people do, and compares what comes back with its truth.
 *
 * <p>What it takes for granted, and the guide says so: where a card is forgotten, the next patient is photographed after the pause of the
 * settings, or is on the chair's list and not photographed before his appointment.
 */
final class PracticeModel {

    static final String ISSUER = "PAINTED-GATE";
    private static final Duration PAUSE = Duration.ofMinutes(20);
    private static final String[] FAMILIES = {"Exempel", "Vzorek", "Muster", "Örnek", "Пример", "Esimerkki"};
    private static final String[] GIVEN = {"Ida", "Zoë", "Jun", "Åsa", "Nina", "Otto", "Léa", "Toník"};

    /** How often people err, in thousandths. */
    record Habits(
            int forgotten,
            int unreadable,
            int wrongFirst,
            int twice,
            int pause,
            int mergedLately,
            int renamed,
            int newPatient) {

        /** A day on which little goes wrong. */
        static final Habits ORDINARY = new Habits(8, 3, 10, 30, 4, 4, 3, 60);

        /** A day on which much does. */
        static final Habits BAD = new Habits(120, 60, 80, 150, 60, 60, 60, 200);
    }

    /** A human being, whatever anybody calls him. */
    private static final class Person {
        private final int number;
        private String id;
        private PersonName name;
        private final LocalDate born;
        private final String sex;

        Person(int number, String id, PersonName name, LocalDate born, String sex) {
            this.number = number;
            this.id = id;
            this.name = name;
            this.born = born;
            this.sex = sex;
        }

        Patient patient() {
            return new Patient(id, Optional.of(ISSUER), name, Optional.of(born), Optional.of(sex));
        }
    }

    private record Truth(Person person, String idThen) {}

    private final Random random;
    private final Habits habits;
    private final List<Person> persons = new ArrayList<>();
    private final Map<Integer, Patient> archived = new HashMap<>();
    private final List<Known> strangers = new ArrayList<>();

    int assignments;
    int certain;
    int wrong;
    int guessed;
    int later;
    final Map<Reason, Integer> doubts = new HashMap<>();

    PracticeModel(long seed, Habits habits) {
        this.random = new Random(seed);
        this.habits = habits;
        for (int i = 0; i < 400; i++) {
            newcomer(true);
        }
    }

    private boolean happens(int thousandths) {
        return random.nextInt(1_000) < thousandths;
    }

    /** Namesakes and equal birth dates are common on purpose. */
    private Person newcomer(boolean known) {
        int number = persons.size();
        PersonName name = PersonName.of(FAMILIES[random.nextInt(FAMILIES.length)], GIVEN[random.nextInt(GIVEN.length)]);
        LocalDate born = number > 0 && random.nextInt(8) == 0
                ? persons.get(random.nextInt(number)).born
                : LocalDate.of(1940, 1, 1).plusDays(random.nextInt(80 * 365));
        Person person = new Person(number, "PG-%05d".formatted(number), name, born, random.nextBoolean() ? "F" : "M");
        persons.add(person);
        if (known) {
            archived.put(number, person.patient());
            if (random.nextInt(20) == 0) {
                // The hospital next door gave somebody else the same number, and the archive holds that too
                strangers.add(new Known(
                        new Patient(
                                person.id,
                                random.nextInt(10) == 0 ? Optional.empty() : Optional.of("NEXT-DOOR"),
                                PersonName.of("Stranger", GIVEN[random.nextInt(GIVEN.length)]),
                                Optional.of(LocalDate.of(1950, 5, 5)),
                                Optional.empty()),
                        Evidence.Source.ARCHIVE,
                        Optional.empty()));
            }
        }
        return person;
    }

    /** One memory card: a day's visits in one chair, with one or two cameras. */
    void day() throws IOException {
        LocalDate date = LocalDate.of(2026, 3, 2).plusDays(random.nextInt(200));
        boolean listed = random.nextBoolean();
        boolean secondCamera = random.nextInt(4) == 0;
        List<Known> list = new ArrayList<>();
        List<Assignments.Item> items = new ArrayList<>();
        Map<String, Truth> truth = new HashMap<>();
        LocalDateTime now = date.atTime(8, 0);
        int counter = 1;
        for (int visit = 0; visit < 10; visit++) {
            Person person =
                    happens(habits.newPatient()) ? newcomer(false) : persons.get(random.nextInt(persons.size()));
            LocalDateTime appointment = now.plusMinutes(listed ? 5 : 22);
            String idOnCard = person.id;
            PersonName nameOnCard = person.name;
            changeRecords(person);
            if (listed) {
                list.add(new Known(
                        person.patient(),
                        Evidence.Source.DAY_LIST,
                        Optional.of(new Known.Appointment(
                                Optional.of(appointment),
                                Optional.empty(),
                                Optional.empty(),
                                Optional.empty(),
                                Optional.empty()))));
            }
            now = appointment.plusMinutes(random.nextInt(5));
            List<Frame.Mark> marks = marks(person, idOnCard, nameOnCard);
            for (Frame.Mark mark : marks) {
                counter = frame(items, counter, now, Optional.of(mark), secondCamera);
                now = now.plusSeconds(10);
            }
            int shots = 4 + random.nextInt(9);
            for (int shot = 0; shot < shots; shot++) {
                now = now.plusSeconds(8 + random.nextInt(30));
                now = happens(habits.pause()) ? now.plusMinutes(25) : now;
                counter = frame(items, counter, now, Optional.empty(), secondCamera);
                truth.put(items.get(items.size() - 1).frame().key(), new Truth(person, idOnCard));
            }
            now = now.plusMinutes(1);
        }
        judge(items, truth, list, listed);
    }

    /** Charts are merged and names change between the printing of a card and the day. */
    private void changeRecords(Person person) {
        if (happens(habits.mergedLately()) && archived.containsKey(person.number)) {
            person.id = "PG-9%05d".formatted(person.number * 7 + random.nextInt(7));
            archived.put(person.number, person.patient());
        }
        if (happens(habits.renamed()) && archived.containsKey(person.number)) {
            person.name = PersonName.of(
                    person.name.alphabetic().family() + "-Neu",
                    person.name.alphabetic().given());
            archived.put(person.number, person.patient());
        }
    }

    private List<Frame.Mark> marks(Person person, String id, PersonName name) {
        List<Frame.Mark> marks = new ArrayList<>();
        if (happens(habits.forgotten())) {
            return marks;
        }
        if (happens(habits.wrongFirst())) {
            Person other = persons.get(random.nextInt(persons.size()));
            marks.add(new Frame.Start(card(other.id, other.name, other.born)));
        }
        marks.add(
                happens(habits.unreadable())
                        ? new Frame.Broken(random.nextBoolean() ? Reason.CARD_UNREADABLE : Reason.CARD_MIRRORED)
                        : new Frame.Start(card(id, name, person.born)));
        if (happens(habits.twice())) {
            marks.add(marks.get(marks.size() - 1));
        }
        return marks;
    }

    private static Evidence card(String id, PersonName name, LocalDate born) {
        return new Evidence.PatientCard(
                new Identity(
                        Optional.of(id), Optional.of(ISSUER), Optional.of(name), Optional.of(born), Optional.empty()),
                Instant.EPOCH,
                "frame");
    }

    /** Cameras take turns from shot to shot; a card is taken with each. Their clocks are put right to within half a minute. */
    private int frame(
            List<Assignments.Item> items,
            int counter,
            LocalDateTime now,
            Optional<Frame.Mark> mark,
            boolean secondCamera) {
        int next = counter;
        int cameras = secondCamera ? 2 : 1;
        int chosen = random.nextInt(cameras);
        for (int camera = 0; camera < cameras; camera++) {
            if (mark.isPresent() || camera == chosen) {
                LocalDateTime taken = now.plusSeconds(camera * 25L);
                Frame frame = new Frame(
                        "%d".formatted(items.size()),
                        "DCIM/10%dOKULR/IMG_%04d.JPG".formatted(camera, next++),
                        "camera " + camera,
                        0,
                        Optional.of(taken),
                        mark);
                Instant moment = taken.toInstant(ZoneOffset.UTC);
                items.add(new Assignments.Item(
                        frame, moment, moment.plus(Duration.ofHours(9)), Optional.empty(), List.of()));
            }
        }
        return next;
    }

    private void judge(List<Assignments.Item> items, Map<String, Truth> truth, List<Known> list, boolean oneChair)
            throws IOException {
        boolean away = random.nextInt(200) == 0;
        List<Known> archive = new ArrayList<>(strangers);
        archived.values()
                .forEach(patient -> archive.add(new Known(patient, Evidence.Source.ARCHIVE, Optional.empty())));
        Assignments assignments = new Assignments(
                new Sittings(PAUSE, false, oneChair ? new Diary(list) : Diary.EMPTY),
                new Matching(List.of(new Listed(archive, away), new Listed(list, false)), Optional.of(ISSUER)),
                new CaptureChecks(ZoneOffset.UTC));
        Map<String, Match> matches = new HashMap<>();
        try {
            Assignments.Cut cut =
                    assignments.cut(items.stream().map(Assignments.Item::frame).toList());
            for (Assignments.Item item : items) {
                if (item.frame().mark().isEmpty()) {
                    matches.put(item.frame().key(), cut.of(item).match());
                }
            }
        } catch (IOException unreachable) {
            if (!away) {
                throw unreachable;
            }
            later += truth.size();
            return;
        }
        truth.forEach((key, really) -> judge(Objects.requireNonNull(matches.get(key)), really, archive, list));
        archiveOf(truth);
    }

    /** What was filed is in the archive from then on. */
    private void archiveOf(Map<String, Truth> truth) {
        truth.values()
                .forEach(really -> archived.putIfAbsent(
                        really.person().number, really.person().patient()));
    }

    private void judge(Match match, Truth really, List<Known> archive, List<Known> list) {
        assignments++;
        if (match instanceof Match.Doubt doubt) {
            doubts.merge(doubt.reason(), 1, Integer::sum);
            return;
        }
        certain++;
        Patient found = ((Match.Certain) match).patient();
        boolean right = found.id().equals(really.person().id)
                && found.issuer().equals(Optional.of(ISSUER))
                && found.birthDate().equals(Optional.of(really.person().born));
        wrong += right ? 0 : 1;
        long candidates = java.util.stream.Stream.concat(archive.stream(), list.stream())
                .map(Known::patient)
                .filter(patient -> patient.id().equals(found.id()))
                .filter(patient -> !patient.issuer().equals(Optional.of("NEXT-DOOR")))
                .map(patient -> patient.name() + " " + patient.birthDate())
                .distinct()
                .count();
        guessed += candidates > 1 ? 1 : 0;
    }

    double shareForPersons() {
        return (assignments - certain) / (double) assignments;
    }

    private record Listed(List<Known> all, boolean away) implements Directory {

        @Override
        public List<Known> withId(String id) throws IOException {
            if (away) {
                throw new IOException("not there");
            }
            return all.stream().filter(one -> one.patient().id().equals(id)).toList();
        }

        @Override
        public List<Known> named(PersonName name, LocalDate birthDate) throws IOException {
            return away
                    ? withId("")
                    : all.stream()
                            .filter(one -> one.patient().birthDate().equals(Optional.of(birthDate)))
                            .toList();
        }
    }
}
