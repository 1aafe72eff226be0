package vestibule.conformance.independent;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import vestibule.conformance.Corpus;
import vestibule.conformance.peer.Dciodvfy;
import vestibule.conformance.peer.Tool;
import vestibule.validator.Finding;
import vestibule.validator.ObjectReport;
import vestibule.validator.Profile;
import vestibule.validator.Severity;
import vestibule.validator.Validator;

/** Each finding in them was looked at by hand; {@code findings.tsv} has them all, with the reason why each is right. */
@DisplayName("Objects that others made")
class IndependentObjectsTest {

    private static final String ANY = "*";

    /** One finding: file, rule, severity, place. */
    private static String key(String file, String rule, String severity, String place) {
        return String.join("\t", file, rule, severity, place);
    }

    @Test
    @DisplayName("photographs and JPEG objects of the corpus have the findings of the table, and no others")
    void corpus() throws IOException {
        Set<String> known = new TreeSet<>(table());
        Set<String> found = new TreeSet<>();
        List<Corpus.Row> objects = Corpus.rows("dicom").stream()
                .filter(IndependentObjectsTest::isJpegOrPhotograph)
                .toList();
        for (Corpus.Row object : objects) {
            for (Finding finding :
                    Validator.under(Profile.PRACTICE).validate(object.path()).findings()) {
                found.add(line(object.toString(), finding));
            }
        }
        System.out.printf("%d objects of others: %d findings, each listed%n", objects.size(), found.size());
        assertThat(found).containsExactlyInAnyOrderElementsOf(known);
        assertThat(objects).hasSizeGreaterThan(40);
    }

    private static boolean isJpegOrPhotograph(Corpus.Row row) {
        return row.toString().endsWith(".dcm")
                && (row.toString().startsWith("photo-pairs/")
                        || row.column("transfer_syntax_uid").startsWith("1.2.840.10008.1.2.4."));
    }

    private static String line(String file, Finding finding) {
        String rule = finding.rule().id().toString();
        if (finding.severity() == Severity.NOTE) {
            return key(ANY, rule, "note", ANY);
        }
        String[] place = finding.where().toString().split(" ", -1);
        return key(file, rule, finding.severity().word(), place[place.length - 1]);
    }

    private static List<String> table() throws IOException {
        List<String> keys = new ArrayList<>();
        for (String line : resource("findings.tsv").lines().toList()) {
            if (!line.startsWith("#")) {
                String[] cells = line.split("\t", -1);
                assertThat(cells).as(line).hasSize(5).doesNotContain("");
                keys.add(key(cells[0], cells[1], cells[2], cells[3]));
            }
        }
        return keys;
    }

    @Test
    @DisplayName(
            "photographs written with pydicom from scratch have no error and no warning, as dciodvfy finds no error")
    void fromScratch(@TempDir Path folder) throws IOException {
        write(folder);
        List<Path> objects;
        try (Stream<Path> files = Files.list(folder)) {
            objects = files.sorted().toList();
        }
        assertThat(objects).hasSize(8);
        Dciodvfy dciodvfy = Dciodvfy.find();
        for (Path object : objects) {
            assertThat(dciodvfy.findings(object)).as(object.toString()).noneMatch(line -> line.startsWith("Error"));
            for (Profile profile : List.of(Profile.STANDARD, Profile.PRACTICE)) {
                ObjectReport report = Validator.under(profile).validate(object);
                assertThat(report.reason()).as(object.toString()).isEmpty();
                assertThat(report.findings())
                        .as("%s, profile %s", object, profile.name())
                        .allMatch(finding -> finding.severity() == Severity.NOTE);
            }
        }
        assertThat(Validator.under(Profile.PRACTICE)
                        .validate(List.of(folder))
                        .whole()
                        .isAcceptable())
                .isTrue();
    }

    static void write(Path folder) throws IOException {
        // Debian's own, for that is the one its package of pydicom belongs to
        Tool python = new Tool(Path.of("/usr/bin/python3"));
        Assumptions.assumeTrue(
                Files.isExecutable(python.program())
                        && python.run("-c", "import pydicom, PIL").exit() == 0,
                "pydicom or Pillow is not on this machine");
        Path script = Files.createTempFile("vestibule-", ".py");
        try {
            Files.writeString(script, resource("write_with_pydicom.py"));
            Tool.Said said = python.run(script.toString(), folder.toString());
            assertThat(said.exit()).as(said.err()).isZero();
        } finally {
            Files.delete(script);
        }
    }

    private static String resource(String name) throws IOException {
        try (InputStream in = IndependentObjectsTest.class.getResourceAsStream(name)) {
            return new String(Objects.requireNonNull(in).readAllBytes(), StandardCharsets.UTF_8);
        }
    }
}
