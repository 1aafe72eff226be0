package vestibule.bridge.app;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import vestibule.bridge.patient.Patient;
import vestibule.dicom.data.Uid;

/**
 * From photographs taken in to what is to become of each: who is on it, which view it shows, which study it goes into. The one door
 * between what keeps photographs safe and what understands them; neither side looks behind it.
 */
interface Deciding {

    /**
     * Decides the photographs of one source. All of a source are looked at together, since one photograph's evidence may lie in another,
     * such as the patient card in the first frame; then one sitting after the other is decided and recorded, so that a card may hold any
     * number of them.
     *
     * @throws IOException if an original cannot be read or a directory of patients cannot be asked; what was recorded until then may stand,
     *     and the whole round is taken up again later
     */
    void decide(Photographs photographs) throws IOException;

    /** The photographs of one source that may bear on one another, as the outbox has them. */
    interface Photographs {

        /** All of them in brief, in the order of their names. There may be a hundred thousand. */
        List<Photograph> all() throws IOException;

        /** Files near them that could not be taken in, in the order of names; any of them may be a patient card. */
        default List<Unread> unread() throws IOException {
            return List.of();
        }

        /** Our copy of one of them, never changed. */
        Path original(String photo);

        /** Some of them with what was decided of each before; one that is no longer kept is left out. */
        List<Candidate> candidates(List<Photograph> some) throws IOException;

        /** Whether we filed anything under another patient in that study. */
        boolean isOfAnother(Uid study, Patient patient) throws IOException;

        /**
         * Records what the cards of this source say of photographs that are decided in others.
         *
         * @param words those that changed, by the photographs' hashes; empty where nothing is said any more
         */
        default void bear(Map<String, Optional<String>> words) throws IOException {}

        /** Says that reading goes on, where it takes long. */
        void goOn() throws IOException;

        /**
         * Records what came of some of them.
         *
         * @param about those that {@link #candidates} gave; each comes once
         * @param round one ruling for each of them without a decision, and for each whose decision no longer stands, none for the others;
         *     and how the sittings stand that they make
         */
        void record(List<Candidate> about, Round round) throws IOException;
    }

    /** A file whose bytes nobody could read yet, on which of the memory cards of its source. */
    record Unread(String name, int medium, Instant fileTime) {}

    /**
     * What came of some photographs that were decided together.
     *
     * @param agreeing those of which everything says what was decided before, so that a doubt that came up since is gone
     * @param sittings how the sittings stand that they make
     */
    record Round(List<Ruling> rulings, Set<String> agreeing, List<SittingState> sittings) {

        /** With lists that nobody can change. */
        public Round {
            rulings = List.copyOf(rulings);
            agreeing = Set.copyOf(agreeing);
            sittings = List.copyOf(sittings);
        }

        /** One in which nothing is said to agree. */
        Round(List<Ruling> rulings, List<SittingState> sittings) {
            this(rulings, Set.of(), sittings);
        }
    }

    /**
     * A photograph as it was taken in.
     *
     * @param photo the SHA-256 of its bytes, in hexadecimal
     * @param name its name in the source, folders and all, parted by {@code /}
     * @param otherNames other such names that the same bytes lie or lay under, in this source or another
     * @param source which card or folder it came from
     * @param folder where that lies
     * @param medium on which of the memory cards it is that lay there one after another
     * @param fileTime what the source gave as its time of change
     * @param takenIn when we took it in
     * @param statements what people said about it, oldest first
     */
    record Photograph(
            String photo,
            String name,
            List<String> otherNames,
            String source,
            String folder,
            int medium,
            Instant fileTime,
            Instant takenIn,
            List<Statement> statements,
            Elsewhere elsewhere) {

        /** With lists that nobody can change. */
        public Photograph {
            otherNames = List.copyOf(otherNames);
            statements = List.copyOf(statements);
        }

        /** One that lies in no other source. */
        Photograph(
                String photo,
                String name,
                List<String> otherNames,
                String source,
                Instant fileTime,
                Instant takenIn,
                List<Statement> statements) {
            this(
                    photo,
                    name,
                    otherNames,
                    source,
                    source,
                    0,
                    fileTime,
                    takenIn,
                    statements,
                    new Elsewhere(false, false, Optional.empty(), List.of()));
        }
    }

    /**
     * What other sources have to do with a photograph.
     *
     * @param decided whether it is decided in another source or at another time, and only bears witness now
     * @param borne whether what the cards of this source say of it is to be kept, for where it is decided
     * @param says what the cards of this source said of it when they were last asked, as {@link HeardText} writes it
     * @param heard what the cards of other sources say of it, where it is decided here
     */
    record Elsewhere(boolean decided, boolean borne, Optional<String> says, List<String> heard) {

        /** With a list that nobody can change. */
        public Elsewhere {
            heard = List.copyOf(heard);
        }
    }

    /**
     * A photograph that is being decided.
     *
     * @param photograph as it was taken in
     * @param original our copy, never changed
     * @param decision what was decided before, as {@link Decided#decision} gave it
     * @param filed whether the archive has been sent anything of it; then it only bears witness for the others, unless a person said
     *     something since
     * @param heard how many of the words that people said of it the decision takes account of, the first ones
     * @param withdrawn whether what was filed by that decision is to be taken back, or was, as where a person said that it is no photograph
     */
    record Candidate(
            Photograph photograph,
            Path original,
            Optional<String> decision,
            boolean filed,
            int heard,
            boolean withdrawn) {

        /** One whose decision takes account of nothing that was said, and of which what was filed stands. */
        Candidate(Photograph photograph, Path original, Optional<String> decision, boolean filed) {
            this(photograph, original, decision, filed, 0, false);
        }

        /** Whether a person said something of it that the decision does not take account of yet. */
        boolean spoken() {
            return !unheard().isEmpty();
        }

        /** What people said of it that the decision does not take account of yet, oldest first. */
        List<Statement> unheard() {
            return statements().stream()
                    .skip(heard)
                    .filter(Statement::bearsOnDecision)
                    .toList();
        }

        String photo() {
            return photograph.photo();
        }

        String name() {
            return photograph.name();
        }

        String source() {
            return photograph.source();
        }

        Instant takenIn() {
            return photograph.takenIn();
        }

        List<Statement> statements() {
            return photograph.statements();
        }
    }

    /**
     * A person's word about a photograph.
     *
     * @param about what it settles, such as {@code patient}, {@code view}, {@code capture}, {@code teeth}
     * @param value the answer, in a form its subject defines
     * @param by who said so, if known
     * @param at when
     */
    record Statement(String about, String value, Optional<String> by, Instant at) {

        /** Whether it says something of the photograph, and not only what is to be done about its delivery. */
        boolean bearsOnDecision() {
            boolean letsStand = about.equals("accept") && value.equals("yes");
            return !letsStand && !about.equals("retry") && !about.equals("taken-back");
        }
    }

    /** What is to become of a photograph. */
    sealed interface Ruling {

        /** The photograph it is about. */
        String photo();
    }

    /**
     * Everything is decided: an object can be made.
     *
     * @param decision all that the object is made from beside the photograph, with the evidence, as JSON text; {@link Making} reads it
     * @param takesBack why what the archive has of the photograph is wrong, a word of {@link Correcting}; empty where what is filed stands
     */
    record Decided(String photo, String decision, Optional<String> takesBack) implements Ruling {

        /** A decision that takes nothing back. */
        Decided(String photo, String decision) {
            this(photo, decision, Optional.empty());
        }
    }

    /**
     * A person has to decide.
     *
     * @param reason a code that stays the same from version to version, in lower case with hyphens
     * @param message one sentence: what is in doubt and what to do; it may name no patient
     * @param proposal what would be decided if a person agreed, as JSON text like {@link Decided#decision}
     */
    record Doubtful(String photo, String reason, String message, Optional<String> proposal) implements Ruling {

        /**
         * With a proposal where there is anything to propose.
         *
         * @param words the sentence without its capital and its full stop; names of files may name patients, so none stands in it, and
         *     whoever prints it has the name of the file beside it
         */
        static Doubtful saying(String photo, String reason, String words, DecisionText proposal) {
            return new Doubtful(
                    photo,
                    reason,
                    words.substring(0, 1).toUpperCase(Locale.ROOT) + words.substring(1) + ".",
                    proposal.equals(DecisionText.NOTHING) ? Optional.empty() : Optional.of(proposal.json()));
        }
    }

    /**
     * Not a photograph to file, such as a patient card.
     *
     * @param why one sentence
     */
    record Aside(String photo, String why) implements Ruling {}
}
