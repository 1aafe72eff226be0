package vestibule.bridge.app;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.Clock;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.apache.commons.cli.Options;
import vestibule.bridge.outbox.Outbox;
import vestibule.bridge.outbox.Overview;
import vestibule.bridge.outbox.PhotoState;
import vestibule.bridge.settings.Archive;
import vestibule.bridge.settings.Running;
import vestibule.bridge.settings.Settings;

/**
 * What somebody who helps needs to know, in one file without patient data: what may enter is named here piece by piece, rather than taking
 * everything and leaving out what is private. No name of a file, folder or person, no decision and no sentence of an archive gets in.
 */
final class SupportCommand implements Command {

    private final Clock clock;

    SupportCommand(Clock clock) {
        this.clock = clock;
    }

    @Override
    public String name() {
        return "support";
    }

    @Override
    public String syntax() {
        return "--out FILE.zip [--home DIR]";
    }

    @Override
    public String summary() {
        return "one file for somebody who helps, without patient data";
    }

    @Override
    public Options options() {
        Options options = Homes.with(new Options());
        options.addOption(Given.value("out", "FILE", "where it goes; must not be there yet"));
        return options;
    }

    @Override
    public Exit run(Arguments arguments, Terminal terminal) throws Failure, IOException {
        Path out = Arguments.path("--out", arguments.required("out"));
        WrapCommand.checkTarget("--out", out);
        Settings settings = SettingsFile.of(arguments);
        try (Keeping keeping = Keeping.openExisting(Keeping.folder(arguments, settings), settings, clock);
                OutputStream file = Files.newOutputStream(out, StandardOpenOption.CREATE_NEW);
                ZipOutputStream zip = new ZipOutputStream(file, StandardCharsets.UTF_8)) {
            put(zip, "program.txt", program());
            put(zip, "settings.txt", settings(settings.running()));
            put(zip, "counts.txt", counts(keeping.outbox()));
            put(zip, "history.txt", history(keeping.outbox()));
        }
        terminal.out().println(out);
        return Exit.FINE;
    }

    private static void put(ZipOutputStream zip, String name, String text) throws IOException {
        zip.putNextEntry(new ZipEntry(name));
        zip.write(text.getBytes(StandardCharsets.UTF_8));
        zip.closeEntry();
    }

    private String program() {
        StringBuilder text = new StringBuilder("made: %s\nversion: %s\n".formatted(clock.instant(), Main.version()));
        for (String property : List.of("java.version", "java.vendor", "os.name", "os.version", "os.arch")) {
            text.append("%s: %s\n".formatted(property, System.getProperty(property, "?")));
        }
        return text.append("heap: %d MB\n".formatted(Runtime.getRuntime().maxMemory() >> 20))
                .toString();
    }

    /** Numbers, words from closed lists, and whether something is set; no text of the practice's own. */
    private static String settings(Running running) {
        Map<String, Object> values = new TreeMap<>();
        Archive archive = running.archive();
        values.put("archive.associations", archive.associations());
        values.put("archive.commitment-deadline", archive.deadline());
        values.put("archive.proof", archive.proof());
        values.put("archive.url", archive.url().isPresent() ? "set" : "not set");
        values.put("home.database", running.home().database().isPresent() ? "PostgreSQL" : "SQLite");
        values.put(
                "home.keep-copies",
                running.home().keepCopies().map(Object::toString).orElse("for ever"));
        values.put("home.reserve", running.home().reserve());
        values.put("intake.folders", running.intake().folders().size());
        values.put("intake.hangs", running.intake().hangs());
        values.put("intake.leave-alone", running.intake().leaveAlone().size());
        values.put("intake.rescan", running.intake().rescan());
        values.put("intake.settle", running.intake().settle());
        StringBuilder text = new StringBuilder();
        values.forEach((key, value) -> text.append("%s: %s\n".formatted(key, value)));
        return text.toString();
    }

    private static String counts(Outbox outbox) throws IOException {
        StringBuilder text = new StringBuilder();
        Map<PhotoState, Integer> counts = outbox.overview().counts();
        for (PhotoState state : PhotoState.values()) {
            text.append("photographs %s: %d\n".formatted(state.word(), counts.getOrDefault(state, 0)));
        }
        outbox.overview().objects().forEach((state, count) -> text.append("objects %s: %d\n".formatted(state, count)));
        text.append(
                "commitment requests open: %d\n".formatted(outbox.commitments().open()));
        int number = 0;
        for (Overview.Source source : outbox.overview().sources()) {
            number++;
            Overview.Fate fate = outbox.overview().fate(source.name());
            text.append("source %d: %s, %s, %d left behind, looked at %s, trouble %s\n"
                    .formatted(
                            number,
                            Counted.of(fate.photos(), "photograph"),
                            fate.copies() + (fate.copies() == 1 ? " copy" : " copies"),
                            fate.leftBehind(),
                            source.lookedAt().map(Object::toString).orElse("never"),
                            source.trouble().isPresent() ? "yes" : "no"));
        }
        return text.toString();
    }

    /** Times and states of the latest changes; photographs by the first characters of their hash, causes left out but for their kind. */
    private static String history(Outbox outbox) throws IOException {
        StringBuilder text = new StringBuilder();
        for (Overview.Event event : outbox.overview().latest(5_000)) {
            text.append("%s %s %s -> %s %s\n"
                    .formatted(
                            event.at(),
                            event.photo().substring(0, 12),
                            event.before().orElse("-"),
                            event.after(),
                            kind(event.cause())));
        }
        return text.toString();
    }

    /** The beginning of a cause, up to where a peer's or a person's words may follow. */
    private static String kind(String cause) {
        return cause.split("[:(]", 2)[0].strip();
    }
}
