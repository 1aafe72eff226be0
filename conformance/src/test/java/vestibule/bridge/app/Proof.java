package vestibule.bridge.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import vestibule.conformance.fault.Oracle;
import vestibule.conformance.fault.Oracle.Archived;
import vestibule.conformance.fault.Oracle.Verdict;
import vestibule.conformance.fault.ScriptedArchive;
import vestibule.conformance.fault.SourcePhotos;

/** What every proof ends with. */
final class Proof {

    private Proof() {}

    static Verdict verdict(Bench bench, SourcePhotos source, ScriptedArchive archive) throws IOException {
        return Oracle.judge(
                List.of(source),
                bench.account(),
                new Archived(archive.held().values(), Optional.of(archive.promised())));
    }

    /** Everything is committed, and the judge finds nothing wrong. */
    static void allCommitted(String what, Bench bench, SourcePhotos source, ScriptedArchive archive)
            throws IOException {
        Verdict verdict = verdict(bench, source, archive);
        assertThat(verdict.clean()).as("%s: %s", what, verdict).isTrue();
        assertThat(bench.account().states())
                .as(what)
                .hasSize(source.photos().size())
                .allSatisfy((photo, state) -> assertThat(state).isEqualTo("committed"));
    }

    /** The judge finds nothing wrong; a person may have something to decide. */
    static void judgedClean(String what, Bench bench, SourcePhotos source, ScriptedArchive archive) throws IOException {
        Verdict verdict = verdict(bench, source, archive);
        assertThat(verdict.clean()).as("%s: %s", what, verdict).isTrue();
    }

    static void delete(Path folder) throws IOException {
        try (Stream<Path> all = Files.walk(folder)) {
            for (Path path : all.sorted(Comparator.reverseOrder()).toList()) {
                Files.delete(path);
            }
        }
    }
}
