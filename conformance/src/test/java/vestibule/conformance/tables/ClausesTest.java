package vestibule.conformance.tables;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import vestibule.conformance.Corpus;
import vestibule.validator.Validator;

@DisplayName("The clause that a rule names")
class ClausesTest {

    /** Sections that the facts do not name: by the tables of contents of PS3.5 (edition 2021d) and PS3.10 (from memory). */
    private static final Map<String, Set<String>> BY_CONTENTS = Map.of(
            "PS3.5",
            Set.of(
                    "6.1",
                    "6.3",
                    "6.4",
                    "7.1.1",
                    "7.2",
                    "7.4.3",
                    "7.4.5",
                    "7.5",
                    "7.8",
                    "7.8.1",
                    "8.1.1",
                    "Table 6.2-1"),
            "PS3.10",
            Set.of("7.2"));

    private static String facts() throws IOException {
        Optional<Path> folder =
                Corpus.shared().map(shared -> shared.resolve("standard")).filter(Files::isDirectory);
        assumeTrue(folder.isPresent(), "the facts of the standard are not here");
        StringBuilder text = new StringBuilder();
        try (Stream<Path> files = Files.walk(folder.orElseThrow())) {
            for (Path file : files.filter(one -> one.toString().matches(".*\\.(json|md)"))
                    .sorted()
                    .toList()) {
                text.append(Files.readString(file)).append('\n');
            }
        }
        return text.toString();
    }

    private static List<String> unknown(String facts, Stream<String> clauses) {
        return clauses.filter(clause -> clause.startsWith("PS3."))
                .flatMap(clause -> {
                    String part = clause.substring(0, clause.indexOf(' '));
                    return Stream.of(clause.substring(part.length() + 1).split("[,;] ", -1))
                            .filter(section ->
                                    !BY_CONTENTS.getOrDefault(part, Set.of()).contains(section))
                            .filter(section -> !named(facts, section))
                            .map(section -> part + " " + section);
                })
                .distinct()
                .toList();
    }

    private static boolean named(String facts, String section) {
        return Pattern.compile("(?<![0-9A-Za-z.])" + Pattern.quote(section) + "(?![0-9A-Za-z]|\\.[0-9])")
                .matcher(facts)
                .find();
    }

    @Test
    @DisplayName("is a section that the facts of the standard name, or the contents of its part")
    void exists() throws IOException {
        String facts = facts();
        assertThat(unknown(
                        facts,
                        Validator.rules().stream().map(rule -> rule.citation().toString())))
                .isEmpty();
        assertThat(unknown(facts, Stream.of("PS3.3 C.99.7.1", "PS3.5 7.8.9")))
                .as("a slip would be noticed")
                .containsExactly("PS3.3 C.99.7.1", "PS3.5 7.8.9");
    }
}
