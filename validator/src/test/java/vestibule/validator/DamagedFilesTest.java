package vestibule.validator;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Assertions;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** More of them: {@code mvn -pl validator -am test -Dtest=DamagedFilesTest -Ddamaged.files=1000000 -Ddamaged.seed=7}. */
@DisplayName("Files damaged at random")
class DamagedFilesTest {

    private static final List<String> SOURCES =
            List.of("PRV-001", "PRV-004", "JPG-022", "JPG-032", "MOD-011", "VAL-031", "COD-010", "PHO-007", "JPG-005");
    private static final int[] TELLING = {0x00, 0x5C, 0x7F, 0x80, 0xFF};

    @TempDir
    Path folder;

    @Test
    @DisplayName("get a verdict each, never an exception, within two seconds")
    void verdicts() throws IOException {
        long seed = Long.getLong("damaged.seed", 20_261_125L);
        int count = Integer.getInteger("damaged.files", 500);
        System.out.printf("damaged files: %d, seed %d%n", count, seed);
        Random random = new Random(seed);
        Path file = folder.resolve("damaged.dcm");
        List<byte[]> sources = new ArrayList<>();
        for (String rule : SOURCES) {
            RuleExamples.all().get(rule).write(file);
            sources.add(Files.readAllBytes(file));
        }
        RawWriter.write(file, RichPhotograph.good(), Photographs.SYNTAX);
        sources.add(Files.readAllBytes(file));
        Validator validator = Validator.under(Profile.PRACTICE);
        for (int i = 0; i < count; i++) {
            Files.write(file, damaged(sources.get(random.nextInt(sources.size())), random));
            ObjectReport report =
                    Assertions.assertTimeout(Duration.ofSeconds(2), () -> validator.validate(file), "file " + i);
            assertThat(report.reason().isPresent()).isEqualTo(report.verdict() == Verdict.UNREADABLE);
            assertThat(report.findings())
                    .allSatisfy(finding -> assertThat(finding.message()).doesNotContainPattern("\\{[a-z]+}"));
        }
    }

    private static byte[] damaged(byte[] source, Random random) {
        byte[] bytes = source.clone();
        for (int i = random.nextInt(6); i >= 0; i--) {
            int place = random.nextInt(bytes.length);
            bytes[place] = (byte)
                    switch (random.nextInt(3)) {
                        case 0 -> random.nextInt(256);
                        case 1 -> bytes[place] ^ (1 << random.nextInt(8));
                        default -> TELLING[random.nextInt(TELLING.length)];
                    };
        }
        return random.nextInt(20) == 0 ? Arrays.copyOf(bytes, random.nextInt(bytes.length)) : bytes;
    }
}
