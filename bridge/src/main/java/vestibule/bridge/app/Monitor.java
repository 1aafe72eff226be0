package vestibule.bridge.app;

import com.sun.net.httpserver.HttpExchange;
import com.sun.net.httpserver.HttpServer;
import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.util.Map;
import java.util.OptionalLong;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import vestibule.bridge.outbox.Outbox;
import vestibule.bridge.outbox.PhotoState;

/** What machines may ask of the running service, on the loopback address only: {@code /health/live}, {@code /health/ready}, {@code /metrics}. */
final class Monitor implements AutoCloseable {

    private static final Logger LOG = LoggerFactory.getLogger(Monitor.class);
    private static final int OK = 200;
    private static final int NOT_ALLOWED = 405;
    private static final int UNAVAILABLE = 503;
    private static final String JSON = "application/json";
    /** The text format of Prometheus, version 0.0.4. */
    private static final String METRICS = "text/plain; version=0.0.4; charset=utf-8";

    private final HttpServer server;
    private final ExecutorService threads;
    private final Service service;
    private final Clock clock;

    private interface Page {
        Answer answer() throws IOException;
    }

    private record Answer(int status, String type, String body) {}

    private Monitor(HttpServer server, Service service, Clock clock) {
        this.server = server;
        this.service = service;
        this.clock = clock;
        this.threads = Executors.newFixedThreadPool(2, task -> {
            Thread thread = new Thread(task, "monitor");
            thread.setDaemon(true);
            return thread;
        });
    }

    /** Starts to answer; port 0 for any free one. */
    static Monitor start(Service service, int port, Clock clock) throws IOException {
        HttpServer server = HttpServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), port), 8);
        Monitor monitor = new Monitor(server, service, clock);
        monitor.offer("/health/live", monitor::live);
        monitor.offer("/health/ready", monitor::ready);
        monitor.offer("/metrics", monitor::metrics);
        server.setExecutor(monitor.threads);
        server.start();
        return monitor;
    }

    int port() {
        return server.getAddress().getPort();
    }

    private void offer(String path, Page page) {
        server.createContext(path, exchange -> serve(exchange, page));
    }

    private static void serve(HttpExchange exchange, Page page) throws IOException {
        try (exchange) {
            Answer answer;
            if (!exchange.getRequestMethod().equals("GET")) {
                answer = new Answer(NOT_ALLOWED, JSON, "{}");
            } else {
                try {
                    answer = page.answer();
                } catch (IOException e) {
                    LOG.warn("the monitor could not answer: {}", e.getMessage());
                    answer = new Answer(UNAVAILABLE, JSON, "{\"ready\":false}");
                }
            }
            byte[] body = answer.body().getBytes(StandardCharsets.UTF_8);
            exchange.getResponseHeaders().set("Content-Type", answer.type());
            exchange.sendResponseHeaders(answer.status(), body.length);
            exchange.getResponseBody().write(body);
        }
    }

    private Answer live() {
        boolean live = service.isLive();
        return new Answer(live ? OK : UNAVAILABLE, JSON, "{\"live\":%s}".formatted(live));
    }

    /** Ready to take photographs in: whether the archive is there is another question, which does not stop that. */
    private Answer ready() throws IOException {
        service.keeping().outbox().overview().counts();
        boolean full = service.isFull();
        boolean ready = service.isLive() && service.hanging() == 0 && !full;
        return new Answer(
                ready ? OK : UNAVAILABLE,
                JSON,
                "{\"ready\":%s,\"archiveReachable\":%s,\"sourcesHanging\":%d,\"diskFull\":%s}"
                        .formatted(ready, service.archiveFailures() == 0, service.hanging(), full));
    }

    private Answer metrics() throws IOException {
        Outbox outbox = service.keeping().outbox();
        Metrics metrics = new Metrics();
        Map<PhotoState, Integer> counts = outbox.overview().counts();
        metrics.gauge("vestibule_photos", "Photographs by state.");
        for (PhotoState state : PhotoState.values()) {
            metrics.value("vestibule_photos", "state", state.word(), counts.getOrDefault(state, 0));
        }
        metrics.gauge("vestibule_objects", "DICOM objects by how far they have come.");
        outbox.overview()
                .objects()
                .forEach((state, count) -> metrics.value("vestibule_objects", "state", state, count));
        OptionalLong oldest = outbox.overview().oldestWaiting();
        metrics.single(
                "vestibule_oldest_waiting_seconds",
                "Age of the photograph that waits longest.",
                oldest.isPresent() ? Math.max(0, clock.millis() - oldest.getAsLong()) / 1000.0 : 0);
        metrics.single(
                "vestibule_commitments_open",
                "Commitment transactions without a report.",
                outbox.commitments().open());
        metrics.single(
                "vestibule_archive_failures", "Failures to reach the archive in a row.", service.archiveFailures());
        metrics.single("vestibule_sources_hanging", "Sources that do not answer.", service.hanging());
        metrics.single(
                "vestibule_sources_unreached",
                "Sources that are not there, hang, or were not reached as a whole.",
                (double) service.unreached());
        metrics.single(
                "vestibule_disk_full",
                "1 where nothing is taken in, since the disk of the originals is full up to its reserve.",
                service.isFull() ? 1 : 0);
        metrics.single("vestibule_disk_free_bytes", "Free bytes on the disk of the home.", (double)
                service.keeping().folder().toFile().getUsableSpace());
        Runtime runtime = Runtime.getRuntime();
        metrics.single(
                "vestibule_heap_used_bytes", "Heap in use.", (double) (runtime.totalMemory() - runtime.freeMemory()));
        return new Answer(OK, METRICS, metrics.text());
    }

    private static final class Metrics {
        private final StringBuilder text = new StringBuilder();

        void gauge(String name, String help) {
            text.append("# HELP %s %s\n# TYPE %s gauge\n".formatted(name, help, name));
        }

        void value(String name, String label, String word, double value) {
            text.append("%s{%s=\"%s\"} %s\n".formatted(name, label, word, number(value)));
        }

        void single(String name, String help, double value) {
            gauge(name, help);
            text.append("%s %s\n".formatted(name, number(value)));
        }

        private static String number(double value) {
            return value == Math.rint(value) ? Long.toString((long) value) : Double.toString(value);
        }

        String text() {
            return text.toString();
        }
    }

    @Override
    public void close() {
        server.stop(0);
        threads.shutdownNow();
    }
}
