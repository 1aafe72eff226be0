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
        return last("view").isPresent() && !isNoPhotograph();
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

    /** Whether a person says that it is no photograph to file; whatever is said of it after that takes it back. */
    boolean isNoPhotograph() {
        return isLast("not-a-photograph");
    }

    /** Whether a person says in one breath whose it is and that it is no photograph: that it is a patient card, though nobody could read it. */
    boolean isSaidToBeCard() {
        return isNoPhotograph()
                && last("patient")
                        .map(Deciding.Statement::at)
                        .equals(last("not-a-photograph").map(Deciding.Statement::at));
    }

    /** Whether a person does not want it filed; whatever is said of it after that takes it back. */
    boolean discarded() {
        return isLast("discard");
    }

    /** What was taken out of the archive by hand says nothing of what is to become of the photograph. */
    private boolean isLast(String about) {
        return photograph.statements().stream()
                .map(Deciding.Statement::about)
                .filter(said -> !said.equals("taken-back"))
                .reduce((earlier, later) -> later)
                .equals(Optional.of(about));
    }

    /** The value of the last word, with a ground for it. */
    Optional<String> last(String about, List<Ground> grounds) {
        Optional<Deciding.Statement> statement = last(about);
        statement.ifPresent(word ->
                grounds.add(new Ground(about, "person", word.at(), word.by().orElse("somebody"))));
        return statement.map(Deciding.Statement::value);
    }
}
