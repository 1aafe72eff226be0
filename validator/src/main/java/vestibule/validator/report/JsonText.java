package vestibule.validator.report;

import java.io.IOException;
import java.util.ArrayDeque;
import java.util.Deque;

/** Writes JSON (RFC 8259) from front to back. Lone surrogates are written as escapes, so that the text is always well-formed. */
final class JsonText {

    private final Appendable target;
    private final Deque<Boolean> started = new ArrayDeque<>();
    private boolean afterName;

    JsonText(Appendable target) {
        this.target = target;
    }

    JsonText open(char bracket) throws IOException {
        separate();
        target.append(bracket);
        started.push(false);
        return this;
    }

    JsonText close(char bracket) throws IOException {
        started.pop();
        target.append(bracket);
        return this;
    }

    JsonText name(String name) throws IOException {
        separate();
        quote(name);
        target.append(':');
        afterName = true;
        return this;
    }

    JsonText value(String text) throws IOException {
        separate();
        quote(text);
        return this;
    }

    JsonText value(long number) throws IOException {
        separate();
        target.append(Long.toString(number));
        return this;
    }

    JsonText line() throws IOException {
        target.append('\n');
        return this;
    }

    private void separate() throws IOException {
        if (afterName) {
            afterName = false;
            return;
        }
        if (!started.isEmpty()) {
            if (started.pop()) {
                target.append(',');
            }
            started.push(true);
        }
    }

    private void quote(String text) throws IOException {
        target.append('"');
        for (int i = 0; i < text.length(); i++) {
            char c = text.charAt(i);
            if (c == '"' || c == '\\') {
                target.append('\\').append(c);
            } else if (c < 0x20 || c == 0x7F || isLone(text, i)) {
                target.append("\\u%04x".formatted((int) c));
            } else {
                target.append(c);
            }
        }
        target.append('"');
    }

    private static boolean isLone(String text, int i) {
        char c = text.charAt(i);
        if (Character.isHighSurrogate(c)) {
            return i + 1 >= text.length() || !Character.isLowSurrogate(text.charAt(i + 1));
        }
        return Character.isLowSurrogate(c) && (i == 0 || !Character.isHighSurrogate(text.charAt(i - 1)));
    }
}
