package vestibule.bridge.app;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ObjectNode;
import vestibule.bridge.outbox.Overview;
import vestibule.bridge.outbox.Rulings.Said;
import vestibule.bridge.patient.Identity;
import vestibule.bridge.patient.Patient;

/**
 * A person's word on the study. A study is one patient's, so the word is kept with the patient it was said of, and says nothing of anybody
 * else whose the photograph turns out to be. Without a patient, as older versions kept it, it says nothing at all.
 *
 * @param study a unique identifier, or {@code new}
 * @param patient whose it was said to be
 */
record StudyWord(String study, Optional<Identity> patient) {

    /** What {@link Deciding.Statement#about} calls it. */
    static final String ABOUT = "study";

    private static final JsonMapper JSON = JsonMapper.builder().build();

    /** The word as it was kept. */
    static StudyWord parse(String value) {
        try {
            StrictObject object = StrictObject.of("the study", value);
            StudyWord word = new StudyWord(object.text("study"), Optional.of(PatientWord.read(object.text("patient"))));
            object.end();
            return word;
        } catch (Failure bare) {
            return new StudyWord(value.strip(), Optional.empty());
        }
    }

    /** Whether it was said of that patient's photograph. */
    boolean isOf(Patient whose) {
        return patient.filter(
                        who -> who.id().isPresent() && whose.isCalled(who.id().get(), who.issuer()))
                .isPresent();
    }

    /**
     * What a person said of a photograph, a word on the study with the patient it is said of.
     *
     * @throws Failure if nobody knows yet whose the photograph is
     */
    static List<Said> withPatient(List<Said> said, Overview.Photograph photo, Overview overview)
            throws Failure, IOException {
        List<Said> all = new ArrayList<>();
        for (Said one : said) {
            all.add(
                    one.about().equals(ABOUT)
                            ? new Said(
                                    one.about(),
                                    kept(one.answer().strip(), patient(said, photo, overview)),
                                    one.by(),
                                    one.at())
                            : one);
        }
        return all;
    }

    private static String kept(String study, Identity patient) {
        ObjectNode whose = JSON.createObjectNode();
        patient.id().ifPresent(id -> whose.put("id", id));
        patient.issuer().ifPresent(issuer -> whose.put("issuer", issuer));
        return JSON.createObjectNode()
                .put("study", study)
                .put("patient", whose.toString())
                .toString();
    }

    /** Whom the same person names with it, else whose it is decided or proposed to be. */
    private static Identity patient(List<Said> said, Overview.Photograph photo, Overview overview)
            throws Failure, IOException {
        for (Said one : said) {
            if (one.about().equals("patient")) {
                return PatientWord.read(one.answer());
            }
        }
        Optional<Patient> decided = overview.pending(photo.photo()).undecided()
                ? Optional.empty()
                : overview.decision(photo.photo()).flatMap(StudyWord::patient);
        return Identity.of(decided.orElseThrow(() -> new Failure(
                Exit.FINDINGS,
                "%s: nobody knows yet whose it is, and a study is one patient's; say --patient with it."
                        .formatted(photo.photo().substring(0, 12)))));
    }

    private static Optional<Patient> patient(String decision) {
        try {
            return DecisionText.read(decision).patient();
        } catch (Failure ofAnotherVersion) {
            return Optional.empty();
        }
    }
}
