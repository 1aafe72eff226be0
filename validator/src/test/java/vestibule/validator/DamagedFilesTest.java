package vestibule.validator;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import vestibule.dicom.io.DicomFormatException;

/** More of them: {@code conformance/campaign.sh mutation}, with {@code -Ddamaged.seed=7} from another seed. */
@DisplayName("Files damaged at random")
class DamagedFilesTest {

    private static final List<String> SOURCES =
            List.of("PRV-001", "PRV-004", "JPG-022", "JPG-032", "MOD-011", "VAL-031", "COD-010", "PHO-007", "JPG-005");
    /** Of the files that others made, as Implicit VR, Big Endian, deflated and run-length ones, the small ones are damaged too. */
    private static final long SMALL = 12_000;

    private static final Pattern UNFILLED = Pattern.compile("\\{[a-z]+}");
    private static final double MOST_SECONDS = 2;

    @TempDir
    Path folder;

    @Test
    @DisplayName("get a verdict each, never an exception, within two seconds")
    void verdicts() throws IOException {
        long seed = Long.getLong("damaged.seed", 20_261_125L);
        int count = Integer.getInteger("damaged.files", 2000);
        Random random = new Random(seed);
        Damage damage = new Damage(random);
        List<Damage.Whole> sources = sources();
        Path file = folder.resolve("damaged.dcm");
        Validator validator = Validator.under(Profile.PRACTICE);
        Map<Verdict, Integer> verdicts = new EnumMap<>(Verdict.class);
        double slowest = 0;
        for (int i = 0; i < count; i++) {
            int own = random.nextBoolean() ? SOURCES.size() + 1 : sources.size();
            byte[] bytes = damage.of(sources.get(random.nextInt(own)));
            Files.write(file, bytes);
            String what = "file " + i + " of seed " + seed;
            long began = System.nanoTime();
            ObjectReport report = judged(validator, file, bytes, what);
            double seconds = (System.nanoTime() - began) / 1e9;
            if (seconds > MOST_SECONDS) {
                // a file that is slow is so again; a machine that was busy with something else is not
                began = System.nanoTime();
                judged(validator, file, bytes, what);
                seconds = (System.nanoTime() - began) / 1e9;
            }
            slowest = Math.max(slowest, seconds);
            if (seconds > MOST_SECONDS) {
                throw new AssertionError("%s took %.1f s".formatted(what, seconds));
            }
            verdicts.merge(report.verdict(), 1, Integer::sum);
            if ((i + 1) % 50_000 == 0 || i + 1 == count) {
                System.out.printf(
                        "mutation: %d files of %d sources, seed %d, heap %d MB: 0 exceptions, slowest %.3f s, %s%n",
                        i + 1, sources.size(), seed, Runtime.getRuntime().maxMemory() >> 20, slowest, told(verdicts));
            }
        }
        assertThat(verdicts).as("files of every verdict").containsOnlyKeys(Verdict.values());
    }

    private static ObjectReport judged(Validator validator, Path file, byte[] bytes, String what) throws IOException {
        try {
            ObjectReport report = validator.validate(file);
            if (report.reason().isPresent() != (report.verdict() == Verdict.UNREADABLE)) {
                throw new AssertionError(what + ": a reason without being unreadable, or the reverse");
            }
            for (Finding finding : report.findings()) {
                if (UNFILLED.matcher(finding.message()).find()) {
                    throw new AssertionError(what + ": " + finding.message());
                }
            }
            return report;
        } catch (RuntimeException | Error e) {
            Path kept = Files.write(Path.of("target", "damaged-%08x.dcm".formatted(what.hashCode())), bytes);
            throw new AssertionError(what + ", kept as " + kept.toAbsolutePath(), e);
        }
    }

    private List<Damage.Whole> sources() throws IOException {
        List<Damage.Whole> sources = new ArrayList<>();
        Path file = folder.resolve("source.dcm");
        for (String rule : SOURCES) {
            RuleExamples.all().get(rule).write(file);
            sources.add(Damage.Whole.of(file));
        }
        RawWriter.write(file, RichPhotograph.good(), Photographs.SYNTAX);
        sources.add(Damage.Whole.of(file));
        Optional<Path> foreign = Corpus.folder("dicom");
        for (Path other : foreign.isPresent() ? Corpus.files(foreign.get()) : List.<Path>of()) {
            if (Files.size(other) < SMALL) {
                addIfReadable(other, sources);
            }
        }
        return sources;
    }

    /** Some are no DICOM files, which other tests show; these are for damaging. */
    private static void addIfReadable(Path file, List<Damage.Whole> sources) throws IOException {
        try {
            Damage.Whole whole = Damage.Whole.of(file);
            if (whole.hasElements()) {
                sources.add(whole);
            }
        } catch (DicomFormatException e) {
            assertThat(e.getMessage()).isNotEmpty();
        }
    }

    private static String told(Map<Verdict, Integer> verdicts) {
        return verdicts.entrySet().stream()
                .map(entry -> entry.getValue() + " " + entry.getKey().word())
                .collect(Collectors.joining(", "));
    }
}
