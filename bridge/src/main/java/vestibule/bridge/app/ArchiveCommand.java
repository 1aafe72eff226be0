package vestibule.bridge.app;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.CountDownLatch;
import org.apache.commons.cli.Options;
import vestibule.bridge.archive.EmbeddedArchive;
import vestibule.bridge.delivery.Destination;
import vestibule.bridge.delivery.DestinationException;
import vestibule.dicom.data.VR;
import vestibule.dicom.net.AeTitle;
import vestibule.dicom.net.ApplicationEntity;
import vestibule.dicom.net.tls.Tls;

/** The embedded archive, until the program is stopped. */
final class ArchiveCommand implements Command {

    private static final String TITLE = "ARCHIVE";

    @Override
    public String name() {
        return "archive";
    }

    @Override
    public String syntax() {
        return "--port N --folder DIR [--title AE] [--report-to URL] [--destination AE=HOST:PORT]... [--tls]";
    }

    @Override
    public String summary() {
        return "an embedded archive on this computer, for demonstration and tests only";
    }

    @Override
    public Options options() {
        return Given.all(
                Given.value("port", "N", "TCP port on the loopback address; 0 for any free one"),
                Given.value("folder", "DIR", "where objects are kept; made if it is not there"),
                Given.value("title", "AE", "the AE title it answers to; else " + TITLE),
                Given.value(
                        "report-to",
                        "URL",
                        "commitment reports for the caller dicom://HOST:PORT/AE go there, on an association of its own"),
                Given.value(
                        "destination",
                        "AE=HOST:PORT",
                        "where a C-MOVE to that AE title sends objects; may be repeated; no other is served"),
                Given.flag("tls", "callers must use TLS; the certificate is that of the settings"),
                Given.value("config", "FILE", "settings; else vestibule.toml if it is here"));
    }

    @Override
    public Exit run(Arguments arguments, Terminal terminal) throws Failure, IOException {
        if (!arguments.words().isEmpty()) {
            throw new Failure(Exit.USAGE, "archive takes no words; see --help.");
        }
        arguments.required("port");
        int port = arguments.number("port", 0, 65_535).orElseThrow();
        Path folder = Arguments.path("--folder", arguments.required("folder"));
        String title = arguments.text("title", VR.AE).orElse(TITLE);
        Optional<Tls> tls = arguments.has("tls")
                ? Optional.of(Credentials.server(SettingsFile.of(arguments).tls()))
                : Optional.empty();
        InetSocketAddress address = new InetSocketAddress(InetAddress.getLoopbackAddress(), port);
        CountDownLatch stop = new CountDownLatch(1);
        CountDownLatch ended = new CountDownLatch(1);
        // A signal asks to stop; the program lives on until busy associations have finished their message.
        Runtime.getRuntime().addShutdownHook(new Thread(() -> {
            stop.countDown();
            awaitQuietly(ended);
        }));
        try (EmbeddedArchive archive = EmbeddedArchive.start(
                folder,
                address,
                new AeTitle(title),
                tls,
                reportTo(arguments),
                destinations(arguments.texts("destination")))) {
            terminal.err().println("vestibule archive: for demonstration and tests only; no rights, no backup.");
            terminal.out()
                    .println("listening on %s://127.0.0.1:%d/%s"
                            .formatted(tls.isPresent() ? "dicoms" : "dicom", archive.port(), title));
            awaitQuietly(stop);
        } finally {
            ended.countDown();
        }
        return Exit.FINE;
    }

    private static Map<AeTitle, ApplicationEntity> reportTo(Arguments arguments) throws Failure {
        Optional<String> url = arguments.text("report-to");
        if (url.isEmpty()) {
            return Map.of();
        }
        try {
            Destination caller = Destination.parse(url.get());
            AeTitle title = new AeTitle(caller.calledAe());
            return Map.of(title, new ApplicationEntity(title, caller.host(), caller.port()));
        } catch (DestinationException e) {
            throw new Failure(Exit.USAGE, "--report-to %s.".formatted(e.getMessage()));
        }
    }

    /** Each given as {@code AE=HOST:PORT}. */
    static Map<AeTitle, ApplicationEntity> destinations(List<String> given) throws Failure {
        Map<AeTitle, ApplicationEntity> known = new HashMap<>();
        for (String each : given) {
            int end = each.indexOf('=');
            try {
                Destination there = Destination.parse(
                        "dicom://%s/%s".formatted(each.substring(end + 1), each.substring(0, Math.max(0, end))));
                AeTitle title = new AeTitle(there.calledAe());
                if (known.put(title, new ApplicationEntity(title, there.host(), there.port())) != null) {
                    throw new Failure(
                            Exit.USAGE, "--destination %s: %s has an address already.".formatted(each, title));
                }
            } catch (DestinationException e) {
                throw new Failure(
                        Exit.USAGE,
                        "--destination %s: expected AE=HOST:PORT with a port from 1 to 65535, as VIEWER=127.0.0.1:11113."
                                .formatted(each));
            }
        }
        return known;
    }

    private static void awaitQuietly(CountDownLatch latch) {
        try {
            latch.await();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}
