package vestibule.bridge.patient;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import vestibule.dicom.data.PersonName;

@DisplayName("Matching evidence with patients")
class MatchingTest {

    private static final Instant THEN = Instant.parse("2026-03-12T09:00:00Z");
    private static final LocalDate BORN = LocalDate.of(1987, 2, 28);

    private final List<Known> archive = new ArrayList<>();
    private final List<Known> worklist = new ArrayList<>();

    private static Identity who(String id, String name, String born) {
        return new Identity(
                Optional.of(id).filter(text -> !text.isEmpty()),
                Optional.empty(),
                PersonName.parse(name).filter(one -> !one.isEmpty()),
                Optional.of(born).filter(text -> !text.isEmpty()).map(LocalDate::parse),
                Optional.empty());
    }

    private static Evidence card(String id, String name, String born) {
        return new Evidence.PatientCard(who(id, name, born), THEN, "frame");
    }

    private static Evidence folder(String id, String name, String born) {
        return new Evidence.FileName(who(id, name, born), THEN, "pattern");
    }

    private static Evidence said(String id) {
        return new Evidence.Said(Identity.ofId(id), THEN, "somebody");
    }

    private static Known known(
            Evidence.Source source, String id, String issuer, String name, LocalDate born, String sex) {
        return new Known(
                new Patient(
                        id,
                        Optional.of(issuer).filter(text -> !text.isEmpty()),
                        PersonName.parse(name).orElseThrow(),
                        Optional.of(born),
                        Optional.of(sex)),
                source,
                Optional.empty());
    }

    private void archived(String id, String name, LocalDate born) {
        archive.add(known(Evidence.Source.ARCHIVE, id, "PAINTED-GATE", name, born, "F"));
    }

    private record Listed(List<Known> all) implements Directory {
        @Override
        public List<Known> withId(String id) {
            return all;
        }

        @Override
        public List<Known> named(PersonName name, LocalDate birthDate) {
            return all;
        }
    }

    private Match match(Evidence... evidence) throws IOException {
        return new Matching(List.of(new Listed(archive), new Listed(worklist)), Optional.of("PAINTED-GATE"))
                .match(Arrays.asList(evidence));
    }

    private void doubted(Reason reason, Evidence... evidence) throws IOException {
        assertThat(match(evidence)).isInstanceOfSatisfying(Match.Doubt.class, doubt -> {
            assertThat(doubt.reason()).isEqualTo(reason);
            // Only where nothing speaks against one is anybody proposed, and may be accepted unseen
            assertThat(doubt.proposal().isEmpty() || reason == Reason.NO_PATIENT_ID)
                    .isTrue();
        });
    }

    private Patient certain(Evidence... evidence) throws IOException {
        Match match = match(evidence);
        assertThat(match).isInstanceOf(Match.Certain.class);
        return ((Match.Certain) match).patient();
    }

    @Test
    @DisplayName("name, sex, issuer come from the archive, not from the folder")
    void fromTheArchive() throws IOException {
        archived("PG-1", "Exempel^Zoë^Åsa", BORN);
        Patient patient = certain(folder("PG-1", "EXEMPEL^ZOE", "1987-02-28"));
        assertThat(patient.name().toString()).isEqualTo("Exempel^Zoë^Åsa");
        assertThat(patient.issuer()).contains("PAINTED-GATE");
        assertThat(patient.sex()).contains("F");
        assertThat(certain(folder("PG-1", "", "")).birthDate()).contains(BORN);
    }

    @Test
    @DisplayName("a difference in any identifier is a doubt")
    void differences() throws IOException {
        archived("PG-1", "Exempel^Zoë", BORN);
        doubted(Reason.NAME_DIFFERS, card("PG-1", "Exempel^Zelda", "1987-02-28"));
        doubted(Reason.BIRTH_DATE_DIFFERS, card("PG-1", "Exempel^Zoë", "1987-03-28"));
        doubted(Reason.NAME_DIFFERS, card("PG-1", "Mihon^Hanako", "2000-02-29"));
        doubted(
                Reason.SEX_DIFFERS,
                new Evidence.Said(
                        new Identity(
                                Optional.of("PG-1"),
                                Optional.empty(),
                                Optional.empty(),
                                Optional.empty(),
                                Optional.of("M")),
                        THEN,
                        "somebody"));
        doubted(Reason.EVIDENCE_DISAGREES, card("PG-1", "", ""), folder("PG-2", "", ""));
    }

    @Test
    @DisplayName("more than one candidate is a doubt without a proposal, whoever the evidence is")
    void several() throws IOException {
        archived("PG-1", "Exempel^Zoë", BORN);
        archive.add(known(Evidence.Source.ARCHIVE, "PG-1", "", "Otherwise^Ann", BORN, "F"));
        doubted(Reason.SEVERAL_CANDIDATES, card("PG-1", "Exempel^Zoë", "1987-02-28"));
        doubted(Reason.SEVERAL_CANDIDATES, said("PG-1"));
    }

    @Test
    @DisplayName("an id of another issuer is another person's")
    void issuer() throws IOException {
        archive.add(known(Evidence.Source.ARCHIVE, "PG-1", "ELSEWHERE", "Exempel^Zoë", BORN, "F"));
        doubted(
                Reason.ID_UNKNOWN,
                said("PG-1").who().id().map(id -> folder(id, "", "")).orElseThrow());
    }

    @Test
    @DisplayName("the archive and the worklist must say the same, and give what the other leaves out")
    void lists() throws IOException {
        archived("PG-1", "Exempel^Zoë", BORN);
        worklist.add(known(Evidence.Source.WORKLIST, "PG-1", "", "Exempel^Zoë^Åsa", BORN, "F"));
        assertThat(certain(card("PG-1", "", "")).name().toString()).isEqualTo("Exempel^Zoë");
        worklist.set(0, known(Evidence.Source.WORKLIST, "PG-1", "", "Exempel^Zoë", BORN.plusDays(1), "F"));
        doubted(Reason.LISTS_DISAGREE, card("PG-1", "", ""));
    }

    @Test
    @DisplayName(
            "somebody nobody knows: a card with name and birth date is new, a typed folder may be a slip, an id alone is too little")
    void unknown() throws IOException {
        assertThat(certain(card("PG-9", "Neuling^Ida", "1990-01-02")).id()).isEqualTo("PG-9");
        doubted(Reason.ID_UNKNOWN, folder("PG-9", "Neuling^Ida", "1990-01-02"));
        doubted(Reason.ID_UNKNOWN, card("PG-9", "", ""));
        doubted(Reason.NAME_UNKNOWN, card("PG-9", "", "1990-01-02"));
        doubted(Reason.NAME_UNKNOWN, said("PG-9"));
        Match alone = new Matching(List.of(), Optional.empty()).match(List.of(folder("PG-9", "", "")));
        assertThat(((Match.Doubt) alone).reason()).isEqualTo(Reason.ONE_IDENTIFIER);
    }

    @Test
    @DisplayName("a person known under another id is a doubt, and so is a name with a birth date alone, however single")
    void withoutId() throws IOException {
        archived("PG-1", "Exempel^Zoë", BORN);
        doubted(Reason.KNOWN_UNDER_ANOTHER_ID, card("PG-7", "Exempel^Zoë", "1987-02-28"));
        doubted(Reason.NO_PATIENT_ID, folder("", "Exempel^Zoe", "1987-02-28"));
        archived("PG-2", "Exempel^Zoë", BORN);
        doubted(Reason.SEVERAL_CANDIDATES, folder("", "Exempel^Zoe", "1987-02-28"));
        doubted(Reason.NO_PATIENT);
    }

    @Test
    @DisplayName("an id with wild cards is never asked for")
    void wildCards() throws IOException {
        archived("PG-1", "Exempel^Zoë", BORN);
        doubted(Reason.ID_NOT_SEARCHABLE, said("PG-*"));
        doubted(Reason.ID_NOT_SEARCHABLE, said("PG-?"));
    }

    @Test
    @DisplayName("an archive that cannot be asked puts the decision off")
    void unreachable() {
        Directory away = new Directory() {
            @Override
            public List<Known> withId(String id) throws IOException {
                throw new IOException("not there");
            }

            @Override
            public List<Known> named(PersonName name, LocalDate birthDate) throws IOException {
                throw new IOException("not there");
            }
        };
        assertThatThrownBy(() -> new Matching(List.of(away), Optional.empty()).match(List.of(card("PG-1", "", ""))))
                .isInstanceOf(IOException.class);
    }
}
