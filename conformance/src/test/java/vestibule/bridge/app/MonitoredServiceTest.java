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
import java.util.List;
import java.util.Optional;
import java.util.concurrent.locks.LockSupport;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import vestibule.bridge.delivery.Destination;
import vestibule.bridge.settings.Settings;
import vestibule.conformance.fault.Photographs;
import vestibule.conformance.fault.Script;
import vestibule.conformance.fault.ScriptedArchive;

@DisplayName("A running service: what its monitor says, who is service, and how long copies stay")
@Timeout(120)
class MonitoredServiceTest {

    @TempDir
    Path folder;

    private final BenchClock clock = new BenchClock();

    private interface Use {
        void of(Service service, Keeping keeping) throws Exception;
    }

    private void serve(String more, Use use) throws Exception {
        Path card = Files.createDirectories(folder.resolve("card"));
        Photographs.card(card, 3, 21, 40);
        Settings settings = Settings.read(Files.writeString(folder.resolve("vestibule.toml"), """
                [home]
                reserve = "1 MB"
                %s
                """.formatted(more)));
        PlainUnderstanding plain = new PlainUnderstanding();
        try (ScriptedArchive archive = ScriptedArchive.start(Script.HEALTHY);
                Keeping keeping = Keeping.open(folder.resolve("home"), settings, clock)) {
            Bench.Site site = Bench.Site.of(folder.resolve("home"), card, archive.address());
            try (Bench bench = Bench.open(site, clock)) {
                assertThat(bench.untilIdle(4)).isTrue();
            }
            Destination to = new Destination("127.0.0.1", archive.address().getPort(), "ARCHIVE", Optional.empty());
            try (Service service =
                    Service.start(keeping, new Service.Parts(settings, to, Bench.TITLE, plain, plain), clock)) {
                use.of(service, keeping);
            }
        }
    }

    private static HttpResponse<String> ask(Monitor monitor, String method, String path) throws Exception {
        return HttpClient.newHttpClient()
                .send(
                        HttpRequest.newBuilder(URI.create("http://127.0.0.1:%d%s".formatted(monitor.port(), path)))
                                .method(method, HttpRequest.BodyPublishers.noBody())
                                .build(),
                        HttpResponse.BodyHandlers.ofString());
    }

    @Test
    @DisplayName(
            "health and metrics, in the text format 0.0.4 of Prometheus: each name with help and type before its values")
    void monitor() throws Exception {
        serve("", (service, keeping) -> {
            try (Monitor monitor = Monitor.start(service, 0, clock)) {
                assertThat(ask(monitor, "GET", "/health/live").body()).isEqualTo("{\"live\":true}");
                assertThat(ask(monitor, "GET", "/health/ready").statusCode()).isEqualTo(200);
                assertThat(ask(monitor, "POST", "/metrics").statusCode()).isEqualTo(405);
                HttpResponse<String> metrics = ask(monitor, "GET", "/metrics");
                assertThat(metrics.headers().firstValue("content-type"))
                        .contains("text/plain; version=0.0.4; charset=utf-8");
                assertThat(metrics.body()).endsWith("\n").contains("vestibule_photos{state=\"committed\"} 3\n");
                List<String> announced = new ArrayList<>();
                for (String line : metrics.body().lines().toList()) {
                    if (line.startsWith("# ")) {
                        assertThat(line).matches("# (HELP [a-z_]+ .+|TYPE [a-z_]+ gauge)");
                        announced.add(line.split(" ", 4)[1] + " " + line.split(" ", 4)[2]);
                    } else {
                        assertThat(line).matches("[a-z_]+(\\{[a-z]+=\"[a-z-]+\"\\})? -?[0-9]+(\\.[0-9]+)?(E-?[0-9]+)?");
                        String name = line.split("[{ ]", 2)[0];
                        assertThat(announced).contains("HELP " + name, "TYPE " + name);
                    }
                }
                assertThat(announced).doesNotHaveDuplicates();
            }
        });
    }

    @Test
    @DisplayName("not ready while the disk is full up to its reserve")
    void full() throws Exception {
        Settings settings = Settings.read(Files.writeString(folder.resolve("vestibule.toml"), """
                [home]
                reserve = "9000000 GB"
                """));
        PlainUnderstanding plain = new PlainUnderstanding();
        try (ScriptedArchive archive = ScriptedArchive.start(Script.HEALTHY);
                Keeping keeping = Keeping.open(folder.resolve("home"), settings, clock)) {
            Destination to = new Destination("127.0.0.1", archive.address().getPort(), "ARCHIVE", Optional.empty());
            try (Service service =
                            Service.start(keeping, new Service.Parts(settings, to, Bench.TITLE, plain, plain), clock);
                    Monitor monitor = Monitor.start(service, 0, clock)) {
                HttpResponse<String> ready = ask(monitor, "GET", "/health/ready");
                assertThat(ready.statusCode()).isEqualTo(503);
                assertThat(ready.body()).contains("\"ready\":false", "\"diskFull\":true");
                assertThat(ask(monitor, "GET", "/metrics").body()).contains("vestibule_disk_full 1\n");
            }
        }
    }

    @Test
    @DisplayName("one service for a home; the next takes over when it is gone")
    void oneService() throws Exception {
        serve("", (service, keeping) -> {
            try (Keeping.Lock first = keeping.lockService().orElseThrow()) {
                assertThat(first.isHeld()).isTrue();
                assertThat(keeping.lockService()).isEmpty();
            }
            try (Keeping.Lock next = keeping.lockService().orElseThrow()) {
                assertThat(next.isHeld()).isTrue();
            }
        });
    }

    @Test
    @DisplayName("copies stay for ever unless settings say otherwise, and then for at least that long after commitment")
    void copies() throws Exception {
        serve("", (service, keeping) -> {
            passUntilKept(service, Duration.ofDays(4000));
            assertThat(kept()).isEqualTo(3);
        });
        serve("keep-copies = \"30 d\"", (service, keeping) -> {
            passUntilKept(service, Duration.ofMinutes(1));
            assertThat(kept()).as("those committed long ago").isZero();
        });
    }

    /** Time passes, and the house has been kept since: until then the service does not count as live. */
    private void passUntilKept(Service service, Duration time) {
        clock.pass(time);
        long end = System.nanoTime() + Duration.ofSeconds(30).toNanos();
        while (!service.isLive() && System.nanoTime() - end < 0) {
            LockSupport.parkNanos(Duration.ofMillis(20).toNanos());
        }
        assertThat(service.isLive()).isTrue();
    }

    private long kept() throws IOException {
        try (var all = Files.walk(folder.resolve("home/originals"))) {
            return all.filter(path -> path.toString().endsWith(".jpg")).count();
        }
    }
}
