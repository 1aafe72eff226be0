package vestibule.bridge.app;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.Optional;
import java.util.stream.Stream;
import vestibule.bridge.archive.EmbeddedArchive;
import vestibule.bridge.patient.Patient;
import vestibule.dicom.data.PersonName;
import vestibule.dicom.net.AeTitle;

/**
 * A folder with the settings, the home and the card of a practice, and the commands as run there.
 *
 * @param folder holds {@code vestibule.toml}, {@code home} and {@code card}; an archive of its own keeps its objects in {@code archive}
 */
record PracticeFolder(Path folder) {

    /** The two patients of {@link #dayList}. */
    static final Patient ZOE = patient("PG-0001", "Exempel^Zoë^Åsa", LocalDate.of(1987, 2, 28));

    static final Patient HANAKO = patient("PG-0005", "Mihon^Hanako", LocalDate.of(2000, 2, 29));

    /** Settings of the samples' camera, for pictures of the samples' own day that are taken in at any time. */
    static final String CLOCK_IS_RIGHT = "[cameras.clocks]\n\"C2007781\" = \"+00:00:00\"\n";

    private static Patient patient(String id, String name, LocalDate born) {
        return new Patient(
                id,
                Optional.of("PAINTED-GATE"),
                PersonName.parse(name).orElseThrow(),
                Optional.of(born),
                Optional.of("F"));
    }

    /** A clock that goes on from that moment, as on the evening of the day on which pictures were taken. */
    static Clock clockOf(Instant moment) {
        Clock now = Clock.systemUTC();
        return Clock.offset(now, Duration.between(now.instant(), moment));
    }

    /** The practice's settings from here on. */
    void settings(String text) throws IOException {
        Files.writeString(folder.resolve("vestibule.toml"), text);
    }

    /** A list of the day's patients with two of the invented practice; the file it is in. */
    Path dayList() throws IOException {
        return Files.writeString(folder.resolve("today.csv"), """
                patient-id,issuer,name,birth-date,sex
                PG-0001,PAINTED-GATE,Exempel^Zoë^Åsa,1987-02-28,F
                PG-0005,PAINTED-GATE,Mihon^Hanako,2000-02-29,F
                """);
    }

    Ran run(Command command, String... words) {
        return Ran.command(
                command,
                Stream.concat(
                                Stream.of(words),
                                Stream.of(
                                        "--home",
                                        folder.resolve("home").toString(),
                                        "--config",
                                        folder.resolve("vestibule.toml").toString()))
                        .toArray(String[]::new));
    }

    /** An archive of its own, on a free port. */
    static EmbeddedArchive archive(Path folder) throws IOException {
        return EmbeddedArchive.start(
                folder.resolve("archive"),
                new InetSocketAddress(InetAddress.getLoopbackAddress(), 0),
                new AeTitle("ARCHIVE"));
    }

    /** Takes the card in. */
    Ran intake(Understanding understanding, Clock clock) {
        return run(
                new IntakeCommand(understanding, clock, time -> new Bell().await(time)),
                folder.resolve("card").toString());
    }

    /** Serves until nothing is on its way to the archive at that port. */
    Ran serve(Understanding understanding, Clock clock, int port) {
        return run(
                new RunCommand(understanding, clock),
                "--until-idle",
                "--to",
                "dicom://127.0.0.1:%d/ARCHIVE".formatted(port));
    }
}
