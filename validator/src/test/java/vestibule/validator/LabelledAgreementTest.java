package vestibule.validator;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import vestibule.dicom.data.DataSet;

/** All of them: {@code conformance/campaign.sh labelled}. */
@DisplayName("Objects with one known defect each, against an independent checker (dciodvfy)")
class LabelledAgreementTest {

    private static final Pattern ATTRIBUTE = Pattern.compile("\\([0-9a-f]{4},[0-9a-f]{4}\\)");

    /**
     * What the checker calls an error and we do not.
     *
     * @param rule the rule that found the defect
     * @param error what the checker says
     * @param reason why it is none, with the clause
     */
    private record Explained(String rule, String error, String reason) {}

    private static final List<Explained> EXPLAINED = List.of(
            new Explained(
                    "MOD-001",
                    "</PixelData(7fe0,0010)> - Empty attribute (no value) for Type 1C Conditional",
                    "Pixel Data has its fragments (PS3.5 A.4); only Rows or Columns, by which the checker measures it, was taken out (PS3.3 C.7.6.3)"));

    @TempDir
    Path folder;

    @Test
    @DisplayName("whatever it calls an error is an error to us at the same attribute, or is none for a reason")
    void agreement() throws IOException, InterruptedException {
        assumeTrue(IndependentChecker.isThere(), "dciodvfy (Debian package dicom3tools) is not installed");
        long seed = Long.getLong("labelled.seed", 20_261_126L);
        List<LabelledSet.Labelled> sample = new ArrayList<>(LabelledSet.all());
        Collections.shuffle(sample, new Random(seed));
        sample = sample.subList(0, Math.min(sample.size(), Integer.getInteger("labelled.objects", 60)));
        Map<DataSet, Set<String>> usual = usual();
        List<List<String>> theirs = theirs(sample);
        List<String> missed = new ArrayList<>();
        int errors = 0;
        int explained = 0;
        for (int i = 0; i < sample.size(); i++) {
            LabelledSet.Labelled one = sample.get(i);
            Set<String> places = errorPlaces(one.broken());
            for (String error : theirs.get(i)) {
                boolean known = usual.get(one.base()).contains(error);
                errors += known ? 0 : 1;
                if (!known && isExplained(one, error)) {
                    explained++;
                } else if (!known && places.stream().noneMatch(attributes(error)::contains)) {
                    missed.add(one.what() + ": " + error);
                }
            }
        }
        System.out.printf(
                "%d labelled objects, seed %d: %d errors to dciodvfy, %d of them explained, %d missed%n",
                sample.size(), seed, errors, explained, missed.size());
        assertThat(missed).isEmpty();
        assertThat(errors).isGreaterThanOrEqualTo(sample.size());
    }

    private Map<DataSet, Set<String>> usual() throws IOException, InterruptedException {
        Map<DataSet, Set<String>> usual = new HashMap<>();
        for (DataSet base : LabelledSet.bases().values()) {
            Path file = folder.resolve("base.dcm");
            RawWriter.write(file, base, Photographs.SYNTAX);
            usual.put(
                    base, new HashSet<>(IndependentChecker.errors(List.of(file)).get(0)));
        }
        return usual;
    }

    private List<List<String>> theirs(List<LabelledSet.Labelled> sample) throws IOException, InterruptedException {
        List<Path> files = new ArrayList<>();
        for (LabelledSet.Labelled one : sample) {
            Path file = folder.resolve(files.size() + ".dcm");
            RawWriter.write(file, one.broken(), Photographs.SYNTAX);
            files.add(file);
        }
        return IndependentChecker.errors(files);
    }

    private static boolean isExplained(LabelledSet.Labelled one, String error) {
        return EXPLAINED.stream()
                .anyMatch(explained -> explained.rule().equals(one.rule()) && error.contains(explained.error()));
    }

    /** The attributes of which we find an error or a warning. */
    private Set<String> errorPlaces(DataSet broken) throws IOException {
        Path file = folder.resolve("ours.dcm");
        RawWriter.write(file, broken, Photographs.SYNTAX);
        Set<String> places = new HashSet<>();
        for (Finding finding : Validator.standard().validate(file).findings()) {
            if (finding.severity() != Severity.NOTE) {
                places.addAll(attributes(finding.where().toString()));
            }
        }
        return places;
    }

    private static Set<String> attributes(String text) {
        Set<String> attributes = new HashSet<>();
        Matcher matcher = ATTRIBUTE.matcher(text.toLowerCase(java.util.Locale.ROOT));
        while (matcher.find()) {
            attributes.add(matcher.group());
        }
        return attributes;
    }
}
