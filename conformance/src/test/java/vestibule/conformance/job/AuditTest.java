package vestibule.conformance.job;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import vestibule.conformance.Corpus;
import vestibule.conformance.peer.ArchiveUnderTest;
import vestibule.conformance.peer.OrthancProcess;

@DisplayName("vestibule audit, against an archive that nobody here wrote")
class AuditTest {

    @TempDir
    Path folder;

    private Commands.Said audit(ArchiveUnderTest archive, String... more) {
        List<String> words = new ArrayList<>(List.of("audit", "--to", archive.url()));
        words.addAll(List.of(more));
        return Commands.run(words);
    }

    private void store(ArchiveUnderTest archive, String patientId, int photographs) throws IOException {
        List<Path> sources = Corpus.rows("jpeg-orientation").stream()
                .map(row -> row.path())
                .filter(path -> path.getFileName().toString().startsWith("recurser_"))
                .toList();
        List<String> send = new ArrayList<>(List.of("send", "--to", archive.url()));
        for (Path source : sources) {
            Path target = folder.resolve(patientId + "-" + send.size() + ".dcm");
            if (send.size() < photographs + 3
                    && Commands.wrap(source, target, patientId, "Exempel^Zoe").exit() == 0) {
                send.add(target.toString());
            }
        }
        assertThat(send).hasSize(photographs + 3);
        assertThat(Commands.run(send).exit()).isZero();
    }

    @Test
    @DisplayName("fetches what is of a patient, judges it, names each object by its address and keeps nothing")
    void ofAPatient() throws IOException {
        try (ArchiveUnderTest archive = OrthancProcess.start()) {
            store(archive, "PG-0001", 3);
            store(archive, "PG-0002", 1);
            Path report = folder.resolve("report.json");
            Commands.Said said = audit(archive, "--patient-id", "PG-0001", "--report", "json=" + report);
            assertThat(said.err()).isEmpty();
            assertThat(said.out()).startsWith("3 objects: ");
            assertThat(Files.readString(report))
                    .contains("\"path\":\"" + archive.url() + "/")
                    .contains("\"profile\":\"practice\"")
                    .contains("\"unreadable\":0}");
            assertThat(audit(archive, "--patient-id", "PG-0001", "--report", "json=" + report)
                            .out())
                    .isEqualTo(said.out());
        }
    }

    @Test
    @DisplayName("says that nothing was checked where nothing matches, and what it wants to be told")
    void nothing() throws IOException {
        try (ArchiveUnderTest archive = OrthancProcess.start()) {
            Commands.Said said = audit(archive, "--date", "1999-01-01");
            assertThat(said.exit()).isEqualTo(65);
            assertThat(said.err()).contains("nothing that matches, so nothing was checked");
            assertThat(audit(archive).exit()).isEqualTo(2);
        }
    }
}
