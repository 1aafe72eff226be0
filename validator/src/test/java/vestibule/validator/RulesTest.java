package vestibule.validator;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

@DisplayName("Rules about rules")
class RulesTest {

    @TempDir
    Path folder;

    static Stream<Rule> rules() {
        return Validator.rules().stream();
    }

    private static Map<String, Example> examples() {
        return RuleExamples.all();
    }

    @Test
    @DisplayName("an id belongs to one rule")
    void idsAreUnique() {
        assertThat(rules().map(Rule::id)).doesNotHaveDuplicates();
    }

    @Test
    @DisplayName("every example breaks a rule that exists")
    void examplesHaveRules() {
        assertThat(examples().keySet().stream()
                        .map(name -> name.substring(0, 7))
                        .distinct())
                .containsExactlyInAnyOrderElementsOf(
                        rules().filter(rule -> rule.id().family() != RuleId.Family.BAT)
                                .map(rule -> rule.id().toString())
                                .toList());
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("rules")
    @DisplayName(
            "every rule flags the file that breaks it, with every fact in its place, and passes the good photograph")
    void flagsAndPasses(Rule rule) throws IOException {
        if (rule.id().family() == RuleId.Family.BAT) {
            assertThat(BatchRulesTest.rules()).contains(rule.id().toString());
            return;
        }
        Path broken = folder.resolve("broken.dcm");
        examples().get(rule.id().toString()).write(broken);
        List<Finding> findings = findings(rule, broken);
        assertThat(findings).as("findings in the file that breaks it").isNotEmpty();
        assertThat(findings).allSatisfy(finding -> {
            assertThat(finding.message()).doesNotContainPattern("\\{[a-z]+}");
            assertThat(Citation.of(finding.citation().toString())).isEqualTo(finding.citation());
        });
        Path good = folder.resolve("good.dcm");
        Example.of(Photographs.good()).write(good);
        boolean alwaysNoted = rule.id().toString().equals("MOD-011");
        assertThat(findings(rule, good)).hasSize(alwaysNoted ? 1 : 0);
        if (alwaysNoted) {
            assertThat(Validator.under(Profile.PRACTICE).validate(good).findings())
                    .noneMatch(finding -> finding.rule().equals(rule));
        }
    }

    private static List<Finding> findings(Rule rule, Path file) {
        ObjectReport report =
                Validator.under(Profile.PRACTICE).reading(StreamDepth.CODES).validate(file);
        if (rule.id().toString().equals("MOD-011")) {
            report = Validator.standard().validate(file);
        }
        assertThat(report.reason()).as("reason for not reading").isEmpty();
        return report.findings().stream()
                .filter(finding -> finding.rule().equals(rule))
                .toList();
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("rules")
    @DisplayName("every rule says in sentences what it requires and what to do")
    void saysWhatToDo(Rule rule) {
        assertThat(rule.requires()).endsWith(".").doesNotContain("{");
        assertThat(rule.advice()).endsWith(".").doesNotContain("{");
        assertThat(rule.found()).doesNotEndWith(".");
        assertThat(rule.requires() + rule.found() + rule.advice())
                .doesNotContainIgnoringCase("invalid")
                .doesNotContainIgnoringCase("error occurred");
    }
}
