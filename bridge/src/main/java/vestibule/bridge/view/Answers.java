package vestibule.bridge.view;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * What people said about a photograph, understood; of two words about the same the later one counts.
 *
 * @param view which view
 * @param capture how the camera looked
 * @param correction what puts it right
 * @param teeth which teeth are shown
 * @param like the view whose direction a close-up shares
 * @param set which set the sitting is
 * @param stage which stage of treatment
 * @param accepted the view of the proposal that a person accepted
 */
record Answers(
        Optional<View> view,
        Optional<Capture> capture,
        Optional<Correction> correction,
        List<Tooth> teeth,
        Optional<View> like,
        Optional<String> set,
        Optional<String> stage,
        Optional<String> accepted) {

    /** A word that names nothing there is. */
    static final class UnknownWordException extends Exception {

        private static final long serialVersionUID = 1L;

        UnknownWordException(String sentence) {
            super(sentence);
        }
    }

    static Answers of(List<Said> said, ViewCatalogue views, SetCatalogue sets) throws UnknownWordException {
        Optional<String> flip = last(said, "correct-by").filter(word -> !word.equals(Correction.USUAL));
        Optional<String> capture = last(said, "capture");
        Optional<String> set = last(said, "set");
        Optional<String> stage = last(said, "stage");
        if (set.isPresent() && sets.set(set.get()).isEmpty()) {
            throw new UnknownWordException("There is no set %s; vestibule sets lists all.".formatted(shown(set.get())));
        }
        return new Answers(
                view(last(said, "view"), views),
                word(capture, capture.flatMap(Capture::parse), "capture", Capture.ALL_WORDS),
                word(flip, flip.flatMap(Correction::parse), "correction", Correction.WORDS_TO_SETTLE),
                teeth(last(said, "teeth"), views),
                view(last(said, "like"), views),
                set,
                word(stage, stage.flatMap(Stage::parse), "stage", "up to 40 letters, digits, commas and blanks"),
                last(said, "accept"));
    }

    private static Optional<String> last(List<Said> said, String about) {
        return said.stream()
                .filter(one -> one.about().equals(about))
                .reduce((earlier, later) -> later)
                .map(one -> one.value().strip());
    }

    private static Optional<View> view(Optional<String> id, ViewCatalogue views) throws UnknownWordException {
        Optional<View> view = id.flatMap(views::view);
        if (id.isPresent() && view.isEmpty()) {
            throw new UnknownWordException("There is no view %s; close to it are %s, and vestibule views lists all."
                    .formatted(shown(id.get()), String.join(", ", views.similar(id.get()))));
        }
        return view;
    }

    private static <T> Optional<T> word(Optional<String> said, Optional<T> meant, String what, String expected)
            throws UnknownWordException {
        if (said.isPresent() && meant.isEmpty()) {
            throw new UnknownWordException(
                    "There is no %s %s; expected %s.".formatted(what, shown(said.get()), expected));
        }
        return meant;
    }

    private static List<Tooth> teeth(Optional<String> said, ViewCatalogue views) throws UnknownWordException {
        List<Tooth> teeth = new ArrayList<>();
        for (String designation : said.filter(text -> !text.isEmpty())
                .map(text -> List.of(text.split(",", -1)))
                .orElse(List.of())) {
            Tooth tooth = views.tooth(designation.strip())
                    .orElseThrow(() -> new UnknownWordException(
                            "There is no tooth %s; expected two digits, quadrant 1 to 8 and place from the midline (ISO 3950)."
                                    .formatted(shown(designation.strip()))));
            if (!teeth.contains(tooth)) {
                teeth.add(tooth);
            }
        }
        return teeth;
    }

    /** A wrong word may be anything, a patient's name too: only what could be a word of the catalogue is repeated. */
    private static String shown(String word) {
        return word.matches("[a-z0-9-]{1,40}") ? word : "of that word";
    }
}
