package vestibule.bridge.probe;

import java.time.Clock;
import java.time.Duration;
import java.util.List;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.FutureTask;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.random.RandomGenerator;
import vestibule.bridge.delivery.Destination;
import vestibule.dicom.net.AeTitle;

/** Tests the whole link to an archive, from its name to the way back of commitment, and ends in time whatever the archive does. */
public final class Probe {

    private static final Duration TO_END = Duration.ofSeconds(2);

    /**
     * What was found.
     *
     * @param steps every step in its order
     * @param later whether the archive asks to try later
     */
    public record Report(List<Step> steps, boolean later) {
        public Report {
            steps = List.copyOf(steps);
        }

        /** Whether photographs can be stored. */
        public boolean usable() {
            return steps.stream().noneMatch(Step::stops);
        }
    }

    private final Destination archive;
    private final AeTitle calling;
    private final Wishes wishes;
    private final Clock clock;
    private final RandomGenerator random;

    /** Of that archive, under our title. */
    public Probe(Destination archive, String callingAe, Wishes wishes, Clock clock, RandomGenerator random) {
        this.archive = archive;
        this.calling = new AeTitle(callingAe);
        this.wishes = wishes;
        this.clock = clock;
        this.random = random;
    }

    /** Takes every step; those after a failed one that they need are not asked. */
    public Report run() {
        Steps steps = new Steps();
        Link link = new Link(archive.entity(), calling, wishes.each());
        FutureTask<Boolean> walk = new FutureTask<>(() -> {
            walk(link, steps);
            return true;
        });
        Thread thread = new Thread(walk, "probe");
        thread.start();
        String otherwise = "a step before it failed";
        try {
            walk.get(wishes.whole().toMillis(), TimeUnit.MILLISECONDS);
        } catch (TimeoutException e) {
            otherwise =
                    "the %d s of the probe were over".formatted(wishes.whole().toSeconds());
            steps.cutOff(
                    "not done when " + otherwise + "; look into the log of the archive, and at the network between");
            end(thread);
        } catch (InterruptedException e) {
            end(thread);
            Thread.currentThread().interrupt();
            otherwise = "the probe was stopped";
        } catch (ExecutionException e) {
            throw new IllegalStateException("the probe failed", e.getCause());
        }
        return new Report(steps.all(otherwise), link.triesLater());
    }

    /** Every wait of ours heeds an interrupt; the thread closes what it opened. */
    private static void end(Thread thread) {
        thread.interrupt();
        try {
            thread.join(TO_END.toMillis());
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    private void walk(Link link, Steps steps) {
        try (link) {
            if (!link.open(steps)) {
                return;
            }
            ServiceSteps services = new ServiceSteps(link, steps, clock, random);
            services.echo();
            services.contexts();
            services.query();
            services.worklist();
            new CommitmentSteps(link, steps, wishes, new TestObject(clock, random), random).take();
        }
    }
}
