package vestibule.bridge.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDateTime;
import java.util.Optional;
import java.util.stream.Stream;
import vestibule.bridge.outbox.Overview;
import vestibule.bridge.patient.Patient;
import vestibule.bridge.settings.Settings;
import vestibule.samples.PhotoSize;
import vestibule.samples.Samples;

/** A reader for memory cards, in a practice with a day list, and what is put into it on one morning. */
record CardFolder(Path folder) {

    /** It goes on from the evening of that day. */
    static final Clock CLOCK = PracticeFolder.clockOf(Instant.parse("2026-11-25T18:00:00Z"));

    static final Understanding WORKSHOP = new Workshop(CLOCK);
    private static final String SAMPLE = "hanako-face-front-smile";
    private static final String MORNING = "2026-11-25";

    /** In a practice of those settings of patients. */
    static CardFolder in(Path folder, String patients) throws IOException {
        PracticeFolder practice = new PracticeFolder(folder);
        practice.settings("""
                [home]
                reserve = "1 MB"
                [intake]
                settle = "1 ms"
                [practice]
                zone = "UTC"
                [patients]
                day-list = '%s'
                ask-archive = false
                %s
                """.formatted(practice.dayList(), patients));
        return new CardFolder(folder);
    }

    /** With that time of day in the camera's notes, in the place of the one that was there. */
    static byte[] taken(byte[] bytes, String time) {
        return CardPictures.taken(bytes, LocalDateTime.parse(MORNING + "T" + time));
    }

    static byte[] card(Patient who, String time) throws IOException {
        return taken(CardPictures.like(SAMPLE, who, false), time);
    }

    static byte[] photo(String time) throws IOException {
        return taken(Samples.jpeg(Samples.photo(SAMPLE), PhotoSize.THUMBNAIL), time);
    }

    void put(String name, byte[] bytes, String time) throws IOException {
        Path file = folder.resolve(name);
        Files.createDirectories(file.resolveSibling(""));
        Files.write(file, bytes);
        Files.setLastModifiedTime(file, FileTime.from(Instant.parse(MORNING + "T" + time + ":00Z")));
    }

    /** Another memory card lies there, an empty one so far. */
    void takeOut(String source) throws IOException {
        try (Stream<Path> files = Files.list(folder.resolve(source))) {
            for (Path file : files.toList()) {
                Files.delete(file);
            }
        }
    }

    Ran intake(String source) {
        return new PracticeFolder(folder)
                .run(
                        new IntakeCommand(WORKSHOP, CLOCK, time -> new Bell().await(time)),
                        folder.resolve(source).toString());
    }

    void settle(String... words) {
        assertThat(new PracticeFolder(folder)
                        .run(new SettleCommand(WORKSHOP, CLOCK), words)
                        .exit())
                .isEqualTo(Exit.FINE.code());
    }

    /** The patient that a photograph is decided to be of, or why a person has to say. */
    String whose(String name) throws Exception {
        Settings settings = Settings.read(folder.resolve("vestibule.toml"));
        try (Keeping keeping = Keeping.openExisting(folder.resolve("home"), settings, CLOCK)) {
            Overview overview = keeping.outbox().overview();
            Overview.Photograph photograph = overview.named(name).get(0);
            Optional<String> decision = overview.decision(photograph.photo());
            return photograph.reason().isPresent() || decision.isEmpty()
                    ? photograph.reason().orElse("undecided")
                    : DecisionText.read(decision.get()).patient().orElseThrow().id();
        }
    }
}
