package vestibule.validator;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

@DisplayName("Objects with one known defect each")
class LabelledSetTest {

    @TempDir
    Path folder;

    private static final Validator VALIDATOR = Validator.under(Profile.PRACTICE);

    @Test
    @DisplayName("are 400 and more; each defect is found by its rule, and nothing else is found")
    void found() throws IOException {
        List<LabelledSet.Labelled> all = LabelledSet.all();
        List<String> wrong = new ArrayList<>();
        for (LabelledSet.Labelled one : all) {
            Set<String> before = lines(one.base());
            Set<String> rules = new TreeSet<>();
            for (Finding finding : check(one.broken()).findings()) {
                if (!before.contains(finding.toString())) {
                    rules.add(finding.rule().id().toString());
                }
            }
            if (!rules.equals(Set.of(one.rule()))) {
                wrong.add(one.what() + ": expected " + one.rule() + ", found " + rules);
            }
        }
        System.out.println(all.size() + " objects with one defect each");
        assertThat(wrong).isEmpty();
        assertThat(all).hasSizeGreaterThanOrEqualTo(400);
    }

    @Test
    @DisplayName("are made of good ones, in which no error and no warning is found")
    void good() throws IOException {
        for (var base : LabelledSet.bases().entrySet()) {
            assertThat(check(base.getValue()).findings())
                    .as(base.getKey())
                    .noneMatch(finding -> finding.severity() != Severity.NOTE);
        }
    }

    private ObjectReport check(vestibule.dicom.data.DataSet dataSet) throws IOException {
        Path file = folder.resolve("object.dcm");
        RawWriter.write(file, dataSet, Photographs.SYNTAX);
        return VALIDATOR.validate(file);
    }

    private Set<String> lines(vestibule.dicom.data.DataSet base) throws IOException {
        return check(base).findings().stream().map(Finding::toString).collect(Collectors.toSet());
    }
}
