package vestibule.conformance.crosscheck;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import vestibule.conformance.Corpus;
import vestibule.conformance.peer.Tool;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.io.DicomFile;
import vestibule.dicom.io.DicomFormatException;
import vestibule.dicom.io.TransferSyntax;

@DisplayName("Readers agree on every element of every file (PS3.5 7, PS3.10 7)")
class ReadersAgreeTest {

    @TempDir
    private Path folder;

    private static List<Corpus.Row> objects() throws IOException {
        return Corpus.rows("dicom").stream()
                .filter(row -> !row.toString().endsWith(".jpg"))
                .toList();
    }

    private static Map<Path, Flat> ours(List<Path> files) throws IOException {
        Map<Path, Flat> readings = new LinkedHashMap<>();
        for (Path path : files) {
            try {
                DicomFile file = DicomFile.read(path);
                readings.put(path, Flat.of(file.meta(), file.dataSet()));
            } catch (DicomFormatException refused) {
                assertThat(refused.getMessage()).isNotBlank();
            }
        }
        return readings;
    }

    @Test
    @DisplayName("pydicom and our reader, over the corpus")
    void pydicom() throws IOException {
        List<Path> files = objects().stream().map(Corpus.Row::path).toList();
        Map<Path, Flat> ours = ours(files);
        KnownDifferences known = KnownDifferences.of("pydicom");
        List<String> differences = new ArrayList<>();
        int compared = 0;
        for (Map.Entry<Path, Optional<Flat>> reading : PydicomReader.read(files).entrySet()) {
            Flat our = ours.get(reading.getKey());
            String name = String.valueOf(reading.getKey().getFileName());
            if (our != null && reading.getValue().isPresent()) {
                compared++;
                differences.addAll(known.unexplained(
                        name, our.differences(reading.getValue().get())));
            } else if (our == null) {
                differences.addAll(known.unexplained(name, List.of("not read by us")));
            } else {
                differences.addAll(known.unexplained(name, List.of("not read by them")));
            }
        }
        assertThat(differences).isEmpty();
        assertThat(known.idle()).as("rows of the table that explain nothing").isEmpty();
        assertThat(compared).isGreaterThan(80);
    }

    @Test
    @DisplayName("dcmdump and our reader, over the corpus")
    void dcmdump() throws IOException {
        List<Path> files = objects().stream().map(Corpus.Row::path).toList();
        KnownDifferences known = KnownDifferences.of("dcmdump");
        List<String> differences = new ArrayList<>();
        int compared = 0;
        Map<Path, Flat> theirs = DcmdumpReader.read(files);
        for (Map.Entry<Path, Flat> our : ours(files).entrySet()) {
            Flat their = theirs.get(our.getKey());
            String name = String.valueOf(our.getKey().getFileName());
            if (their != null && !their.lines().isEmpty()) {
                compared++;
                differences.addAll(known.unexplained(
                        name, DcmdumpReader.comparable(our.getValue()).differences(their)));
            } else {
                differences.addAll(known.unexplained(name, List.of("not read by them")));
            }
        }
        assertThat(differences).isEmpty();
        assertThat(known.idle()).as("rows of the table that explain nothing").isEmpty();
        assertThat(compared).isGreaterThan(80);
    }

    /** Debian's build of DCMTK cannot turn ISO 2022 IR 87 and 159 into UTF-8, and prints nothing of such a file. */
    private static boolean needsIso2022(Path file) throws IOException {
        return DicomFile.read(file).dataSet().texts(Attributes.SPECIFIC_CHARACTER_SET).stream()
                .anyMatch(term -> term.equals("ISO 2022 IR 87") || term.equals("ISO 2022 IR 159"));
    }

    @Test
    @DisplayName("pydicom, dcmdump and dcmftest take what our writer makes of the corpus")
    void writer() throws IOException {
        List<Path> written = new ArrayList<>();
        for (Corpus.Row row : objects()) {
            Optional<Path> copy = copy(row.path(), "%03d.dcm".formatted(written.size()));
            copy.ifPresent(written::add);
        }
        assertThat(written).hasSizeGreaterThan(60);
        List<String> arguments = written.stream().map(Path::toString).toList();
        assertThat(Tool.named("dcmftest").run(arguments).out().lines()).allMatch(line -> line.startsWith("yes: "));
        Map<Path, Flat> ours = ours(written);
        Map<Path, Flat> dcmdump = DcmdumpReader.read(written);
        Map<Path, Optional<Flat>> pydicom = PydicomReader.read(written);
        KnownDifferences known = KnownDifferences.of("written");
        List<String> differences = new ArrayList<>();
        for (Path file : written) {
            Flat our = ours.get(file);
            differences.addAll(
                    known.unexplained("any", our.differences(pydicom.get(file).orElseThrow())));
            if (!needsIso2022(file)) {
                differences.addAll(
                        known.unexplained("any", DcmdumpReader.comparable(our).differences(dcmdump.get(file))));
            }
        }
        assertThat(differences).isEmpty();
        assertThat(known.idle()).as("rows of the table that explain nothing").isEmpty();
    }

    /** Written anew, in the same transfer syntax where we write it, else in Explicit VR Little Endian; nothing where we refuse. */
    private Optional<Path> copy(Path source, String name) throws IOException {
        try {
            DicomFile file = DicomFile.read(source);
            TransferSyntax syntax = file.transferSyntax().encapsulated()
                            || !file.transferSyntax().explicit()
                    ? file.transferSyntax()
                    : TransferSyntax.EXPLICIT_VR_LITTLE_ENDIAN;
            DataSet dataSet = file.dataSet();
            Path target = folder.resolve(name);
            DicomFile.write(target, dataSet, syntax);
            return Optional.of(target);
        } catch (DicomFormatException refused) {
            assertThat(Files.exists(folder.resolve(name))).isFalse();
            return Optional.empty();
        }
    }
}
