package vestibule.conformance.fault;

import java.io.IOException;
import java.io.PrintStream;
import java.net.InetSocketAddress;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import vestibule.conformance.fault.LinkFault.Direction;
import vestibule.dicom.net.Deadlines;

/** The rehearsal kit as a program: a link or an archive that misbehaves, for as long as it runs; docs/rehearsal.md tells how to use it. */
public final class Rehearsal {

    private static final int USAGE = 2;
    private static final String WORDS = """
            usage: Rehearsal link HOST:PORT LISTEN-PORT FAULT…
                   Rehearsal archive LISTEN-PORT BEHAVIOUR [first=N] [report-to=dicom://HOST:PORT/TITLE]
            FAULT, on every connection: cut-there=BYTES cut-back=BYTES reset-there=BYTES reset-back=BYTES stall-there=BYTES
                   stall-back=BYTES slice=BYTES delay=MILLISECONDS slow=BYTES-PER-SECOND eat-answer=PDU
                   duplicate-there=PDU duplicate-back=PDU
                   first=N does it on the first N connections only
            BEHAVIOUR: healthy forgets full refiles eats-answers status=HEX status=HEX,kept silent refuses
                   late=SECONDS wrong-report repeats-report half-report
                   first=N does it to the first N objects and requests only
                   report-to says where late reports go
            PORT 0 takes any free one.""";

    private Rehearsal() {}

    /** Runs until the program is stopped. */
    public static void main(String[] words) throws IOException, InterruptedException {
        System.exit(run(words, System.out, System.err, new CountDownLatch(1)));
    }

    static int run(String[] words, PrintStream out, PrintStream err, CountDownLatch stop)
            throws IOException, InterruptedException {
        try {
            if (words.length >= 3 && words[0].equals("link")) {
                link(words, out, stop);
                return 0;
            }
            if (words.length >= 3 && words[0].equals("archive")) {
                archive(words, out, stop);
                return 0;
            }
            err.println(WORDS);
        } catch (IllegalArgumentException e) {
            err.println("Rehearsal: " + e.getMessage() + ".");
        }
        return USAGE;
    }

    private static void link(String[] words, PrintStream out, CountDownLatch stop)
            throws IOException, InterruptedException {
        int colon = words[1].lastIndexOf(':');
        if (colon < 1) {
            throw new IllegalArgumentException("target: found " + words[1] + ", expected HOST:PORT");
        }
        InetSocketAddress target = new InetSocketAddress(
                words[1].substring(0, colon), (int) number("PORT", words[1].substring(colon + 1)));
        try (FaultProxy proxy = FaultProxy.before(
                target,
                (int) number("LISTEN-PORT", words[2]),
                plan(Arrays.asList(words).subList(3, words.length)))) {
            out.printf("listening on port %d, before %s%n", proxy.port(), words[1]);
            stop.await();
        }
    }

    static FaultProxy.Plan plan(List<String> words) {
        List<LinkFault> faults = new ArrayList<>();
        long first = Long.MAX_VALUE;
        for (String word : words) {
            String[] parts = word.split("=", 2);
            long number = number(parts[0], parts.length == 2 ? parts[1] : "");
            if (parts[0].equals("first")) {
                first = number;
            } else {
                faults.addAll(faults(parts[0], number));
            }
        }
        long affected = first;
        return connection -> connection < affected ? List.copyOf(faults) : List.of();
    }

    private static List<LinkFault> faults(String name, long number) {
        Direction direction = name.endsWith("-back") ? Direction.BACK : Direction.THERE;
        return switch (name) {
            case "cut-there", "cut-back" -> List.of(new LinkFault.Cut(direction, number));
            case "reset-there", "reset-back" -> List.of(new LinkFault.Reset(direction, number));
            case "stall-there", "stall-back" -> List.of(new LinkFault.Stall(direction, number));
            case "duplicate-there", "duplicate-back" -> List.of(new LinkFault.Duplicate(direction, (int) number));
            case "eat-answer" -> List.of(new LinkFault.EatAnswer((int) number));
            case "slice" ->
                List.of(new LinkFault.Slice(Direction.THERE, (int) number), new LinkFault.Slice(Direction.BACK, (int)
                        number));
            case "delay" ->
                List.of(
                        new LinkFault.Delay(Direction.THERE, Duration.ofMillis(number)),
                        new LinkFault.Delay(Direction.BACK, Duration.ofMillis(number)));
            case "slow" ->
                List.of(new LinkFault.Slow(Direction.THERE, (int) number), new LinkFault.Slow(Direction.BACK, (int)
                        number));
            default -> throw new IllegalArgumentException("fault: found %s, which is not known".formatted(name));
        };
    }

    static long number(String name, String text) {
        try {
            long number = Long.parseLong(text);
            if (number >= 0 && number <= Integer.MAX_VALUE) {
                return number;
            }
        } catch (NumberFormatException e) {
            throw new IllegalArgumentException("%s: found %s, expected a number".formatted(name, text), e);
        }
        throw new IllegalArgumentException("%s: found %s, expected 0 to 2147483647".formatted(name, text));
    }

    private static void archive(String[] words, PrintStream out, CountDownLatch stop)
            throws IOException, InterruptedException {
        int port = (int) number("LISTEN-PORT", words[1]);
        Behaviour behaviour = Behaviour.of(Arrays.asList(words).subList(2, words.length));
        try (ScriptedArchive archive = ScriptedArchive.start(behaviour.script(), port, Deadlines.DEFAULT)) {
            behaviour.reportTo().ifPresent(archive::reportTo);
            out.printf("listening on %s%n", archive.url());
            if (behaviour.late().isEmpty()) {
                stop.await();
                return;
            }
            while (!stop.await(behaviour.late().getAsLong(), TimeUnit.SECONDS)) {
                archive.deliverLate();
            }
        }
    }
}
