package vestibule.validator.iod;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import vestibule.dicom.data.Tag;
import vestibule.dicom.dict.Dictionary;

/**
 * Reads the little language of conditions: {@code present(K)}, {@code absent(K)}, {@code empty(K)}, {@code hasValue(K)}, {@code K == 'v'},
 * {@code K[3] in ('a','b')}, {@code K > 1}, {@code transferSyntax in (…)}, {@code ext('words')}, {@code true}, with {@code &&},
 * {@code ||}, {@code !} and brackets. {@code K} is a keyword in the same item, {@code /K} in the outermost data set, {@code ../K} in the
 * enclosing item, {@code A//K} anywhere below A.
 */
final class ConditionParser {

    private static final Pattern TOKEN = Pattern.compile("\\s*(?:('[^']*')|([0-9]+(?:\\.[0-9]+)?)"
            + "|((?:/|\\.\\./)?[A-Za-z][A-Za-z0-9]*(?://[A-Za-z][A-Za-z0-9]*)?)|(&&|\\|\\||==|[!()>,\\[\\]]))");

    private final String text;
    private final List<String> tokens;
    private int next;

    private ConditionParser(String text) {
        this.text = text;
        this.tokens = tokens(text);
    }

    /** @throws IllegalArgumentException if the text is not in the language, for the tables are ours */
    static Condition parse(String text) {
        ConditionParser parser = new ConditionParser(text);
        Condition condition = parser.or();
        if (parser.next < parser.tokens.size()) {
            throw parser.unexpected();
        }
        return condition;
    }

    private static List<String> tokens(String text) {
        List<String> tokens = new ArrayList<>();
        Matcher token = TOKEN.matcher(text);
        int end = 0;
        while (end < text.length()) {
            if (!token.find(end) || token.start() != end) {
                throw new IllegalArgumentException("condition \"%s\" at character %d".formatted(text, end));
            }
            tokens.add(token.group().strip());
            end = token.end();
        }
        return tokens;
    }

    private IllegalArgumentException unexpected() {
        return new IllegalArgumentException("condition \"%s\" at word %d".formatted(text, next + 1));
    }

    private String peek() {
        return next < tokens.size() ? tokens.get(next) : "";
    }

    private boolean accept(String token) {
        boolean found = peek().equals(token);
        next += found ? 1 : 0;
        return found;
    }

    private void expect(String token) {
        if (!accept(token)) {
            throw unexpected();
        }
    }

    private Condition or() {
        Condition left = and();
        while (accept("||")) {
            left = new Condition.Or(left, and());
        }
        return left;
    }

    private Condition and() {
        Condition left = not();
        while (accept("&&")) {
            left = new Condition.And(left, not());
        }
        return left;
    }

    private Condition not() {
        if (accept("!")) {
            return new Condition.Not(not());
        }
        if (accept("(")) {
            Condition inner = or();
            expect(")");
            return inner;
        }
        return simple();
    }

    private Condition simple() {
        String word = word();
        return switch (word) {
            case "true" -> new Condition.Constant(true);
            case "present" -> new Condition.Present(Condition.Presence.PRESENT, bracketed());
            case "absent" -> new Condition.Present(Condition.Presence.ABSENT, bracketed());
            case "empty" -> new Condition.Present(Condition.Presence.EMPTY, bracketed());
            case "hasValue" -> new Condition.Present(Condition.Presence.HAS_VALUE, bracketed());
            case "ext" -> new Condition.Outside(literals().get(0));
            case "transferSyntax" -> {
                expect("in");
                yield new Condition.InTransferSyntax(literals());
            }
            default -> comparison(word);
        };
    }

    private Condition comparison(String word) {
        Reference reference = indexed(word);
        if (accept("==")) {
            return new Condition.OneOf(reference, List.of(literal()));
        }
        if (accept(">")) {
            return new Condition.Greater(reference, Double.parseDouble(literal()));
        }
        expect("in");
        return new Condition.OneOf(reference, literals());
    }

    private Reference indexed(String word) {
        Reference whole = reference(word);
        if (!accept("[")) {
            return whole;
        }
        int index = Integer.parseInt(word());
        expect("]");
        return new Reference(whole.from(), whole.sequence(), whole.tag(), index);
    }

    private Reference bracketed() {
        expect("(");
        Reference reference = reference(word());
        expect(")");
        return reference;
    }

    private Reference reference(String word) {
        int below = word.indexOf("//");
        if (below > 0) {
            return new Reference(
                    Reference.From.BELOW,
                    Optional.of(tag(word.substring(0, below))),
                    tag(word.substring(below + 2)),
                    0);
        }
        if (word.startsWith("../")) {
            return new Reference(Reference.From.OUTER, Optional.empty(), tag(word.substring(3)), 0);
        }
        return word.startsWith("/")
                ? new Reference(Reference.From.ROOT, Optional.empty(), tag(word.substring(1)), 0)
                : new Reference(Reference.From.HERE, Optional.empty(), tag(word), 0);
    }

    private Tag tag(String keyword) {
        return Dictionary.standard()
                .find(keyword)
                .orElseThrow(() -> new IllegalArgumentException(
                        "condition \"%s\" names %s, which is not in the dictionary".formatted(text, keyword)))
                .attribute()
                .tag();
    }

    private List<String> literals() {
        expect("(");
        List<String> literals = new ArrayList<>();
        literals.add(literal());
        while (accept(",")) {
            literals.add(literal());
        }
        expect(")");
        return literals;
    }

    private String literal() {
        String word = word();
        return word.startsWith("'") ? word.substring(1, word.length() - 1) : word;
    }

    private String word() {
        if (next >= tokens.size()) {
            throw unexpected();
        }
        return tokens.get(next++);
    }
}
