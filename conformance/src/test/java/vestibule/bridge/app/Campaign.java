package vestibule.bridge.app;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Random;

/**
 * How often each proof tries: a seeded sample in an ordinary run, its full count in a campaign. {@code conformance/campaign.sh} names the
 * campaign, and the count if it is another one; the figures go to a file beside the build.
 */
final class Campaign {

    private static final String RUNNING = System.getProperty("vestibule.campaign", "");
    private static final Path FIGURES = Path.of("target", "campaign.txt");

    private Campaign() {}

    /** How many tries a proof makes. */
    static int count(String name, int ordinary, int full) {
        return isFull(name) ? Integer.getInteger("vestibule.campaign.count", full) : ordinary;
    }

    /** Whether this proof is not made for an ordinary run. */
    static boolean isFull(String name) {
        return RUNNING.equals(name) || RUNNING.equals("all");
    }

    /** The seed of a proof; another one may be given, and the one used is always printed. */
    static long seed() {
        return Long.getLong("vestibule.campaign.seed", 20_261_125L);
    }

    static Random random(String name) {
        return new Random(seed() ^ name.hashCode());
    }

    /** Writes a line of figures, for people. */
    static void figures(String name, String told) throws IOException {
        String line = "%s (seed %d): %s%n".formatted(name, seed(), told);
        Files.createDirectories(FIGURES.toAbsolutePath().getParent());
        Files.writeString(FIGURES, line, StandardOpenOption.CREATE, StandardOpenOption.APPEND);
    }
}
