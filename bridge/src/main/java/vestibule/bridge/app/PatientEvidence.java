package vestibule.bridge.app;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Predicate;
import vestibule.bridge.patient.CardReader;
import vestibule.bridge.patient.Evidence;
import vestibule.bridge.patient.Frame;
import vestibule.bridge.patient.Identity;
import vestibule.bridge.patient.NamePattern;
import vestibule.bridge.patient.Reason;
import vestibule.bridge.settings.Patients;

/** What one photograph itself, or a person, says about who is on it. */
final class PatientEvidence {

    private final Patients patients;

    PatientEvidence(Patients patients) {
        this.patients = patients;
    }

    /**
     * What it says about the photographs after it. A card that is filed as well, as where a patient holds it, still names who follows; but
     * where nothing could be read and nobody says who it is, a person's word that it shows a view means that there is no card.
     */
    Optional<Frame.Mark> mark(Deciding.Photograph photograph, CardReader.Reading code) {
        Optional<Frame.Mark> mark = markOfCode(photograph, code);
        Optional<Evidence> said = said(photograph);
        if (said.isPresent() && (mark.isPresent() || new Words(photograph).isSaidToBeCard())) {
            return Optional.of(new Frame.Start(said.get()));
        }
        boolean noCard = code instanceof CardReader.Unreadable && new Words(photograph).isToBeFiled();
        return noCard ? Optional.empty() : mark;
    }

    private Optional<Frame.Mark> markOfCode(Deciding.Photograph photograph, CardReader.Reading code) {
        if (code instanceof CardReader.Unreadable) {
            return Optional.of(new Frame.Broken(Reason.CARD_UNREADABLE));
        }
        if (code instanceof CardReader.Card card) {
            return Optional.of(
                    card.mirrored()
                            ? new Frame.Broken(Reason.CARD_MIRRORED)
                            : new Frame.Start(
                                    new Evidence.PatientCard(card.who(), photograph.takenIn(), photograph.photo())));
        }
        if (code instanceof CardReader.Text text
                && patients.codeId()
                        .filter(form -> form.matcher(text.text()).matches())
                        .isPresent()) {
            return Optional.of(
                    text.mirrored()
                            ? new Frame.Broken(Reason.CARD_MIRRORED)
                            : new Frame.Start(new Evidence.BareCode(
                                    Identity.ofId(text.text()), photograph.takenIn(), photograph.photo())));
        }
        return Optional.empty();
    }

    /** A person's word, also that on a proposal of who it is. */
    Optional<Evidence> said(Deciding.Photograph photograph) {
        Words words = new Words(photograph);
        Optional<Deciding.Statement> word = words.last("patient");
        if (word.isPresent()) {
            return PatientWord.parse(word.get().value())
                    .map(who -> new Evidence.Said(
                            who, word.get().at(), word.get().by().orElse("somebody")));
        }
        return accepted(photograph, DecisionText::onlyProposesPatient);
    }

    /**
     * Whom a person saw beside it in accepting something else that was proposed, such as its view. That is no word on who it is: the evidence
     * already said so, and may say otherwise by now.
     */
    Optional<Evidence> seenBeside(Deciding.Photograph photograph) {
        return accepted(photograph, proposal -> !proposal.onlyProposesPatient());
    }

    /** The patient of the last proposal of a kind that was accepted and has one. */
    private static Optional<Evidence> accepted(Deciding.Photograph photograph, Predicate<DecisionText> kind) {
        return photograph.statements().stream()
                .flatMap(word -> Words.proposal(word)
                        .filter(kind)
                        .flatMap(DecisionText::patient)
                        .map(patient -> new Evidence.Said(
                                Identity.of(patient), word.at(), word.by().orElse("somebody")))
                        .stream())
                .reduce((earlier, later) -> later)
                .map(Evidence.class::cast);
    }

    /** What its names and the camera's text say; a person's word makes all this needless. */
    List<Evidence> written(Deciding.Photograph photograph, Optional<String> cameraText) {
        List<Evidence> all = new ArrayList<>();
        // The same bytes in the folders of two people are nobody's until a person says so
        List<String> names = new ArrayList<>(photograph.otherNames());
        names.add(0, photograph.name());
        for (NamePattern pattern : patients.names()) {
            for (String name : names) {
                pattern.read(name)
                        .map(who -> new Evidence.FileName(who, photograph.takenIn(), "pattern " + pattern))
                        .filter(one -> !all.contains(one))
                        .ifPresent(all::add);
            }
        }
        cameraText
                .flatMap(text -> patients.cameraPattern().read(text))
                .ifPresent(who -> all.add(new Evidence.CameraText(
                        who,
                        photograph.takenIn(),
                        patients.cameraField().orElseThrow().word())));
        return all;
    }
}
