package vestibule.conformance.bench;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import vestibule.conformance.fault.Photographs;

/**
 * A card of photographs of 4.4 MB each, from its appearing in a watched folder to everything committed, by a running service of 192 MB of
 * heap on the embedded archive; against {@code cp} and {@code sync} of the same files, and against a chain of other people's programs that
 * does the same by hand. Every second photograph is mirrored.
 */
public final class DeliveryBench {

    private static final int WIDTH = 4000;
    private static final int HEIGHT = 3000;
    private static final int WARM_UP = 100;
    /** Until then the virtual machine compiles more than it delivers, and a short card would be measured by that. */
    private static final int FLAT_WARM_UP = 1_000;

    private static final int SMALL_EDGE = 160;
    private static final String COPY = "rm -rf copy; cp -r card copy; sync copy/*/* copy/* copy";

    private final Path folder;

    private DeliveryBench(Path folder) {
        this.folder = folder;
    }

    /**
     * Arguments: how many photographs (default 100), every how-manieth is mirrored (default 2); or {@code flat}, how many small ones
     * (default 10000), megabytes of heap (default 192).
     */
    public static void main(String[] arguments) throws IOException, InterruptedException {
        Path folder = Files.createTempDirectory("vestibule-delivery");
        try {
            DeliveryBench bench = new DeliveryBench(folder);
            if (arguments.length > 0 && arguments[0].equals("flat")) {
                bench.flat(number(arguments, 1, 10_000), number(arguments, 2, BenchService.HEAP));
            } else {
                bench.card(number(arguments, 0, 100), number(arguments, 1, 2));
            }
        } finally {
            SampleObjects.delete(folder);
        }
    }

    private static int number(String[] arguments, int place, int unless) {
        return arguments.length > place ? Integer.parseInt(arguments[place]) : unless;
    }

    private void card(int count, int mirroredEach) throws IOException, InterruptedException {
        byte[] master = Files.readAllBytes(new BenchPhotographs(folder).make("master", WIDTH, HEIGHT, "2x1"));
        Path card = cardOf(folder.resolve("card"), master, count, mirroredEach);
        double copy = seconds(COPY);
        System.out.printf(
                Locale.ROOT,
                "%d photographs of 4.4 MB: cp and sync %.1f s (%.1f a second)%n",
                count,
                copy,
                count / copy);
        try (BenchService service = BenchService.start(folder, BenchService.HEAP)) {
            service.take(cardOf(folder.resolve("first"), master, WARM_UP, mirroredEach), WARM_UP);
            BenchService.Took ours = service.take(card, count);
            service.takenBack(card);
            copy = (copy + seconds(COPY)) / 2;
            ours(count, copy, ours);
            ChainOfPrograms theirs = new ChainOfPrograms(folder, card, service.archivePort());
            chain("as installed, aim 4", theirs.seconds(false), ours, count);
            chain("with Nagle off, aim 3", theirs.seconds(true), ours, count);
        }
    }

    private static void ours(int count, double copy, BenchService.Took ours) {
        System.out.printf(
                Locale.ROOT,
                "taken in (hashed, checked, copied, forced to the disk, recorded): %.1f s, %.2f of cp and sync (aim 0.5)%n",
                ours.takenIn(),
                copy / ours.takenIn());
        System.out.printf(
                Locale.ROOT,
                "card to committed: %.1f s, %.1f a second, %.1f times cp and sync (aim under 8 for 900); heap after it %d MB%n",
                ours.committed(),
                count / ours.committed(),
                ours.committed() / copy,
                ours.heapMegabytes());
        double without = ours.committed() - ours.deciding();
        System.out.printf(
                Locale.ROOT,
                "  of that looking for patient cards and deciding, which the others do not: %.1f s; without it %.1f a second, %.1f times cp%n",
                ours.deciding(),
                count / without,
                without / copy);
    }

    private static void chain(String how, double chain, BenchService.Took ours, int count) {
        System.out.printf(
                Locale.ROOT,
                "chain of sha256sum, jpegtran, pydicom, dciodvfy, storescu: %.1f a second; ratio %.1f, without deciding %.1f (%s)%n",
                count / chain,
                chain / ours.committed(),
                chain / (ours.committed() - ours.deciding()),
                how);
    }

    /** Small photographs: what does not depend on their length has to stay the same however many there are. */
    private void flat(int most, int megabytes) throws IOException, InterruptedException {
        try (BenchService service = BenchService.start(folder, megabytes)) {
            byte[] master = Photographs.jpeg(1, SMALL_EDGE);
            service.take(cardOf(folder.resolve("first"), master, FLAT_WARM_UP, 2), FLAT_WARM_UP);
            for (int count = 100; count <= most; count *= 10) {
                BenchService.Took took = service.take(cardOf(folder.resolve("card-" + count), master, count, 2), count);
                System.out.printf(
                        Locale.ROOT,
                        "%d photographs of %d kB: %.2f ms each (taking in %.2f, deciding %.2f); heap after it %d MB%n",
                        count,
                        master.length / 1000,
                        1000 * took.committed() / count,
                        1000 * took.takenIn() / count,
                        1000 * took.deciding() / count,
                        took.heapMegabytes());
            }
        }
    }

    /** The same picture with another comment each, so that no two files are the same photograph; in a folder for one patient. */
    private static Path cardOf(Path card, byte[] master, int count, int mirroredEach) throws IOException {
        Random random = new Random(card.hashCode());
        Path images = Files.createDirectories(card.resolve("PG-0001_Exempel_Zoe_1987-02-28"));
        for (int i = 0; i < count; i++) {
            String view = i % mirroredEach == 1 % mirroredEach
                    ? "occlusal-maxillary-mirror_mirror-front"
                    : "teeth-front-occlusion";
            Files.write(
                    images.resolve("%05d_%s.JPG".formatted(i, view)),
                    commented(master, "%s %d %d".formatted(card.getFileName(), i, random.nextLong())));
        }
        return card;
    }

    private static byte[] commented(byte[] jpeg, String comment) {
        byte[] text = comment.getBytes(StandardCharsets.US_ASCII);
        ByteArrayOutputStream out = new ByteArrayOutputStream(jpeg.length + text.length + 4);
        out.write(jpeg, 0, 2);
        out.write(0xFF);
        out.write(0xFE);
        out.write(0);
        out.write(text.length + 2);
        out.writeBytes(text);
        out.write(jpeg, 2, jpeg.length - 2);
        return out.toByteArray();
    }

    private double seconds(String script) throws IOException, InterruptedException {
        return seconds(folder, List.of("bash", "-ec", script), Duration.ofHours(1));
    }

    /** How long a program takes that must end well. */
    static double seconds(Path folder, List<String> command, Duration most) throws IOException, InterruptedException {
        Path log = folder.resolve("log.txt");
        long start = System.nanoTime();
        Process process = new ProcessBuilder(new ArrayList<>(command))
                .directory(folder.toFile())
                .redirectErrorStream(true)
                .redirectOutput(log.toFile())
                .start();
        if (!process.waitFor(most.toSeconds(), java.util.concurrent.TimeUnit.SECONDS) || process.exitValue() != 0) {
            throw new IOException(
                    "%s failed: %s".formatted(command.get(0), Files.readString(log, StandardCharsets.ISO_8859_1)));
        }
        return (System.nanoTime() - start) / 1e9;
    }
}
