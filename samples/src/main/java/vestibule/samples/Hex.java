package vestibule.samples;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;

/**
 * Reads bytes from commented hex text.
 *
 * <p>Pairs of hex digits are bytes, with or without blanks between them; {@code "text"} in double quotes is its UTF-8
 * bytes ({@code \"}, {@code \\} and {@code \0} inside stand for a quote, a backslash and a zero byte); {@code 128 * 00}
 * repeats one byte; {@code #} starts a comment that goes to the end of the line.
 */
public final class Hex {
    /** More than any hand-assembled file needs. */
    private static final int MOST_REPEATS = 1_000_000;

    private final String text;
    private final ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    private int at;

    private Hex(String text) {
        this.text = text;
    }

    /**
     * The bytes a text stands for.
     *
     * @throws IllegalArgumentException with the line, if something else stands there
     */
    public static byte[] read(String text) {
        return new Hex(text).read();
    }

    private byte[] read() {
        while (at < text.length()) {
            char c = text.charAt(at);
            if (c == '#') {
                int end = text.indexOf('\n', at);
                at = end < 0 ? text.length() : end;
            } else if (Character.isWhitespace(c)) {
                at++;
            } else if (c == '"') {
                at++;
                quoted();
            } else if (isRepeat()) {
                repeat();
            } else {
                bytes.write(pair());
            }
        }
        return bytes.toByteArray();
    }

    private void quoted() {
        StringBuilder words = new StringBuilder();
        while (peek() != '"') {
            char c = next();
            if (c == '\n') {
                throw problem("the end of the line", "a closing quote");
            }
            if (c == '\\') {
                char escaped = next();
                words.append(escaped == '0' ? '\0' : escaped);
            } else {
                words.append(c);
            }
        }
        at++;
        bytes.writeBytes(words.toString().getBytes(StandardCharsets.UTF_8));
    }

    /** Whether digits and a star follow. */
    private boolean isRepeat() {
        int i = at;
        while (i < text.length() && Character.digit(text.charAt(i), 10) >= 0) {
            i++;
        }
        int digits = i;
        while (i < text.length() && text.charAt(i) == ' ') {
            i++;
        }
        return digits > at && i < text.length() && text.charAt(i) == '*';
    }

    private void repeat() {
        long count = 0;
        while (Character.digit(peek(), 10) >= 0) {
            count = Math.min(Integer.MAX_VALUE, count * 10 + Character.digit(next(), 10));
        }
        if (count > MOST_REPEATS) {
            throw problem(count + " repeats", "at most " + MOST_REPEATS);
        }
        at = text.indexOf('*', at) + 1;
        while (peek() == ' ') {
            at++;
        }
        int value = pair();
        for (long i = 0; i < count; i++) {
            bytes.write(value);
        }
    }

    private int pair() {
        int high = Character.digit(next(), 16);
        int low = high < 0 ? -1 : Character.digit(next(), 16);
        if (low < 0) {
            at--;
            throw problem(String.valueOf(text.charAt(at)), "two hex digits, a quoted text, a repeat or a comment");
        }
        return (high << 4) | low;
    }

    private char peek() {
        if (at >= text.length()) {
            throw problem("the end of the text", "more");
        }
        return text.charAt(at);
    }

    private char next() {
        char c = peek();
        at++;
        return c;
    }

    private IllegalArgumentException problem(String found, String expected) {
        long line = 1
                + text.substring(0, Math.min(at, text.length()))
                        .chars()
                        .filter(c -> c == '\n')
                        .count();
        return new IllegalArgumentException("line " + line + ": found " + found + ", expected " + expected);
    }
}
