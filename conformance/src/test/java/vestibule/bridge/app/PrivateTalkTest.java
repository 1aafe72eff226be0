package vestibule.bridge.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import vestibule.conformance.fault.CrashHarness.Run;
import vestibule.conformance.fault.HeldObject;
import vestibule.conformance.fault.ScanHash;
import vestibule.conformance.fault.Script;
import vestibule.conformance.fault.ScriptedArchive;
import vestibule.conformance.job.CanaryPhotograph;
import vestibule.dicom.service.CommitmentRequest;
import vestibule.dicom.service.SopReference;

@DisplayName(
        "No patient's name, id or birth date, and nothing a camera noted, in a log or in the file for somebody who helps")
@Timeout(180)
class PrivateTalkTest {

    private static final List<String> PRIVATE = List.of(
            "Exempel",
            "EXEMPEL",
            "PG-000",
            "1987-02-28",
            "19870228",
            "Echantillon",
            "ECHANTILLON",
            "1951-12-09",
            "19511209",
            "Vzorek",
            "Room of Jan");
    private static final long SEED = Long.getLong("vestibule.seed", 20_261_125L);
    private static final Duration PATIENCE = Duration.ofMinutes(1);

    @TempDir
    Path folder;

    /** An archive that repeats whose photograph it is in everything it says, and accepts, refuses and swallows by turns. */
    private static final class Gossip implements Script {
        @Override
        public Reception store(HeldObject object, int number) {
            int[] statuses = {0, 0xB000, 0xA700, 0x0110, 0xC123};
            return number == 2
                    ? Reception.ANSWER_EATEN
                    : new Reception(
                            statuses[number % statuses.length],
                            "Exempel^Zoe PG-0001 19870228",
                            number % statuses.length < 2,
                            true,
                            number % 7 == 1 ? Optional.of("Vzorek") : Optional.empty());
        }

        @Override
        public Promise commit(CommitmentRequest request, List<SopReference> held, int number) {
            return number % 2 == 0 ? Promise.refused(0x0110) : Promise.truth(request, held, Way.SAME_ASSOCIATION);
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"text", "json"})
    @DisplayName("whatever happens to the photographs, and however much is logged")
    void nothing(String form) throws Exception {
        List<String> talk = new ArrayList<>();
        CanaryPhotograph canary = new CanaryPhotograph(SEED);
        byte[] noted = canary.ordinaryFile();
        try (ScriptedArchive archive = ScriptedArchive.start(new Gossip())) {
            RealRun real = RealRun.in(folder, archive.url()).with("service", "log = \"%s\"".formatted(form));
            real.photographs(9);
            Files.write(firstPhotograph(real).resolveSibling("00099_teeth-front-occlusion.JPG"), noted);
            Files.writeString(real.card().resolve("Exempel_Zoe_notes.JPG"), "PG-0001 Exempel");
            Path nobody = Files.createDirectories(real.card().resolve("Room of Jan Vzorek"));
            Files.copy(firstPhotograph(real), nobody.resolve("Vzorek_1987-02-28.JPG"));
            try (Run run = real.serve()) {
                assertThat(run.await(line -> line.contains("received N_ACTION_RSP"), PATIENCE))
                        .as("%s", run.lines())
                        .isTrue();
                archive.goDown();
                assertThat(run.await(line -> line.contains("delivery stopped"), PATIENCE))
                        .as("%s", run.lines())
                        .isTrue();
                assertThat(run.askToEnd()).isTrue();
                assertThat(run.awaitExit(PATIENCE)).isPresent();
                talk.addAll(run.lines());
            }
            Path bundle = folder.resolve("help.zip");
            try (Run said = real.ended("settle", "00000_teeth-front-occlusion.JPG", "--retry", "--by", "Jan Vzorek");
                    Run status = real.ended("status");
                    Run support = real.ended("support", "--out", bundle.toString())) {
                assertThat(String.join(" ", said.lines()) + status.lines())
                        .contains("teeth-front-occlusion")
                        .doesNotContain(canary.word());
                assertThat(support.awaitExit(PATIENCE)).contains(0);
            }
            assertThat(talk)
                    .anyMatch(line -> line.contains("C_STORE_RSP"))
                    .anyMatch(line -> line.contains("DEBUG"))
                    .as("the photograph with a word in every place (seed %d) went through", SEED)
                    .anyMatch(line -> line.contains(ScanHash.sha256(noted) + ": taken in"));
            clean(talk, canary.word());
            List<String> inside = unpacked(bundle);
            assertThat(inside)
                    .hasSizeGreaterThan(30)
                    .anyMatch(line -> line.startsWith("photographs needs-attention: "));
            clean(inside, canary.word());
        }
    }

    private static Path firstPhotograph(RealRun real) {
        return real.card().resolve("PG-0001_Exempel_Zoe_1987-02-28/0/00000_teeth-front-occlusion.JPG");
    }

    private static void clean(List<String> lines, String noted) {
        List<String> words = new ArrayList<>(PRIVATE);
        words.add(noted);
        for (String word : words) {
            assertThat(lines).as(word).noneMatch(line -> line.contains(word));
        }
    }

    private static List<String> unpacked(Path bundle) throws IOException {
        List<String> lines = new ArrayList<>();
        try (ZipInputStream zip = new ZipInputStream(Files.newInputStream(bundle))) {
            for (ZipEntry entry = zip.getNextEntry(); entry != null; entry = zip.getNextEntry()) {
                lines.add(entry.getName());
                lines.addAll(new String(zip.readAllBytes(), StandardCharsets.UTF_8)
                        .lines()
                        .toList());
            }
        }
        return lines;
    }
}
