package vestibule.bridge.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import vestibule.bridge.outbox.PhotoState;
import vestibule.bridge.settings.Settings;
import vestibule.conformance.fault.CrashHarness;
import vestibule.conformance.fault.HeldObject;
import vestibule.conformance.fault.Oracle;
import vestibule.conformance.fault.Photographs;
import vestibule.conformance.fault.ScriptedArchive;
import vestibule.conformance.fault.SourcePhotos;

/** The program in processes of its own, with all its understanding: a home, a folder that is watched, and settings. */
final class RealRun {

    /** What the system says of a process that was killed: 128 and the number of the signal. */
    static final int KILLED = 128 + 9;

    /** As the names of folders say it. */
    private static final Map<String, String> PATIENTS = Map.of(
            Mixture.PATIENTS.get(0), "Exempel_Zoe_1987-02-28",
            Mixture.PATIENTS.get(1), "Echantillon_Lea_1951-12-09");

    private static final Duration PATIENCE = Duration.ofMinutes(2);
    private static final CrashHarness PROGRAM = CrashHarness.ofClass("vestibule.bridge.app.Main");

    private final Path folder;
    private final Path card;
    private final Path settings;
    private final Map<String, List<String>> lines = new LinkedHashMap<>();
    private int next;

    private RealRun(Path folder) {
        this.folder = folder;
        this.card = folder.resolve("card");
        this.settings = folder.resolve("vestibule.toml");
    }

    /** In that folder, for that archive. */
    static RealRun in(Path folder, String archive) throws IOException {
        RealRun real = new RealRun(folder.toRealPath());
        Files.createDirectories(real.card);
        return real.with("home", "folder = \"%s\"".formatted(real.home()))
                .with("home", "reserve = \"1 MB\"")
                .with("intake", "folders = [\"%s\"]".formatted(real.card))
                .with("intake", "settle = \"1 ms\"")
                .with("archive", "url = \"%s\"".formatted(archive))
                .with("archive", "commitment-deadline = \"3 s\"")
                .with("patients", "names = [\"{id}_{family}_{given}_{birth}/**\"]")
                .with("patients", "ask-archive = false")
                .with("views", "mirror = \"front\"")
                .with("service", "port = 0")
                .with("service", "level = \"debug\"");
    }

    /** With one more line of settings. */
    RealRun with(String section, String line) throws IOException {
        lines.computeIfAbsent(section, name -> new ArrayList<>()).add(line);
        return written();
    }

    /** Without the lines that begin so. */
    RealRun without(String section, String key) throws IOException {
        lines.getOrDefault(section, new ArrayList<>()).removeIf(line -> line.startsWith(key + " "));
        return written();
    }

    private RealRun written() throws IOException {
        StringBuilder text = new StringBuilder();
        lines.forEach((name, all) -> text.append("[%s]\n".formatted(name))
                .append(String.join("\n", all))
                .append('\n'));
        Files.writeString(settings, text);
        return this;
    }

    Path home() {
        return folder.resolve("home");
    }

    Path card() {
        return card;
    }

    /** New photographs on the card, as {@link Mixture} says. */
    void photographs(int count) throws IOException {
        photographsFrom(next, count);
    }

    /** The same, with pictures and names that begin at that number. */
    void photographsFrom(int first, int count) throws IOException {
        next = first;
        for (int i = 0; i < count; i++) {
            String patient = Mixture.patientOf(next);
            Path images = card.resolve("%s_%s/%d".formatted(patient, PATIENTS.get(patient), next / 100));
            Files.createDirectories(images);
            String view = Mixture.isByMirror(next) ? "occlusal-maxillary-mirror" : "teeth-front-occlusion";
            Path file = images.resolve("%05d_%s.JPG".formatted(next, view));
            Files.write(folder.resolve("next"), Photographs.jpeg(next, 40));
            Files.move(folder.resolve("next"), file);
            next++;
        }
    }

    /** Starts the service. */
    CrashHarness.Run serve(String... more) throws IOException {
        return start("run", more);
    }

    /** Runs another command to its end; what it said. */
    CrashHarness.Run ended(String command, String... more) throws IOException, InterruptedException {
        CrashHarness.Run run = start(command, more);
        assertThat(run.awaitExit(PATIENCE)).as("%s", run.lines()).isPresent();
        return run;
    }

    /** Takes the folder in by command. */
    CrashHarness.Run intake() throws IOException {
        return start("intake", card.toString());
    }

    private CrashHarness.Run start(String command, String... more) throws IOException {
        List<String> words = new ArrayList<>(List.of(command, "--config", settings.toString()));
        words.addAll(List.of(more));
        return PROGRAM.start(words);
    }

    /** Takes in what is left, and serves until nothing is on its way. */
    void finish() throws IOException, InterruptedException {
        takeIn(card);
        try (CrashHarness.Run run = serve("--until-idle")) {
            assertThat(run.awaitExit(PATIENCE)).as("%s", run.lines()).contains(0);
        }
    }

    /** Takes in what is left on the card of a node that does not come back. */
    void finishFor(RealRun other) throws IOException, InterruptedException {
        takeIn(other.card);
    }

    /** All is safe then; a node that died may hold for some time what is to be decided, and then whoever serves next decides it. */
    private void takeIn(Path from) throws IOException, InterruptedException {
        try (CrashHarness.Run intake = start("intake", from.toString())) {
            assertThat(intake.awaitExit(PATIENCE))
                    .as("%s", intake.lines())
                    .isIn(Optional.of(Exit.FINE.code()), Optional.of(Exit.TRY_LATER.code()));
        }
    }

    /** How many photographs are in each state. */
    Map<PhotoState, Integer> counts() throws Exception {
        try (Keeping keeping = Keeping.open(home(), Settings.read(settings), Clock.systemUTC())) {
            return keeping.outbox().overview().counts();
        }
    }

    /** Everything is committed, and the judge finds nothing wrong. */
    void judge(String what, ScriptedArchive archive) throws Exception {
        judge(what, archive, List.of(), home().resolve("originals"));
    }

    /**
     * The same for several nodes.
     *
     * @param others nodes on the same database
     * @param originals where all of them keep originals
     */
    void judge(String what, ScriptedArchive archive, List<RealRun> others, Path originals) throws Exception {
        judge(
                what,
                new Oracle.Archived(archive.held().values(), Optional.of(archive.promised())),
                PhotoState.COMMITTED,
                others,
                originals);
    }

    /** Everything is in that state, and the judge finds nothing wrong with what an archive holds that is not ours. */
    void judge(String what, Collection<HeldObject> held, PhotoState state) throws Exception {
        judge(what, new Oracle.Archived(held, Optional.empty()), state, List.of(), home().resolve("originals"));
    }

    private void judge(String what, Oracle.Archived archived, PhotoState state, List<RealRun> others, Path originals)
            throws Exception {
        List<SourcePhotos> sources = new ArrayList<>(List.of(Mixture.on(card)));
        List<Path> homes = new ArrayList<>(List.of(home()));
        for (RealRun other : others) {
            sources.add(Mixture.on(other.card));
            homes.add(other.home());
        }
        try (Keeping keeping = Keeping.open(home(), Settings.read(settings), Clock.systemUTC())) {
            Oracle.Account account = Bench.account(keeping, homes, originals);
            Oracle.Verdict verdict = Oracle.judge(sources, account, archived);
            assertThat(verdict.clean()).as("%s: %s", what, verdict).isTrue();
            assertThat(account.states())
                    .as(what)
                    .hasSize(sources.stream()
                            .mapToInt(source -> source.photos().size())
                            .sum())
                    .allSatisfy((photo, is) -> assertThat(is).isEqualTo(state.word()));
        }
    }
}
