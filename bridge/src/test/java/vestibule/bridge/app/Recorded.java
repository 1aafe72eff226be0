package vestibule.bridge.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import vestibule.bridge.patient.Patient;
import vestibule.dicom.data.Uid;

/** The photographs of a source that lie in a list, and what was recorded of them. */
final class Recorded implements Deciding.Photographs {

    private final Map<String, Deciding.Candidate> candidates = new HashMap<>();
    private final List<Deciding.Photograph> all;
    private final Map<String, Deciding.Ruling> rulings = new HashMap<>();
    private final Set<String> given = new HashSet<>();
    private final List<Integer> portions = new ArrayList<>();

    Recorded(List<Deciding.Candidate> source) {
        source.forEach(candidate -> candidates.put(candidate.photo(), candidate));
        this.all = source.stream().map(Deciding.Candidate::photograph).toList();
    }

    /** What was ruled on each. */
    Map<String, Deciding.Ruling> rulings() {
        return rulings;
    }

    /** How many were asked for in full at a time. */
    List<Integer> portions() {
        return portions;
    }

    @Override
    public List<Deciding.Photograph> all() {
        return all;
    }

    @Override
    public Path original(String photo) {
        return candidate(photo).original();
    }

    private Deciding.Candidate candidate(String photo) {
        return Objects.requireNonNull(candidates.get(photo));
    }

    @Override
    public List<Deciding.Candidate> candidates(List<Deciding.Photograph> some) {
        portions.add(some.size());
        some.forEach(photograph ->
                assertThat(given.add(photograph.photo())).as("asked for once").isTrue());
        return some.stream().map(photograph -> candidate(photograph.photo())).toList();
    }

    @Override
    public boolean isOfAnother(Uid study, Patient patient) {
        return false;
    }

    @Override
    public void goOn() {
        assertThat(all).isNotEmpty();
    }

    @Override
    public void record(List<Deciding.Candidate> about, Deciding.Round round) {
        about.forEach(candidate -> assertThat(given.remove(candidate.photo()))
                .as("asked for before")
                .isTrue());
        round.rulings()
                .forEach(ruling ->
                        assertThat(rulings.put(ruling.photo(), ruling)).isNull());
    }
}
