package vestibule.dicom.io;

import java.io.ByteArrayOutputStream;
import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.Charset;
import java.nio.charset.CodingErrorAction;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * Text that changes between character sets by escape sequences (ISO/IEC 2022 as PS3.5 6.1.2.4 and 6.1.2.5 use it; the sets and their escape
 * sequences are PS3.3 Tables C.12-3 and C.12-4). The sets of the first value of (0008,0005) hold at the start and after each delimiter.
 */
final class CodeExtension {

    private static final int ESCAPE = 0x1B;
    private static final char YEN = '\u00A5';

    /**
     * A set that can be designated.
     *
     * @param escape what follows the escape character
     * @param upper whether its bytes have the high bit: code element G1, else G0
     * @param width bytes of one character
     * @param charset Java's name for it
     */
    private record Designation(String escape, boolean upper, int width, String charset) {

        Optional<String> decode(byte[] character) {
            try {
                return Optional.of(Charset.forName(charset)
                        .newDecoder()
                        .onMalformedInput(CodingErrorAction.REPORT)
                        .onUnmappableCharacter(CodingErrorAction.REPORT)
                        .decode(ByteBuffer.wrap(character))
                        .toString());
            } catch (CharacterCodingException notInThisSet) {
                return Optional.empty();
            }
        }

        Optional<byte[]> encode(String character) {
            try {
                ByteBuffer bytes = Charset.forName(charset)
                        .newEncoder()
                        .onMalformedInput(CodingErrorAction.REPORT)
                        .onUnmappableCharacter(CodingErrorAction.REPORT)
                        .encode(CharBuffer.wrap(character));
                byte[] exact = new byte[bytes.remaining()];
                bytes.get(exact);
                boolean ours = exact.length == width && (exact[0] < 0) == upper;
                return ours ? Optional.of(exact) : Optional.empty();
            } catch (CharacterCodingException notInThisSet) {
                return Optional.empty();
            }
        }
    }

    private static final Designation ASCII = new Designation("(B", false, 1, "US-ASCII");
    private static final Designation ROMAJI = new Designation("(J", false, 1, "JIS_X0201");

    /** One line a defined term: its number, and the set it adds. */
    private enum Term {
        IR_6("6", ASCII),
        IR_100("100", new Designation("-A", true, 1, "ISO-8859-1")),
        IR_101("101", new Designation("-B", true, 1, "ISO-8859-2")),
        IR_109("109", new Designation("-C", true, 1, "ISO-8859-3")),
        IR_110("110", new Designation("-D", true, 1, "ISO-8859-4")),
        IR_144("144", new Designation("-L", true, 1, "ISO-8859-5")),
        IR_127("127", new Designation("-G", true, 1, "ISO-8859-6")),
        IR_126("126", new Designation("-F", true, 1, "ISO-8859-7")),
        IR_138("138", new Designation("-H", true, 1, "ISO-8859-8")),
        IR_148("148", new Designation("-M", true, 1, "ISO-8859-9")),
        IR_203("203", new Designation("-b", true, 1, "ISO-8859-15")),
        IR_13("13", new Designation(")I", true, 1, "JIS_X0201")),
        IR_166("166", new Designation("-T", true, 1, "TIS-620")),
        IR_87("87", new Designation("$B", false, 2, "x-JIS0208")),
        IR_159("159", new Designation("$(D", false, 2, "JIS_X0212-1990")),
        IR_149("149", new Designation("$)C", true, 2, "EUC-KR")),
        IR_58("58", new Designation("$)A", true, 2, "GB2312"));

        private final String number;

        @SuppressWarnings("ImmutableEnumChecker") // a record of immutable parts
        private final Designation designation;

        Term(String number, Designation designation) {
            this.number = number;
            this.designation = designation;
        }

        static Optional<Term> of(String defined) {
            String name = defined.replaceFirst("^ISO( 2022 IR|_IR) ", "");
            return name.equals(defined)
                    ? Optional.empty()
                    : Arrays.stream(values())
                            .filter(term -> term.number.equals(name))
                            .findFirst();
        }
    }

    /** What is designated at a moment. */
    private record State(Designation lower, @Nullable Designation upper) {
        State with(Designation other) {
            return other.upper ? new State(lower, other) : new State(other, upper);
        }
    }

    private final State initial;
    private final List<Designation> declared;

    private CodeExtension(State initial, List<Designation> declared) {
        this.initial = initial;
        this.declared = declared;
    }

    /** Code extension among these terms, the first of which may be empty; empty if one is unknown or cannot be extended. */
    static Optional<CodeExtension> of(List<String> terms) {
        List<Designation> declared = new ArrayList<>();
        State initial = new State(ASCII, null);
        for (int i = 0; i < terms.size(); i++) {
            Optional<Term> term = terms.get(i).isEmpty() && i == 0 ? Optional.of(Term.IR_6) : Term.of(terms.get(i));
            if (term.isEmpty() || !Charset.isSupported(term.get().designation.charset)) {
                return Optional.empty();
            }
            if (i == 0) {
                initial = first(term.get());
            }
            declared.add(term.get().designation);
            declared.add(term.get() == Term.IR_13 ? ROMAJI : ASCII);
        }
        return Optional.of(new CodeExtension(initial, declared));
    }

    private static State first(Term term) {
        State plain = new State(term == Term.IR_13 ? ROMAJI : ASCII, null);
        return term == Term.IR_6 ? plain : plain.with(term.designation);
    }

    /**
     * The text of these bytes.
     *
     * @param personName whether carets and equals signs are delimiters too (PS3.5 6.1.2.5.3)
     * @return empty if a byte stands where no set has it, or an escape sequence was not declared
     */
    Optional<String> decode(byte[] bytes, boolean personName) {
        StringBuilder text = new StringBuilder();
        State state = initial;
        int at = 0;
        while (at < bytes.length) {
            int value = bytes[at] & 0xFF;
            if (value == ESCAPE) {
                Optional<Designation> next = designated(bytes, at + 1);
                if (next.isEmpty()) {
                    return Optional.empty();
                }
                state = state.with(next.get());
                at += 1 + next.get().escape.length();
            } else if (isDelimiter(value, personName) && (value < 0x20 || state.lower.width == 1)) {
                text.append((char) value);
                state = initial;
                at++;
            } else {
                Designation set = value < 0x20 ? ASCII : value < 0x80 ? state.lower : state.upper;
                Optional<String> character = character(bytes, at, set);
                if (set == null || character.isEmpty()) {
                    return Optional.empty();
                }
                text.append(character.get());
                at += set.width;
            }
        }
        return Optional.of(text.toString());
    }

    private static Optional<String> character(byte[] bytes, int at, @Nullable Designation set) {
        return set == null || at + set.width > bytes.length
                ? Optional.empty()
                : set.decode(Arrays.copyOfRange(bytes, at, at + set.width));
    }

    private Optional<Designation> designated(byte[] bytes, int at) {
        return declared.stream()
                .filter(set -> startsWith(bytes, at, set.escape))
                .max(java.util.Comparator.comparingInt(set -> set.escape.length()));
    }

    private static boolean startsWith(byte[] bytes, int at, String escape) {
        if (at + escape.length() > bytes.length) {
            return false;
        }
        for (int i = 0; i < escape.length(); i++) {
            if (bytes[at + i] != escape.charAt(i)) {
                return false;
            }
        }
        return true;
    }

    private static boolean isDelimiter(int value, boolean personName) {
        return value == '\\'
                || value == '\t'
                || value == '\n'
                || value == '\f'
                || value == '\r'
                || (personName && (value == '^' || value == '='));
    }

    /**
     * The bytes of a text; the first sets are returned to before each delimiter and at the end.
     *
     * @return empty if no declared set has one of the characters
     */
    Optional<byte[]> encode(String text, boolean personName) {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        State state = initial;
        for (int at = 0; at < text.length(); at = text.offsetByCodePoints(at, 1)) {
            int point = text.codePointAt(at);
            if (isDelimiter(point, personName)) {
                comeBack(bytes, state);
                bytes.write(point);
                state = initial;
                continue;
            }
            String character = Character.toString(point);
            // An escape among the text would be read as the start of a designation (PS3.5 6.1.3)
            boolean never = point == YEN || point == ESCAPE;
            Optional<State> next = never ? Optional.empty() : stateFor(state, character);
            if (next.isEmpty()) {
                return Optional.empty();
            }
            designate(bytes, state, next.get());
            state = next.get();
            bytes.writeBytes(encoded(state, character).orElseThrow());
        }
        comeBack(bytes, state);
        return Optional.of(bytes.toByteArray());
    }

    private Optional<State> stateFor(State state, String character) {
        if (encoded(state, character).isPresent()) {
            return Optional.of(state);
        }
        return declared.stream()
                .filter(set -> set.encode(character).isPresent())
                .map(state::with)
                .findFirst();
    }

    private static Optional<byte[]> encoded(State state, String character) {
        Optional<byte[]> lower = state.lower.encode(character);
        return lower.isPresent() || state.upper == null ? lower : state.upper.encode(character);
    }

    private static void designate(ByteArrayOutputStream bytes, State from, State to) {
        if (!to.lower.equals(from.lower)) {
            escape(bytes, to.lower);
        }
        if (to.upper != null && !Objects.equals(to.upper, from.upper)) {
            escape(bytes, to.upper);
        }
    }

    private void comeBack(ByteArrayOutputStream bytes, State state) {
        designate(bytes, state, initial);
    }

    private static void escape(ByteArrayOutputStream bytes, Designation set) {
        bytes.write(ESCAPE);
        set.escape.chars().forEach(bytes::write);
    }
}
