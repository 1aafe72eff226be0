package vestibule.validator;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.io.DicomFile;

@DisplayName("Against an independent checker (dciodvfy)")
class AgreementTest {

    @TempDir
    Path folder;

    @BeforeEach
    void needsTheChecker() {
        assumeTrue(IndependentChecker.isThere(), "dciodvfy (Debian package dicom3tools) is not installed");
    }

    @Test
    @DisplayName("the good objects of these tests are good")
    void goodIsGood() throws IOException, InterruptedException {
        List<Path> files = new ArrayList<>();
        for (DataSet good : List.of(Photographs.good(), Photographs.grey(), RichPhotograph.good())) {
            Path file = folder.resolve(files.size() + ".dcm");
            DicomFile.write(file, good, Photographs.SYNTAX);
            files.add(file);
            assertThat(Validator.standard().validate(file).errors()).isEmpty();
        }
        assertThat(IndependentChecker.errors(files)).allMatch(List::isEmpty);
    }

    @Test
    @DisplayName("whatever it calls an error when an attribute is taken out, we call an error")
    void removals() throws IOException, InterruptedException {
        assertAgreement(Stream.of(
                Mutation.removals(Photographs.good()),
                Mutation.removals(Photographs.grey()),
                Mutation.removals(RichPhotograph.good())));
    }

    @Test
    @DisplayName("whatever it calls an error when an attribute loses its value, we call an error")
    void emptyings() throws IOException, InterruptedException {
        assertAgreement(Stream.of(
                Mutation.emptyings(Photographs.good()),
                Mutation.emptyings(Photographs.grey()),
                Mutation.emptyings(RichPhotograph.good())));
    }

    @Test
    @DisplayName("whatever it calls an error when a code string says something else, we call an error")
    void words() throws IOException, InterruptedException {
        assertAgreement(
                Stream.of(Mutation.unknownWords(Photographs.good()), Mutation.unknownWords(RichPhotograph.good())));
    }

    @Test
    @DisplayName("whatever it calls an error when a value has another form, we call an error")
    void forms() throws IOException, InterruptedException {
        assertAgreement(Stream.of(Mutation.illForms(Photographs.good()), Mutation.illForms(RichPhotograph.good())));
    }

    @Test
    @DisplayName("whatever it calls an error when an item comes twice, we call an error")
    void items() throws IOException, InterruptedException {
        assertAgreement(Stream.of(Mutation.doubledItems(RichPhotograph.good())));
    }

    private void assertAgreement(Stream<List<Mutation>> kinds) throws IOException, InterruptedException {
        List<Mutation> mutations = kinds.flatMap(List::stream).toList();
        List<Path> files = new ArrayList<>();
        for (Mutation mutation : mutations) {
            Path file = folder.resolve(files.size() + ".dcm");
            RawWriter.write(file, mutation.changed(), Photographs.SYNTAX);
            files.add(file);
        }
        List<List<String>> theirs = IndependentChecker.errors(files);
        List<String> missed = new ArrayList<>();
        int found = 0;
        for (int i = 0; i < files.size(); i++) {
            ObjectReport report = Validator.standard().validate(files.get(i));
            found += report.isAcceptable() ? 0 : 1;
            if (report.isAcceptable()) {
                String what = mutations.get(i).what();
                theirs.get(i).stream()
                        .filter(error -> !isExplained(error, report))
                        .forEach(error -> missed.add(what + ": " + error));
            }
            Files.delete(files.get(i));
        }
        System.out.printf(
                "%d mutations: %d are errors to dciodvfy, %d to us%n",
                files.size(),
                theirs.stream().filter(errors -> !errors.isEmpty()).count(),
                found);
        assertThat(missed).isEmpty();
    }

    /**
     * Where the checker is stricter than the text: an optional sequence may be there without items (PS3.5 7.4.5), of which we warn; and
     * Laterality is asked for only where the body part is paired (PS3.3 C.7.3.1), which the jaw region is not (PS3.16 Annex L).
     */
    private static boolean isExplained(String error, ObjectReport ours) {
        boolean noItems = Stream.of(
                        "number of Items = <0>",
                        "A single Item is required if",
                        "Value Multiplicity for Type 3 Optional",
                        "even though condition not satisfied")
                .anyMatch(error::contains);
        boolean warned = ours.findings().stream()
                .anyMatch(finding -> finding.rule().id().toString().equals("MOD-015"));
        return (noItems && warned) || error.contains("</Laterality(0020,0060)> - Missing");
    }
}
