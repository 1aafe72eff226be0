package vestibule.bridge.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import vestibule.conformance.fault.CrashHarness.Run;
import vestibule.conformance.fault.ScriptedArchive;

@DisplayName("The program as it is delivered, killed without warning at any stage, again and again")
@Timeout(7200)
class KillsTest {

    private static final int IN_ONE_HOME = 20;
    private static final int EACH = 3;
    private static final Duration PATIENCE = Duration.ofMinutes(1);
    private static final Duration READY = Duration.ofSeconds(5);

    @TempDir
    Path folder;

    @Test
    @DisplayName("everything arrives, once, and the one who starts next finds nothing in its way")
    void kills() throws Exception {
        int count = Campaign.count("kills", 7, 1000);
        Random random = Campaign.random("kills");
        Map<Stage, Integer> reached = new EnumMap<>(Stage.class);
        int photos = 0;
        for (int done = 0; done < count; done += IN_ONE_HOME) {
            photos += oneHome(stages(Math.min(IN_ONE_HOME, count - done), done, random), random, reached);
        }
        Campaign.figures(
                "kills", "%d kills, %d photographs, all committed once; reached %s".formatted(count, photos, reached));
    }

    /** Every stage as often as any other, in an order of chance. */
    private static List<Stage> stages(int count, int from, Random random) {
        List<Stage> all = List.of(Stage.values());
        List<Stage> stages = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            stages.add(all.get((from + i) % all.size()));
        }
        Collections.shuffle(stages, random);
        return stages;
    }

    private int oneHome(List<Stage> stages, Random random, Map<Stage, Integer> reached) throws Exception {
        Path here = Files.createTempDirectory(folder, "kills");
        Deadly script = new Deadly();
        try (ScriptedArchive archive = ScriptedArchive.start(script)) {
            RealRun real = RealRun.in(here, archive.url());
            for (Stage stage : stages) {
                real.photographs(EACH);
                if (kill(stage, real, script, random)) {
                    reached.merge(stage, 1, Integer::sum);
                }
            }
            real.finish();
            real.judge("after " + stages, archive);
        }
        int photos = stages.size() * EACH;
        Proof.delete(here);
        return photos;
    }

    /** Kills at that stage; false if the program had done with it before. */
    private static boolean kill(Stage stage, RealRun real, Deadly script, Random random) throws Exception {
        try (Run run = stage.command() == Stage.Command.INTAKE ? real.intake() : real.serve()) {
            switch (stage) {
                case STARTING, TAKING_IN_BY_COMMAND -> run.killAfter(Duration.ofMillis(200 + random.nextInt(1200)));
                case SERVING -> {
                    run.await(line -> line.startsWith("serving"), PATIENCE);
                    run.killAfter(Duration.ofMillis(random.nextInt(1500)));
                }
                case TAKEN_IN -> run.killOn(line -> line.contains(": taken in"));
                case STORED -> script.onStore(run::kill, random.nextInt(Mixture.objects(0, EACH)));
                case ASKED_TO_COMMIT -> script.onCommit(run::kill);
                case REPORTED -> run.killOn(line -> line.contains("commitment report from"));
            }
            boolean dead = run.awaitExit(PATIENCE).isPresent();
            script.disarm();
            assertThat(dead).as("killed at %s: %s", stage, run.lines()).isTrue();
            return run.awaitExit(PATIENCE).equals(java.util.Optional.of(RealRun.KILLED));
        }
    }

    @Test
    @DisplayName("with thousands of photographs in the store it is ready again at once after being killed")
    void readyAgain() throws Exception {
        int count = Campaign.count("stored", 150, 10_000);
        try (ScriptedArchive archive = ScriptedArchive.start(vestibule.conformance.fault.Script.HEALTHY)) {
            RealRun real = RealRun.in(folder, archive.url());
            archive.goDown();
            real.photographs(count);
            try (Run intake = real.intake()) {
                assertThat(intake.awaitExit(Duration.ofMinutes(20)))
                        .as("%s", intake.lines())
                        .contains(0);
            }
            try (Run first = real.serve()) {
                assertThat(first.await(line -> line.startsWith("serving"), PATIENCE))
                        .as("%s", first.lines())
                        .isTrue();
                first.kill();
            }
            long before = System.nanoTime();
            try (Run again = real.serve()) {
                assertThat(again.await(line -> line.startsWith("monitor on "), PATIENCE))
                        .as("%s", again.lines())
                        .isTrue();
                HttpResponse<String> ready = get(monitor(again) + "/health/ready");
                long millis = (System.nanoTime() - before) / 1_000_000;
                assertThat(ready.statusCode()).as(ready.body()).isEqualTo(200);
                assertThat(get(monitor(again) + "/metrics").body())
                        .contains("vestibule_photos{state=\"waiting\"} " + count);
                // An ordinary run shares its machine with everything else, so only the full count is held to a time
                assertThat(Campaign.isFull("stored") ? Duration.ofMillis(millis) : Duration.ZERO)
                        .as("from the start of the program until it is ready again")
                        .isLessThan(READY);
                Campaign.figures(
                        "stored", "ready again %d ms after the start, %d photographs".formatted(millis, count));
            }
        }
    }

    private static String monitor(Run run) {
        String line = run.lines().stream()
                .filter(one -> one.startsWith("monitor on "))
                .findFirst()
                .orElseThrow();
        return line.substring("monitor on ".length());
    }

    private static HttpResponse<String> get(String url) throws IOException, InterruptedException {
        return HttpClient.newHttpClient()
                .send(HttpRequest.newBuilder(URI.create(url)).build(), HttpResponse.BodyHandlers.ofString());
    }
}
