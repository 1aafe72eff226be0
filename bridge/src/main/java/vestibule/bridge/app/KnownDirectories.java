package vestibule.bridge.app;

import java.io.IOException;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import vestibule.bridge.delivery.Destination;
import vestibule.bridge.delivery.DestinationException;
import vestibule.bridge.delivery.PatientSearch;
import vestibule.bridge.delivery.SearchException;
import vestibule.bridge.delivery.WorklistSearch;
import vestibule.bridge.patient.DayList;
import vestibule.bridge.patient.DayListException;
import vestibule.bridge.patient.Diary;
import vestibule.bridge.patient.Directory;
import vestibule.bridge.patient.Evidence;
import vestibule.bridge.patient.Known;
import vestibule.bridge.settings.Patients;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.PersonName;
import vestibule.dicom.net.Deadlines;

/** The archive, the worklist and the day list, as the settings name them. Whoever of them cannot be asked puts the decision off. */
final class KnownDirectories implements Directories {

    private final Patients patients;
    private final Optional<PatientSearch> archive;
    private final Optional<WorklistSearch> worklist;

    private KnownDirectories(Patients patients, Optional<PatientSearch> archive, Optional<WorklistSearch> worklist) {
        this.patients = patients;
        this.archive = archive;
        this.worklist = worklist;
    }

    /**
     * Those that the settings name.
     *
     * @param archive the archive that photographs are sent to, if there is one
     * @param callingAe our own application entity title
     * @throws Failure if the worklist's URL is none
     */
    static Directories of(Patients patients, Optional<Destination> archive, String callingAe, Deadlines deadlines)
            throws Failure {
        return new KnownDirectories(
                patients,
                archive.filter(destination -> patients.askArchive())
                        .map(destination -> new PatientSearch(destination, callingAe, deadlines)),
                patients.worklist().isPresent()
                        ? Optional.of(new WorklistSearch(
                                destination(patients.worklist().get()), callingAe, deadlines))
                        : Optional.empty());
    }

    private static Destination destination(String url) throws Failure {
        try {
            return Destination.parse(url);
        } catch (DestinationException e) {
            throw new Failure(Exit.WRONG_SETTINGS, "patients.worklist %s.".formatted(e.getMessage()));
        }
    }

    @Override
    public Opened open(Set<LocalDate> days) throws IOException {
        List<Directory> all = new ArrayList<>();
        archive.ifPresent(search -> all.add(new Archive(search)));
        List<Known> appointments = new ArrayList<>();
        if (worklist.isPresent()) {
            all.add(new Worklist(worklist.get()));
            for (LocalDate day : patients.oneChair() ? days : Set.<LocalDate>of()) {
                appointments.addAll(
                        items(worklist.get(), question(Optional.empty(), Optional.empty(), Optional.of(day))));
            }
        }
        if (patients.dayList().isPresent()) {
            DayList list = dayList();
            all.add(list);
            appointments.addAll(list.all());
        }
        return new Opened(all, patients.oneChair() ? new Diary(appointments) : Diary.EMPTY);
    }

    private DayList dayList() throws IOException {
        try {
            return DayList.read(patients.dayList().orElseThrow());
        } catch (DayListException e) {
            throw new DirectoryException("the day list: " + e.getMessage(), e);
        }
    }

    private static WorklistSearch.Question question(
            Optional<String> id, Optional<String> name, Optional<LocalDate> day) {
        return new WorklistSearch.Question(id, name, day, day, Optional.empty(), Optional.empty());
    }

    private static List<Known> items(WorklistSearch worklist, WorklistSearch.Question question) throws IOException {
        try {
            return known(worklist.items(question), Evidence.Source.WORKLIST);
        } catch (SearchException e) {
            throw new DirectoryException("the worklist: " + e.nameless(), e);
        }
    }

    private static List<Known> known(List<DataSet> matches, Evidence.Source source) {
        return matches.stream()
                .flatMap(match -> Known.of(match, source).stream())
                .toList();
    }

    /** Search keys for one part of a name each; what a search takes for a pattern stands for itself nowhere, so any character may be there. */
    private static List<String> keys(PersonName name) {
        PersonName.Group group = name.alphabetic().isEmpty() ? name.ideographic() : name.alphabetic();
        List<String> keys = new ArrayList<>();
        if (!group.family().isEmpty()) {
            keys.add(group.family().replaceAll("[*?\\\\]", "?") + "*");
        }
        if (!group.given().isEmpty()) {
            keys.add("*^" + group.given().replaceAll("[*?\\\\]", "?") + "*");
        }
        return keys;
    }

    private record Archive(PatientSearch search) implements Directory {

        @Override
        public List<Known> withId(String id) throws IOException {
            try {
                return known(search.withId(id), Evidence.Source.ARCHIVE);
            } catch (SearchException e) {
                throw new DirectoryException("the archive, asked about patients: " + e.nameless(), e);
            }
        }

        @Override
        public List<Known> named(PersonName name, LocalDate birthDate) throws IOException {
            try {
                List<Known> all = new ArrayList<>();
                for (String key : keys(name)) {
                    all.addAll(known(search.named(key, birthDate), Evidence.Source.ARCHIVE));
                }
                return all;
            } catch (SearchException e) {
                throw new DirectoryException("the archive, asked about patients: " + e.nameless(), e);
            }
        }
    }

    private record Worklist(WorklistSearch search) implements Directory {

        @Override
        public List<Known> withId(String id) throws IOException {
            return items(search, question(Optional.of(id), Optional.empty(), Optional.empty()));
        }

        @Override
        public List<Known> named(PersonName name, LocalDate birthDate) throws IOException {
            List<Known> all = new ArrayList<>();
            for (String key : keys(name)) {
                all.addAll(items(search, question(Optional.empty(), Optional.of(key), Optional.empty())));
            }
            return all;
        }
    }
}
