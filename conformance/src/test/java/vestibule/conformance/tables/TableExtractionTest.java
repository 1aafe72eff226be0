package vestibule.conformance.tables;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import vestibule.conformance.Corpus;
import vestibule.dicom.data.Tag;
import vestibule.dicom.data.VR;
import vestibule.dicom.dict.Dictionary;
import vestibule.dicom.dict.Dictionary.AttributeEntry;

@DisplayName("The committed tables are what the facts of the standard give")
class TableExtractionTest {

    private static final String GENERATOR = "# generator: vestibule.conformance.tables.TableExtraction; do not edit";

    private static List<Path> committed() throws IOException {
        List<Path> tables = new ArrayList<>();
        for (String module : List.of("dicom", "validator", "bridge")) {
            Path resources = Corpus.repository().resolve(module + "/src/main/resources");
            try (Stream<Path> files = Files.walk(resources)) {
                files.filter(file -> file.toString().endsWith(".tsv")).forEach(tables::add);
            }
        }
        return tables;
    }

    private static List<String[]> rows(String table) throws IOException {
        try (Stream<String> lines = Files.lines(Corpus.repository().resolve(table))) {
            return lines.filter(line -> !line.startsWith("#"))
                    .map(line -> line.split("\t", -1))
                    .toList();
        }
    }

    @Test
    @DisplayName("made anew, every table is the same, and no table is made by nobody")
    void extractedAnew() throws IOException {
        Optional<Path> facts = Corpus.shared().filter(shared -> Files.isDirectory(shared.resolve("standard")));
        Assumptions.assumeTrue(facts.isPresent(), "the facts of the standard are not here");
        List<Path> made = new ArrayList<>();
        for (var table : TableExtraction.tables(facts.orElseThrow()).entrySet()) {
            Path file = Corpus.repository().resolve(table.getKey());
            made.add(file);
            assertThat(Files.readAllLines(file)).as(table.getKey()).isEqualTo(table.getValue());
        }
        assertThat(committed()).containsExactlyInAnyOrderElementsOf(made);
    }

    @TestFactory
    @DisplayName("its head names what it is, the edition, the source with its hash, the generator and the columns")
    Stream<DynamicTest> heads() throws IOException {
        return committed().stream()
                .map(table -> dynamicTest(String.valueOf(table.getFileName()), () -> {
                    List<String> lines = Files.readAllLines(table);
                    assertThat(lines.get(0)).matches("# .+");
                    assertThat(lines.get(1)).matches("# edition: .+");
                    assertThat(lines.get(2)).matches("# source: \\S+ sha256:[0-9a-f]{64}.*");
                    assertThat(lines.get(3)).isEqualTo(GENERATOR);
                    assertThat(lines.get(4)).matches("# columns: .+");
                    assertThat(lines.subList(5, lines.size())).isNotEmpty().noneMatch(line -> line.startsWith("#"));
                }));
    }

    @Test
    @DisplayName(
            "attributes of the modules have the keyword, representation and multiplicity of PS3.6, and none is retired")
    void moduleAttributes() throws IOException {
        List<String> wrong = new ArrayList<>();
        for (String[] row : rows("validator/src/main/resources/vestibule/validator/iod/attributes.tsv")) {
            String last = row[1].substring(row[1].lastIndexOf('/') + 1).replace('x', '0');
            if (last.isEmpty()) {
                continue; // a macro stands here, not an attribute
            }
            wrong.addAll(departures(row, last, row[2], row[3]));
            entry(last)
                    .filter(entry ->
                            !entry.attribute().multiplicity().toString().equals(row[4]))
                    .ifPresent(entry -> wrong.add(String.join(" ", List.of(row).subList(0, 3)) + ": PS3.6 has VM "
                            + entry.attribute().multiplicity()));
        }
        // Retired after the edition the module tables are of; to go from here when they are made of a later one.
        assertThat(wrong).containsExactly("patient 00102160 EthnicGroup: retired");
    }

    @Test
    @DisplayName("attributes that camera notes become have the keyword and representation of PS3.6")
    void cameraAttributes() throws IOException {
        List<String> wrong = new ArrayList<>();
        for (String[] row : rows("bridge/src/main/resources/vestibule/bridge/photo/exif.tsv")) {
            wrong.addAll(departures(row, row[2], row[3], row[4]));
        }
        assertThat(wrong).isEmpty();
    }

    private static Optional<AttributeEntry> entry(String digits) {
        return Tag.parse(digits).flatMap(Dictionary.standard()::find);
    }

    private static List<String> departures(String[] row, String digits, String keyword, String representations) {
        String where = String.join(" ", List.of(row).subList(0, 3)) + ": ";
        Optional<AttributeEntry> entry = entry(digits);
        if (entry.isEmpty()) {
            return List.of(where + "not in PS3.6");
        }
        List<String> wrong = new ArrayList<>();
        if (!entry.get().attribute().keyword().equals(keyword)) {
            wrong.add(where + "PS3.6 has " + entry.get().attribute().keyword());
        }
        List<VR> named = Arrays.stream(representations.split("/| or ", -1))
                .map(VR::valueOf)
                .toList();
        if (!entry.get().representations().containsAll(named)) {
            wrong.add(where + "PS3.6 has " + entry.get().representations());
        }
        if (entry.get().retired()) {
            wrong.add(where + "retired");
        }
        return wrong;
    }
}
