package vestibule.conformance.bench;

import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.LockSupport;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import vestibule.conformance.fault.CrashHarness;

/** A service and its archive, each a process of its own, that are measured from outside by what the service's monitor says. */
final class BenchService implements AutoCloseable {

    /** What the guide for administrators says, in megabytes. */
    static final int HEAP = 192;

    /** The embedded archive keeps the heads of all its objects in memory, and is not what is measured. */
    private static final int ARCHIVE_HEAP = 2_048;

    private static final Duration PATIENCE = Duration.ofMinutes(1);
    private static final Duration LONGEST = Duration.ofHours(2);

    private final Path watched;
    private final CrashHarness.Run archive;
    private final CrashHarness.Run service;
    private final URI metrics;
    private final HttpClient http = HttpClient.newHttpClient();
    private int before;

    private BenchService(Path watched, CrashHarness.Run archive, CrashHarness.Run service, URI metrics) {
        this.watched = watched;
        this.archive = archive;
        this.service = service;
        this.metrics = metrics;
    }

    /**
     * What a card took, in seconds.
     *
     * @param takenIn until all its photographs were safe
     * @param deciding from then until the first object was there
     * @param committed from its appearing until the archive took responsibility for all
     */
    record Took(double takenIn, double deciding, double committed, long heapMegabytes) {}

    static BenchService start(Path folder, int megabytes) throws IOException, InterruptedException {
        Path watched = Files.createDirectories(folder.resolve("watched"));
        CrashHarness.Run archive = program(ARCHIVE_HEAP)
                .start(List.of(
                        "archive",
                        "--port",
                        "0",
                        "--folder",
                        folder.resolve("archive").toString()));
        String url = told(archive, "dicom://127\\.0\\.0\\.1:[0-9]+/[A-Z]+");
        Path settings = Files.writeString(
                folder.resolve("vestibule.toml"), """
                [home]
                folder = "%s"
                [intake]
                folders = ["%s"]
                settle = "50 ms"
                [archive]
                url = "%s"
                [patients]
                names = ["*/{id}_{family}_{given}_{birth}/**"]
                ask-archive = false
                [pictures]
                keep-raw = false
                [service]
                port = 0
                """.formatted(folder.resolve("home"), watched, url));
        CrashHarness.Run service = program(megabytes).start(List.of("run", "--config", settings.toString()));
        return new BenchService(
                watched, archive, service, URI.create(told(service, "http://127\\.0\\.0\\.1:[0-9]+") + "/metrics"));
    }

    private static CrashHarness program(int megabytes) {
        return new CrashHarness(
                List.of(
                        Path.of(System.getProperty("java.home", ""), "bin", "java")
                                .toString(),
                        "-Xmx%dm".formatted(megabytes),
                        "-XX:+UseSerialGC",
                        "-Dlogback.configurationFile=logback.xml",
                        "-cp",
                        System.getProperty("java.class.path", ""),
                        "vestibule.bridge.app.Main"),
                Map.of());
    }

    private static String told(CrashHarness.Run run, String form) throws IOException, InterruptedException {
        Pattern pattern = Pattern.compile(form);
        if (!run.await(line -> pattern.matcher(line).find(), PATIENCE)) {
            throw new IOException("it did not start: " + run.lines());
        }
        return run.lines().stream()
                .map(pattern::matcher)
                .filter(Matcher::find)
                .findFirst()
                .orElseThrow()
                .group();
    }

    int archivePort() {
        String url = told(archive);
        return Integer.parseInt(url.substring(url.lastIndexOf(':') + 1, url.lastIndexOf('/')));
    }

    private static String told(CrashHarness.Run archive) {
        Pattern pattern = Pattern.compile("dicom://127\\.0\\.0\\.1:[0-9]+/[A-Z]+");
        return archive.lines().stream()
                .map(pattern::matcher)
                .filter(Matcher::find)
                .findFirst()
                .orElseThrow()
                .group();
    }

    /** A card appears; returns when everything of it is committed. */
    Took take(Path card, int count) throws IOException, InterruptedException {
        long start = System.nanoTime();
        Files.move(card, watched.resolve(card.getFileName()));
        double takenIn = until(start, text -> sum(text, "vestibule_photos") >= before + count);
        double decided = until(start, text -> sum(text, "vestibule_objects") > before);
        double committed =
                until(start, text -> number(text, "vestibule_photos\\{state=\"committed\"\\}") >= before + count);
        before += count;
        long heap = (long) number(ask(), "vestibule_heap_used_bytes") >> 20;
        return new Took(takenIn, decided - takenIn, committed, heap);
    }

    /** The card is pulled out and put where it was. */
    void takenBack(Path card) throws IOException {
        Files.move(watched.resolve(card.getFileName()), card);
    }

    private interface Condition {
        boolean holds(String text);
    }

    private double until(long start, Condition condition) throws IOException, InterruptedException {
        String text = ask();
        while (!condition.holds(text)) {
            if (number(text, "vestibule_photos\\{state=\"needs-attention\"\\}") > 0
                    || System.nanoTime() - start > LONGEST.toNanos()) {
                throw new IOException("it does not come through: " + text + service.lines());
            }
            LockSupport.parkNanos(TimeUnit.MILLISECONDS.toNanos(40));
            text = ask();
        }
        return (System.nanoTime() - start) / 1e9;
    }

    private String ask() throws IOException, InterruptedException {
        return http.send(HttpRequest.newBuilder(metrics).build(), HttpResponse.BodyHandlers.ofString())
                .body();
    }

    private static double number(String text, String name) {
        Matcher line = Pattern.compile("(?m)^" + name + " ([0-9.E]+)$").matcher(text);
        return line.find() ? Double.parseDouble(line.group(1)) : 0;
    }

    private static double sum(String text, String name) {
        return Pattern.compile("(?m)^" + name + "\\{[^}]*\\} ([0-9.E]+)$")
                .matcher(text)
                .results()
                .mapToDouble(found -> Double.parseDouble(found.group(1)))
                .sum();
    }

    @Override
    public void close() {
        service.close();
        archive.close();
    }
}
