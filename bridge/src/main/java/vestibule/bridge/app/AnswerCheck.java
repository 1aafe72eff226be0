package vestibule.bridge.app;

import java.util.List;
import java.util.Optional;
import vestibule.bridge.settings.Settings;
import vestibule.bridge.view.Said;
import vestibule.dicom.data.Uid;

/** Refuses a person's word that names nothing there is before it is kept, while that person is still there to mend it. */
final class AnswerCheck {

    /** What is said of the view, by the option that says it. */
    private static final List<String> OF_THE_VIEW =
            List.of("view", "like", "set", "capture", "correct-by", "teeth", "stage");

    private AnswerCheck() {}

    static void check(Arguments arguments, Settings settings) throws Failure {
        for (String about : OF_THE_VIEW) {
            Optional<String> word = arguments.text(about);
            Optional<String> problem =
                    word.flatMap(value -> Workshop.rules(settings).wrongWord(List.of(new Said(about, value))));
            if (problem.isPresent()) {
                String sentence = problem.get();
                throw new Failure(
                        Exit.USAGE,
                        "--%s: %s%s"
                                .formatted(about, Character.toLowerCase(sentence.charAt(0)), sentence.substring(1)));
            }
        }
        Optional<String> patient = arguments.text("patient");
        if (patient.isPresent() && PatientWord.parse(patient.get()).isEmpty()) {
            throw new Failure(
                    Exit.USAGE,
                    "--patient: found something else, expected a patient id of 1 to 64 characters, or {\"id\":…,\"issuer\":…,\"name\":…,\"birthDate\":…,\"sex\":…}.");
        }
        arguments.formed(
                "study",
                word -> word.strip().equals("new")
                        ? Optional.of(word)
                        : Uid.parse(word.strip()).map(uid -> word),
                "a unique identifier (digits parted by dots, at most 64 characters) or new");
    }
}
