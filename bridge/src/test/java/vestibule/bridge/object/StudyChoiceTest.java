package vestibule.bridge.object;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.time.LocalTime;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import vestibule.bridge.patient.Patient;
import vestibule.bridge.settings.Study;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.PersonName;
import vestibule.dicom.data.Uid;
import vestibule.dicom.dict.Attributes;

@DisplayName("Which study a sitting goes into (trade facts D-15)")
class StudyChoiceTest {

    private static final LocalDate DAY = LocalDate.of(2026, 3, 12);
    private static final Patient ZOE = new Patient(
            "PG-0001",
            Optional.of("PAINTED-GATE"),
            PersonName.parse("Exempel^Zoë").orElseThrow(),
            Optional.of(LocalDate.of(1987, 2, 28)),
            Optional.of("F"));
    private static final Study VISIT = new Study(
            Study.Join.VISIT,
            Study.Series.SITTING,
            Optional.of("Clinical photographs"),
            Optional.empty(),
            Study.Rejection.NOTE);

    private static KnownStudy known(String uid, String day, String issuer) {
        return KnownStudy.of(DataSet.builder()
                        .put(Attributes.PATIENT_ID, "PG-0001")
                        .put(Attributes.ISSUER_OF_PATIENT_ID, issuer)
                        .put(Attributes.STUDY_INSTANCE_UID, uid)
                        .put(Attributes.STUDY_DATE, day)
                        .put(Attributes.STUDY_TIME, "0845")
                        .put(Attributes.STUDY_ID, "R1")
                        .put(Attributes.ACCESSION_NUMBER, "A-77")
                        .put(Attributes.STUDY_DESCRIPTION, "Bitewings")
                        .build())
                .orElseThrow();
    }

    private static StudyChoice choose(Study customs, Optional<Uid> said, Optional<Order> order, KnownStudy... known) {
        return StudyChoice.of(new StudyChoice.Question(
                ZOE, Optional.of("PAINTED-GATE"), Optional.of(DAY), "first", said, order, List.of(known), customs));
    }

    private static Visit visit(StudyChoice choice) {
        assertThat(choice).isInstanceOf(StudyChoice.Chosen.class);
        return ((StudyChoice.Chosen) choice).visit();
    }

    private static Order order() {
        DataSet step = DataSet.builder()
                .put(Attributes.SCHEDULED_PROCEDURE_STEP_ID, "SPS-1")
                .put(Attributes.SCHEDULED_PROCEDURE_STEP_DESCRIPTION, "Photographs")
                .build();
        return Order.of(DataSet.builder()
                .put(Attributes.STUDY_INSTANCE_UID, "2.25.500")
                .put(Attributes.ACCESSION_NUMBER, "A-500")
                .put(Attributes.REQUESTED_PROCEDURE_ID, "RP-1")
                .put(Attributes.REQUESTED_PROCEDURE_DESCRIPTION, "Records")
                .put(Attributes.SCHEDULED_PROCEDURE_STEP_SEQUENCE, List.of(step))
                .build());
    }

    @Test
    @DisplayName("the order's, with its accession number and its request, comes before anything in the archive")
    void ordered() {
        Visit visit = visit(
                choose(VISIT, Optional.empty(), Optional.of(order()), known("2.25.9", "20260312", "PAINTED-GATE")));
        assertThat(visit.study()).contains(new Uid("2.25.500"));
        assertThat(visit.accession()).contains("A-500");
        assertThat(visit.studyDescription()).contains("Records");
        DataSet request =
                visit.order().orElseThrow().requestAttributes(visit.study()).orElseThrow();
        assertThat(request.text(Attributes.REQUESTED_PROCEDURE_ID)).contains("RP-1");
        assertThat(request.text(Attributes.SCHEDULED_PROCEDURE_STEP_ID)).contains("SPS-1");
    }

    @Test
    @DisplayName("the archive's of the same day where settings say so, with all that the archive says of it")
    void joined() {
        Visit visit = visit(choose(
                VISIT,
                Optional.empty(),
                Optional.empty(),
                known("2.25.8", "20260311", "PAINTED-GATE"),
                known("2.25.9", "20260312", "PAINTED-GATE")));
        assertThat(visit.study()).contains(new Uid("2.25.9"));
        assertThat(visit.accession()).contains("A-77");
        assertThat(visit.studyTime()).contains(LocalTime.of(8, 45));
        assertThat(visit.studyDescription()).contains("Bitewings");
    }

    @Test
    @DisplayName("never that of another issuer's patient of the same id")
    void otherIssuer() {
        Visit visit =
                visit(choose(VISIT, Optional.empty(), Optional.empty(), known("2.25.9", "20260312", "SOMEBODY ELSE")));
        assertThat(visit.study()).isPresent().get().isNotEqualTo(new Uid("2.25.9"));
    }

    @Test
    @DisplayName("is a question where the archive has two of that day, until a person names one")
    void several() {
        KnownStudy[] two = {known("2.25.8", "20260312", "PAINTED-GATE"), known("2.25.9", "20260312", "PAINTED-GATE")};
        assertThat(choose(VISIT, Optional.empty(), Optional.empty(), two)).isInstanceOf(StudyChoice.Unclear.class);
        assertThat(visit(choose(VISIT, Uid.parse("2.25.8"), Optional.empty(), two))
                        .study())
                .contains(new Uid("2.25.8"));
        assertThat(visit(choose(VISIT.apart(), Optional.empty(), Optional.empty(), two))
                        .study())
                .isPresent();
    }

    @Test
    @DisplayName("else one of its own, the same for patient and day each time, and stays in it once it was begun")
    void fresh() {
        Visit first = visit(choose(Study.USUAL, Optional.empty(), Optional.empty()));
        assertThat(visit(choose(
                        Study.USUAL, Optional.empty(), Optional.empty(), known("2.25.9", "20260312", "PAINTED-GATE"))))
                .isEqualTo(first);
        KnownStudy begun = known(first.study().orElseThrow().value(), "20260312", "PAINTED-GATE");
        assertThat(visit(choose(
                                VISIT,
                                Optional.empty(),
                                Optional.empty(),
                                begun,
                                known("2.25.9", "20260312", "PAINTED-GATE")))
                        .study())
                .isEqualTo(first.study());
    }
}
