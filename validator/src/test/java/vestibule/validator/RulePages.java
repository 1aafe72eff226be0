package vestibule.validator;

import java.util.Map;
import java.util.TreeMap;

/** The pages of {@code docs/rules}: one a rule, and one that lists them. */
final class RulePages {

    private RulePages() {}

    /** File name and text of every page. */
    static Map<String, String> all() {
        Map<String, String> pages = new TreeMap<>();
        StringBuilder index = new StringBuilder("# Rules of the validator\n\nGenerated from the rules; edition "
                + Citation.EDITION + " of the standard. An id stays with its rule for ever.\n");
        RuleId.Family family = null;
        for (Rule rule : Validator.rules()) {
            if (rule.id().family() != family) {
                family = rule.id().family();
                index.append("\n## ")
                        .append(family.title())
                        .append("\n\n| rule | requires | severity |\n|---|---|---|\n");
            }
            index.append("| [%s](%s.md) | %s | %s%s |\n"
                    .formatted(
                            rule.id(),
                            rule.id(),
                            cell(rule.requires()),
                            rule.severity().word(),
                            rule.isHouseRule() ? ", profile practice" : ""));
            pages.put(rule.id() + ".md", page(rule));
        }
        pages.put("README.md", index.toString());
        return pages;
    }

    private static String page(Rule rule) {
        return """
                # %s

                %s

                | | |
                |---|---|
                | clause | %s%s |
                | severity | %s |
                | confidence | %s |
                | profile | %s |
                | what a report says | %s |
                | what to do | %s |
                %s""".formatted(
                        rule.id(),
                        rule.requires(),
                        rule.citation(),
                        rule.isHouseRule() ? "" : " (" + Citation.EDITION + "); a finding may cite the row of a table",
                        rule.severity().word(),
                        rule.confidence().word(),
                        rule.isHouseRule() ? "practice" : "standard, practice",
                        cell(rule.found()),
                        cell(rule.advice()),
                        rule.limit().isEmpty() ? "" : "| how far it looks | " + cell(rule.limit()) + " |\n");
    }

    private static String cell(String text) {
        return text.replace("|", "\\|");
    }
}
