package vestibule.bridge.app;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Clock;
import java.util.Optional;
import java.util.concurrent.CountDownLatch;
import org.apache.commons.cli.Options;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import vestibule.bridge.delivery.Destination;
import vestibule.bridge.settings.Settings;
import vestibule.dicom.data.VR;

/** The service, until the program is stopped. */
final class RunCommand implements Command {

    private static final Logger LOG = LoggerFactory.getLogger(RunCommand.class);

    private final Understanding understanding;
    private final Clock clock;

    RunCommand(Understanding understanding, Clock clock) {
        this.understanding = understanding;
        this.clock = clock;
    }

    @Override
    public String name() {
        return "run";
    }

    @Override
    public String syntax() {
        return "[--home DIR] [--to URL]";
    }

    @Override
    public String summary() {
        return "the service: watches folders, delivers, awaits commitments";
    }

    @Override
    public Options options() {
        Options options = Homes.with(new Options());
        options.addOption(
                Given.value("to", "URL", "the archive: dicom://HOST:PORT/CALLED_AE; else the one of the settings"));
        options.addOption(
                Given.value("calling-ae", "TITLE", "our own AE title; else the one of the settings, else VESTIBULE"));
        options.addOption(Given.flag(
                "until-idle",
                "end once nothing is left to do: every photograph committed, rejected or in need of attention"));
        return options;
    }

    @Override
    public Exit run(Arguments arguments, Terminal terminal) throws Failure, IOException {
        if (!arguments.words().isEmpty()) {
            throw new Failure(Exit.USAGE, "run takes no words; folders to watch stand in the settings, see --help.");
        }
        Settings settings = SettingsFile.of(arguments);
        Destination archive = archive(arguments, settings);
        ServiceLog.configure(settings.running().service());
        try (Keeping keeping = Keeping.open(Keeping.folder(arguments, settings), settings, clock);
                Keeping.Lock lock = keeping.lockService()
                        .orElseThrow(() -> new Failure(
                                Exit.TRY_LATER,
                                "%s: another vestibule run serves this home; stop it first."
                                        .formatted(keeping.folder())))) {
            Exit exit = serve(keeping, parts(arguments, settings, archive, keeping), arguments, terminal);
            LOG.debug("the lock was ours to the end: {}", lock.isHeld());
            return exit;
        }
    }

    private static Destination archive(Arguments arguments, Settings settings) throws Failure, IOException {
        Optional<String> word = arguments.text("to");
        return word.isPresent()
                ? Archives.destination("--to", word.get(), settings)
                : Archives.ofSettings(settings)
                        .orElseThrow(
                                () -> new Failure(
                                        Exit.WRONG_SETTINGS,
                                        "no archive is named; write url = \"dicom://HOST:PORT/CALLED_AE\" under [archive], or give --to."));
    }

    private Service.Parts parts(Arguments arguments, Settings settings, Destination archive, Keeping keeping)
            throws Failure, IOException {
        String ourTitle =
                arguments.text("calling-ae", VR.AE).or(settings::callingAe).orElse(Archives.OUR_TITLE);
        // One that was killed in the middle of a picture left it there.
        Path scratch = keeping.folder().resolve("scratch");
        Shipping.clearAll(scratch);
        return new Service.Parts(
                settings,
                archive,
                ourTitle,
                understanding.deciding(settings, Optional.of(archive), ourTitle, keeping.memory()),
                understanding.making(settings, scratch));
    }

    private Exit serve(Keeping keeping, Service.Parts parts, Arguments arguments, Terminal terminal)
            throws Failure, IOException {
        CountDownLatch stop = new CountDownLatch(1);
        CountDownLatch ended = new CountDownLatch(1);
        Thread hook = new Thread(() -> {
            stop.countDown();
            awaitQuietly(ended);
        });
        Runtime.getRuntime().addShutdownHook(hook);
        try (Service service = Service.start(keeping, parts, clock);
                AutoCloseableMonitor monitor = monitor(service, parts.settings())) {
            monitor.port().ifPresent(port -> terminal.out().println("monitor on http://127.0.0.1:" + port));
            terminal.out()
                    .println("serving " + keeping.folder().toAbsolutePath().normalize() + ", archive "
                            + parts.archive());
            if (arguments.has("until-idle")) {
                new Idle(keeping.outbox().overview(), keeping.originals().place(), clock, service::isSettled)
                        .await(stop);
                if (service.unreached() > 0) {
                    terminal.err()
                            .println(
                                    "vestibule run: nothing is on its way any more, but not every folder was reached; vestibule status says why.");
                    return Exit.TRY_LATER;
                }
            } else {
                awaitQuietly(stop);
            }
        } finally {
            ended.countDown();
            forget(hook);
        }
        return Exit.FINE;
    }

    private static void forget(Thread hook) {
        try {
            Runtime.getRuntime().removeShutdownHook(hook);
        } catch (IllegalStateException ending) {
            LOG.debug("the program is ending already, and the hook with it");
        }
    }

    /** A monitor, or none where no port is set. */
    private record AutoCloseableMonitor(Optional<Monitor> monitor) implements AutoCloseable {

        Optional<Integer> port() {
            return monitor.map(Monitor::port);
        }

        @Override
        public void close() {
            monitor.ifPresent(Monitor::close);
        }
    }

    private AutoCloseableMonitor monitor(Service service, Settings settings) throws IOException {
        Optional<Integer> port = settings.running().service().port();
        return new AutoCloseableMonitor(
                port.isPresent() ? Optional.of(Monitor.start(service, port.get(), clock)) : Optional.empty());
    }

    private static void awaitQuietly(CountDownLatch latch) {
        try {
            latch.await();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}
