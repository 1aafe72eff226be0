package vestibule.bridge.app;

import java.util.List;
import java.util.Optional;

/** What people said about one photograph; the last word on a subject counts. */
record Words(Deciding.Photograph photograph) {

    Optional<Deciding.Statement> last(String about) {
        return photograph.statements().stream()
                .filter(statement -> statement.about().equals(about))
                .reduce((earlier, later) -> later);
    }

    /** Whether a person says which view it shows, so that it is filed whatever else is in the picture. */
    boolean isToBeFiled() {
        return last("view").isPresent();
    }

    /** What was proposed when a person accepted it; empty where the word is none on a proposal. */
    static Optional<DecisionText> proposal(Deciding.Statement word) {
        if (!word.about().equals("accept")) {
            return Optional.empty();
        }
        try {
            return Optional.of(DecisionText.read(word.value()));
        } catch (Failure none) {
            // What came up in delivering was let stand, or the proposal was of another version
            return Optional.empty();
        }
    }

    /** Whether a person does not want it filed; whatever is said after that takes it back. */
    boolean discarded() {
        List<Deciding.Statement> all = photograph.statements();
        return !all.isEmpty() && all.get(all.size() - 1).about().equals("discard");
    }

    /** The value of the last word, with a ground for it. */
    Optional<String> last(String about, List<Ground> grounds) {
        Optional<Deciding.Statement> statement = last(about);
        statement.ifPresent(word ->
                grounds.add(new Ground(about, "person", word.at(), word.by().orElse("somebody"))));
        return statement.map(Deciding.Statement::value);
    }
}
