package vestibule.bridge.app;

import java.io.IOException;
import java.time.Clock;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.random.RandomGenerator;
import org.apache.commons.cli.Options;
import vestibule.bridge.delivery.Backoff;
import vestibule.bridge.intake.Originals;
import vestibule.bridge.outbox.Outbox;
import vestibule.bridge.outbox.Overview;
import vestibule.bridge.outbox.PhotoState;
import vestibule.bridge.outbox.Rulings;
import vestibule.bridge.outbox.Rulings.Said;
import vestibule.bridge.outbox.Withdrawals;
import vestibule.bridge.settings.Settings;
import vestibule.bridge.settings.Study;
import vestibule.bridge.view.Capture;
import vestibule.bridge.view.Correction;

/** Answers what needs attention: what a person says is kept beside the photograph, and its source is decided again. */
final class SettleCommand implements Command {

    /** Options that are a person's word about the photograph, and what {@link Deciding.Statement#about} calls them. */
    private static final Map<String, String> WORDS = Map.of(
            "patient", "patient",
            "view", "view",
            "capture", "capture",
            "correct-by", "correct-by",
            "teeth", "teeth",
            "like", "like",
            "set", "set",
            "stage", "stage",
            "study", StudyWord.ABOUT);

    /** Words that change nothing about what is not filed; a patient said of a card counts for what follows it. */
    private static final List<String> ONLY_OF_WHAT_IS_FILED =
            List.of("view", "capture", "correct-by", "teeth", "like", "set", "stage", "study", "retry");

    private final Understanding understanding;
    private final Clock clock;
    private final Instant moment;

    SettleCommand(Understanding understanding, Clock clock) {
        this.understanding = understanding;
        this.clock = clock;
        this.moment = clock.instant();
    }

    @Override
    public String name() {
        return "settle";
    }

    @Override
    public String syntax() {
        return "PHOTO… [--patient … --view … --capture … --teeth …] [--accept] [--discard] [--retry] [--taken-back]";
    }

    @Override
    public String summary() {
        return "answers what needs attention: patient, view, capture, discard, retry";
    }

    @Override
    public Options options() {
        Options options = Homes.with(new Options());
        options.addOption(Given.value(
                "patient",
                "ID",
                "who is on it: a patient id, or {\"id\":…,\"issuer\":…,\"name\":…,\"birthDate\":…,\"sex\":…}"));
        options.addOption(Given.value("view", "ID", "what it shows; vestibule views lists them"));
        options.addOption(Given.value("capture", "HOW", Capture.ALL_WORDS));
        options.addOption(
                Given.value("correct-by", "HOW", "what puts the picture right: " + Correction.WORDS_TO_SETTLE));
        options.addOption(Given.value("teeth", "11,21", "the teeth shown, two digits each (ISO 3950)"));
        options.addOption(Given.value("like", "VIEW", "for a close-up or a stage: the view whose direction it shares"));
        options.addOption(Given.value("set", "ID", "the set its sitting follows; vestibule sets lists them"));
        options.addOption(Given.value("stage", "WORDS", "the stage of treatment it shows"));
        options.addOption(Given.value("study", "UID", "the study it belongs to, or new"));
        options.addOption(Given.flag("not-a-photograph", "it is no photograph to file, such as a patient card"));
        options.addOption(Given.flag("accept", "what is proposed is right, or what came up may stand"));
        options.addOption(Given.flag("discard", "it is not to be filed"));
        options.addOption(Given.flag("retry", "try again, what stood in the way is out of it"));
        options.addOption(
                Given.flag("taken-back", "what was filed wrongly has been taken back in the archive by hand"));
        options.addOption(Given.value("by", "WHO", "who says so"));
        return options;
    }

    @Override
    public Exit run(Arguments arguments, Terminal terminal) throws Failure, IOException {
        if (arguments.words().isEmpty()) {
            throw new Failure(
                    Exit.USAGE,
                    "expected a photograph, by the beginning of its hash or its file name, found none; see vestibule status.");
        }
        Settings settings = SettingsFile.of(arguments);
        AnswerCheck.check(arguments, settings);
        try (Keeping keeping = Keeping.openExisting(Keeping.folder(arguments, settings), settings, clock)) {
            List<Overview.Photograph> photos = new ArrayList<>();
            for (String word : arguments.words()) {
                photos.add(PhotographWord.meant(keeping.outbox(), word));
            }
            for (Overview.Photograph photo : photos) {
                settle(keeping.outbox(), photo, arguments);
            }
            Originals originals = keeping.originals();
            DecidingDesk desk = new DecidingDesk(
                    keeping.outbox(),
                    originals,
                    understanding.deciding(
                            settings,
                            Archives.ofSettings(settings),
                            settings.callingAe().orElse(Archives.OUR_TITLE),
                            keeping.memory()),
                    keeping.node(),
                    clock,
                    new Backoff(RandomGenerator.getDefault()));
            desk.step(source -> photos.stream().anyMatch(photo -> photo.source().equals(source)));
            Exit exit = tell(keeping.outbox(), settings.study().rejection(), photos, arguments, terminal);
            return later(keeping.outbox().overview(), photos, desk, terminal) ? Exit.TRY_LATER : exit;
        }
    }

    /** What was said is kept in any case; where it is not decided by now, that is said. */
    private static boolean later(
            Overview overview, List<Overview.Photograph> photos, DecidingDesk desk, Terminal terminal)
            throws IOException {
        boolean later = false;
        for (Overview.Photograph photo : photos) {
            Overview.Pending pending = overview.pending(photo.photo());
            if (pending.undecided()) {
                later = true;
                terminal.err()
                        .println("vestibule settle: %s: kept, and not decided yet: %s."
                                .formatted(photo.name(), why(pending, desk)));
            }
        }
        return later;
    }

    private static String why(Overview.Pending pending, DecidingDesk desk) {
        if (!pending.kept()) {
            return "our copy of the original was let go; take the photograph in again";
        }
        if (desk.leftToAnother()) {
            return "vestibule run is deciding just now and takes it in next";
        }
        return desk.troubles().stream().findFirst().orElse("vestibule run takes it in") + "; see vestibule status";
    }

    private void settle(Outbox outbox, Overview.Photograph photo, Arguments arguments) throws Failure, IOException {
        Rulings rulings = outbox.rulings();
        List<Said> said = StudyWord.withPatient(words(arguments), photo, outbox.overview());
        boolean discard = arguments.has("discard");
        boolean retry = arguments.has("retry");
        boolean accept = arguments.has("accept");
        boolean takenBack = arguments.has("taken-back");
        int kinds = (discard ? 1 : 0) + (retry ? 1 : 0) + (takenBack ? 1 : 0) + (accept || !said.isEmpty() ? 1 : 0);
        if (kinds != 1) {
            throw new Failure(
                    Exit.USAGE,
                    "expected what to settle: a word about the photograph, --accept, --discard, --retry or --taken-back, one of them; see --help.");
        }
        if (discard && !rulings.discard(photo.photo(), said("discard", "yes", arguments))) {
            throw new Failure(
                    Exit.FINDINGS,
                    "%s: the archive may have it already, so it is not discarded here; correct it instead, or have it withdrawn there."
                            .formatted(photo.photo().substring(0, 12)));
        }
        if (takenBack && outbox.withdrawals().settled(photo.photo(), said("taken-back", "yes", arguments)) == 0) {
            throw new Failure(
                    Exit.USAGE,
                    "%s: nothing of it waits to be taken back; see vestibule status."
                            .formatted(photo.photo().substring(0, 12)));
        }
        if (retry) {
            rulings.retry(photo.photo(), said("retry", "yes", arguments));
        }
        boolean acknowledged =
                accept && said.isEmpty() && rulings.acknowledge(photo.photo(), said("accept", "yes", arguments));
        if (accept && !acknowledged && photo.proposal().isEmpty()) {
            throw new Failure(
                    Exit.FINDINGS,
                    "%s: nothing is proposed that could be accepted (%s); see vestibule status for what it needs."
                            .formatted(
                                    photo.photo().substring(0, 12),
                                    photo.reason().orElse(photo.state().word())));
        }
        if (accept && !acknowledged) {
            said = new ArrayList<>(said);
            // What was proposed when the person said yes, so that another proposal is not accepted by the same word
            said.add(said("accept", photo.proposal().orElseThrow(), arguments));
        }
        if (!acknowledged && !said.isEmpty()) {
            rulings.say(photo.photo(), said);
        }
    }

    private List<Said> words(Arguments arguments) {
        List<Said> said = new ArrayList<>();
        WORDS.entrySet().stream().sorted(Map.Entry.comparingByKey()).forEach(word -> {
            Optional<String> answer = arguments.text(word.getKey());
            answer.ifPresent(value -> said.add(said(word.getValue(), value, arguments)));
        });
        if (arguments.has("not-a-photograph")) {
            said.add(said("not-a-photograph", "yes", arguments));
        }
        return said;
    }

    /** All that one command says is said at one moment, so that it is known to belong together. */
    private Said said(String about, String answer, Arguments arguments) {
        return new Said(about, answer, arguments.text("by"), moment);
    }

    private static Exit tell(
            Outbox outbox,
            Study.Rejection rejection,
            List<Overview.Photograph> photos,
            Arguments arguments,
            Terminal terminal)
            throws IOException {
        boolean attention = false;
        for (Overview.Photograph before : photos) {
            Overview.Photograph photo = outbox.overview().named(before.photo()).get(0);
            terminal.out()
                    .println("%s  %s  %s%s"
                            .formatted(
                                    photo.photo().substring(0, 12),
                                    photo.name(),
                                    photo.state().word(),
                                    why(photo)));
            boolean inVain = photo.state() == PhotoState.SET_ASIDE
                    && ONLY_OF_WHAT_IS_FILED.stream().anyMatch(arguments::has)
                    && !outbox.overview().pending(photo.photo()).undecided();
            if (inVain) {
                terminal.err()
                        .println(
                                "vestibule settle: %s: it is set aside, and what was said does not change that; say its view with --view if it is to be filed."
                                        .formatted(photo.name()));
            }
            attention |= inVain || photo.state() == PhotoState.NEEDS_ATTENTION;
            for (Withdrawals.Open open : outbox.withdrawals().open(Optional.of(photo.photo()))) {
                terminal.out().println(TakingBack.sentence(open, rejection));
            }
        }
        return attention ? Exit.FINDINGS : Exit.FINE;
    }

    private static String why(Overview.Photograph photo) {
        return photo.message()
                .map(message -> "  " + photo.reason().orElse("") + "  " + message)
                .or(() -> photo.aside().map(aside -> "  " + aside))
                .orElse("");
    }
}
