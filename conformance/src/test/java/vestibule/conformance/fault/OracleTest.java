package vestibule.conformance.fault;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import vestibule.conformance.fault.Oracle.Account;
import vestibule.conformance.fault.Oracle.Archived;
import vestibule.conformance.fault.Oracle.Verdict;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Uid;
import vestibule.dicom.dict.Uids;

@DisplayName("The judge sees every kind of harm")
class OracleTest {

    private static final String PATIENT = "PG-0001";
    private static final String OTHER = "PG-0002";

    @TempDir
    Path card;

    private SourcePhotos source;
    private final Map<String, String> states = new TreeMap<>();
    private final List<HeldObject> held = new ArrayList<>();

    @BeforeEach
    void threePhotographsCommitted() throws IOException {
        Photographs.card(card, 3, 7, 32);
        source = SourcePhotos.in(card, PATIENT);
        int number = 1;
        for (SourcePhotos.SourcePhoto photo : source.photos().values()) {
            states.put(photo.photo(), "committed");
            held.add(object(number++, photo.scan(), PATIENT, false));
        }
    }

    private static HeldObject object(int number, String scan, String patient, boolean conflicts) {
        return new HeldObject(
                Uids.VL_PHOTOGRAPHIC_IMAGE_STORAGE,
                new Uid("2.25." + number),
                "bytes" + number,
                Optional.of(scan),
                patient,
                Optional.empty(),
                DataSet.EMPTY,
                conflicts);
    }

    /** Again, but the second photograph is somebody else's, and the third was taken by mirror: held last are its two objects. */
    private void twoPatientsAndAMirror() throws IOException {
        source = SourcePhotos.in(
                card,
                path -> path.endsWith("IMG_0002.JPG") ? OTHER : PATIENT,
                path -> path.endsWith("IMG_0003.JPG") ? 2 : 1);
        held.clear();
        int number = 1;
        for (SourcePhotos.SourcePhoto photo : source.photos().values()) {
            held.add(object(number++, photo.scan(), photo.patientId(), false));
        }
        held.add(corrected(number, held.get(2)));
    }

    private static HeldObject corrected(int number, HeldObject of) {
        return new HeldObject(
                of.sopClass(),
                new Uid("2.25." + number),
                "bytes" + number,
                Optional.of("turned " + number),
                of.patientId(),
                Optional.of(of.sopInstance()),
                DataSet.EMPTY,
                false);
    }

    private Verdict judge(Set<Uid> promised, String... leftovers) throws IOException {
        return Oracle.judge(
                List.of(source),
                new Account(states, states.size(), List.of(leftovers)),
                new Archived(held, Optional.of(promised)));
    }

    private Set<Uid> all() {
        return held.stream().map(HeldObject::sopInstance).collect(Collectors.toSet());
    }

    private String first() {
        return source.photos().keySet().iterator().next();
    }

    @Test
    @DisplayName("nothing wrong")
    void clean() throws IOException {
        assertThat(judge(all()).clean()).isTrue();
        assertThat(judge(all()))
                .hasToString("lost 0, doubled 0, wrong patient 0, altered 0, falsely committed 0, "
                        + "source touched 0, leftover files 0, count right");
    }

    @Test
    @DisplayName("lost: no state, still waiting, or sent and not there")
    void lost() throws IOException {
        states.put(first(), "waiting");
        assertThat(judge(all()).lost()).hasSize(1);
        states.put(first(), "sent");
        held.remove(0);
        assertThat(judge(all()).lost()).hasSize(1);
        states.remove(first());
        assertThat(judge(all()).lost()).hasSize(1);
        states.put(first(), "rejected");
        assertThat(judge(all()).lost()).isEmpty();
    }

    @Test
    @DisplayName("doubled: two objects of one photograph, or two contents under one UID")
    void doubled() throws IOException {
        held.add(object(9, held.get(0).scan().orElseThrow(), PATIENT, false));
        assertThat(judge(all()).doubled()).hasSize(1);
        held.set(3, object(9, held.get(0).scan().orElseThrow(), PATIENT, true));
        held.remove(0);
        assertThat(judge(all()).doubled()).hasSize(1);
    }

    @Test
    @DisplayName("wrong patient, altered picture")
    void wrongOrAltered() throws IOException {
        held.set(0, object(1, held.get(0).scan().orElseThrow(), "PG-0002", false));
        held.set(1, object(2, "another picture", PATIENT, false));
        assertThat(judge(all()).wrongPatient()).hasSize(1);
        assertThat(judge(all()).altered()).hasSize(1);
        assertThat(judge(all()).falselyCommitted()).hasSize(1);
    }

    @Test
    @DisplayName("one of several patients' photographs under another's, though each of them has photographs there")
    void underTheOther() throws IOException {
        twoPatientsAndAMirror();
        assertThat(judge(all()).clean()).as("%s", judge(all())).isTrue();
        for (HeldObject right : List.copyOf(held)) {
            int at = held.indexOf(right);
            held.set(at, right.filedUnder(right.patientId().equals(PATIENT) ? OTHER : PATIENT));
            assertThat(judge(all()).wrongPatient())
                    .as("object %d", at)
                    .singleElement()
                    .asString()
                    .startsWith(right.sopInstance().toString());
            held.set(at, right);
        }
    }

    @Test
    @DisplayName(
            "of the two objects of a mirror's picture one is missing, or not promised, or there twice in place of the other")
    void halfAPair() throws IOException {
        twoPatientsAndAMirror();
        HeldObject recorded = held.get(2);
        HeldObject corrected = held.get(3);
        Set<Uid> promised = all();
        promised.remove(corrected.sopInstance());
        assertThat(judge(promised).falselyCommitted()).hasSize(1);
        held.remove(corrected);
        assertThat(judge(all()).lost()).hasSize(1);
        assertThat(judge(all()).falselyCommitted()).hasSize(1);
        held.add(object(9, recorded.scan().orElseThrow(), PATIENT, false));
        assertThat(judge(all()).lost()).as("recorded twice").hasSize(1);
        assertThat(judge(all()).doubled()).as("recorded twice").hasSize(1);
        held.subList(2, 4).clear();
        held.add(corrected);
        assertThat(judge(all()).altered()).as("derived from what is not there").hasSize(1);
        held.set(2, corrected(9, held.get(0)));
        held.add(recorded);
        assertThat(judge(all()).doubled()).as("derived from another's").hasSize(1);
        assertThat(judge(all()).lost()).as("derived from another's").hasSize(1);
    }

    @Test
    @DisplayName("falsely committed: not promised, or not there")
    void falselyCommitted() throws IOException {
        assertThat(judge(Set.of()).falselyCommitted()).hasSize(3);
        held.clear();
        assertThat(judge(all()).falselyCommitted()).hasSize(3);
    }

    @Test
    @DisplayName("a source that was written to, renamed in, or added to")
    void touched() throws IOException {
        Path file = card.resolve("100OKULR/IMG_0001.JPG");
        Files.move(file, card.resolve("100OKULR/MOVED.JPG"));
        assertThat(judge(all()).touched()).hasSize(2);
        Files.delete(card.resolve("100OKULR/MOVED.JPG"));
        Files.write(file, new byte[] {1});
        assertThat(judge(all()).touched()).hasSize(1);
    }

    @Test
    @DisplayName("leftover files, and a count that is not the sum of the states")
    void leftovers() throws IOException {
        assertThat(judge(all(), "a.part").leftovers()).hasSize(1);
        assertThat(Oracle.judge(
                                List.of(source),
                                new Account(states, 4, List.of()),
                                new Archived(held, Optional.empty()))
                        .miscounted())
                .isTrue();
    }
}
