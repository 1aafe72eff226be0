package vestibule.bridge.patient;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

@DisplayName("A practice at work")
class PracticeModelTest {

    private static final int ASSIGNMENTS = Integer.getInteger("vestibule.assignments", 50_000);
    private static final long SEED = Long.getLong("vestibule.seed", 20_260_312L);

    private static PracticeModel run(PracticeModel.Habits habits, int assignments) throws IOException {
        PracticeModel model = new PracticeModel(SEED, habits);
        while (model.assignments < assignments) {
            model.day();
        }
        System.out.printf(
                "seed %d: %d assignments, %d wrong, %d guessed, %d put off, %.2f %% for a person: %s%n",
                SEED,
                model.assignments,
                model.wrong,
                model.guessed,
                model.later,
                100 * model.shareForPersons(),
                model.doubts);
        return model;
    }

    @Test
    @DisplayName("on ordinary days: nobody wrong, nobody guessed, and less than one photograph in twenty for a person")
    void ordinary() throws IOException {
        PracticeModel model = run(PracticeModel.Habits.ORDINARY, ASSIGNMENTS);
        assertThat(model.wrong).as("wrong patients").isZero();
        assertThat(model.guessed).as("choices among several candidates").isZero();
        assertThat(model.shareForPersons()).isLessThan(0.05);
    }

    @Test
    @DisplayName("on bad days: nobody wrong, nobody guessed, and every kind of doubt comes up")
    void bad() throws IOException {
        PracticeModel model = run(PracticeModel.Habits.BAD, ASSIGNMENTS);
        assertThat(model.wrong).as("wrong patients").isZero();
        assertThat(model.guessed).as("choices among several candidates").isZero();
        assertThat(model.certain).isPositive();
        assertThat(model.later).isPositive();
        assertThat(model.doubts.keySet())
                .contains(
                        Reason.CARD_UNREADABLE,
                        Reason.CARD_MIRRORED,
                        Reason.AFTER_A_PAUSE,
                        Reason.ANOTHER_APPOINTMENT,
                        Reason.NAME_DIFFERS,
                        Reason.SEVERAL_CANDIDATES);
    }
}
