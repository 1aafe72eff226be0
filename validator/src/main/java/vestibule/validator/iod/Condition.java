package vestibule.validator.iod;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import vestibule.dicom.data.Element;

/** When an attribute is required (PS3.5 7.4.2, 7.4.4), as far as an object can show it. */
sealed interface Condition {

    Truth test(Scope scope, OutsideKnowledge outside);

    /** The words of what no data set says of itself, in this condition. */
    default Stream<String> outsideWords() {
        return Stream.empty();
    }

    /** Always or never. */
    record Constant(boolean value) implements Condition {
        @Override
        public Truth test(Scope scope, OutsideKnowledge outside) {
            return Truth.of(value);
        }
    }

    /** What is asked about an attribute as a whole. */
    enum Presence {
        PRESENT,
        ABSENT,
        EMPTY,
        HAS_VALUE
    }

    /** Whether an attribute is there, or has a value. */
    record Present(Presence presence, Reference reference) implements Condition {
        @Override
        public Truth test(Scope scope, OutsideKnowledge outside) {
            Optional<Element> element = reference.find(scope);
            boolean filled = element.filter(Values::isFilled).isPresent();
            return Truth.of(
                    switch (presence) {
                        case PRESENT -> element.isPresent();
                        case ABSENT -> element.isEmpty();
                        case EMPTY -> !filled;
                        case HAS_VALUE -> filled;
                    });
        }
    }

    /** Whether a value is one of a list. */
    record OneOf(Reference reference, List<String> literals) implements Condition {
        @Override
        public Truth test(Scope scope, OutsideKnowledge outside) {
            return Truth.of(reference.values(scope).stream().anyMatch(literals::contains));
        }
    }

    /** Whether a number is greater; unknown where there is no number. */
    record Greater(Reference reference, double limit) implements Condition {
        private static final Pattern NUMBER = Pattern.compile("[+-]?[0-9]{1,15}(?:\\.[0-9]{1,15})?");

        @Override
        public Truth test(Scope scope, OutsideKnowledge outside) {
            List<String> values = reference.values(scope);
            OptionalDouble number = values.isEmpty() ? OptionalDouble.empty() : number(values.get(0));
            return number.isPresent() ? Truth.of(number.getAsDouble() > limit) : Truth.UNKNOWN;
        }

        private static OptionalDouble number(String text) {
            return NUMBER.matcher(text).matches()
                    ? OptionalDouble.of(Double.parseDouble(text))
                    : OptionalDouble.empty();
        }
    }

    /** Whether the object is, or is to be, in one of these transfer syntaxes. */
    record InTransferSyntax(List<String> uids) implements Condition {
        @Override
        public Truth test(Scope scope, OutsideKnowledge outside) {
            return Truth.of(uids.contains(scope.subject().transferSyntax().uid().value()));
        }
    }

    /** Something that a data set does not say of itself. */
    record Outside(String words) implements Condition {
        @Override
        public Truth test(Scope scope, OutsideKnowledge outside) {
            return outside.test(words, scope);
        }

        @Override
        public Stream<String> outsideWords() {
            return Stream.of(words);
        }
    }

    record Not(Condition inner) implements Condition {
        @Override
        public Truth test(Scope scope, OutsideKnowledge outside) {
            return inner.test(scope, outside).not();
        }

        @Override
        public Stream<String> outsideWords() {
            return inner.outsideWords();
        }
    }

    record And(Condition left, Condition right) implements Condition {
        @Override
        public Truth test(Scope scope, OutsideKnowledge outside) {
            return left.test(scope, outside).and(right.test(scope, outside));
        }

        @Override
        public Stream<String> outsideWords() {
            return Stream.concat(left.outsideWords(), right.outsideWords());
        }
    }

    record Or(Condition left, Condition right) implements Condition {
        @Override
        public Truth test(Scope scope, OutsideKnowledge outside) {
            return left.test(scope, outside).or(right.test(scope, outside));
        }

        @Override
        public Stream<String> outsideWords() {
            return Stream.concat(left.outsideWords(), right.outsideWords());
        }
    }
}
