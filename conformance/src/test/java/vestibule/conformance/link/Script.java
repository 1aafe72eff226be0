package vestibule.conformance.link;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashMap;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * What a peer does in one case, and what must come of it.
 *
 * @param name the case in words
 * @param moves what the peer does, in order
 * @param use what we do: {@code open}, {@code echo}, {@code store}, {@code release} or {@code secure}
 * @param outcome what must come of it: the simple name of an exception, {@code Fine} or {@code NotSent}
 * @param words what the sentence must contain
 */
record Script(String name, List<Move> moves, String use, String outcome, String words) {

    /**
     * One move of the peer.
     *
     * @param verb what it does
     * @param hex what it sends, or the type of the PDU it expects
     */
    record Move(String verb, String hex) {
        byte[] bytes() {
            return HexFormat.of().parseHex(hex);
        }
    }

    private static final Pattern TOKEN = Pattern.compile("\"[^\"]*\"|\\S+");

    /** The cases of a file; how it is written stands at its head. */
    static List<Script> read(String file) throws IOException {
        try (InputStream in = Script.class.getResourceAsStream(file)) {
            if (in == null) {
                throw new IOException(file + " is missing");
            }
            return new Reader().read(new String(in.readAllBytes(), StandardCharsets.UTF_8));
        }
    }

    private static final class Reader {
        private final Map<String, byte[]> named = new HashMap<>();
        private final List<Script> scripts = new ArrayList<>();
        private final List<Move> moves = new ArrayList<>();
        private String name = "";
        private String use = "open";

        List<Script> read(String text) {
            text.lines()
                    .map(String::strip)
                    .filter(line -> !line.isEmpty() && !line.startsWith("#"))
                    .forEach(this::line);
            return List.copyOf(scripts);
        }

        private void line(String line) {
            if (line.startsWith("==")) {
                name = line.substring(2).strip();
                moves.clear();
                use = "open";
            } else if (line.startsWith("let ")) {
                String[] sides = line.substring(4).split("=", 2);
                named.put("$" + sides[0].strip(), bytes(sides[1]));
            } else if (line.startsWith("use ")) {
                use = line.substring(4);
            } else if (line.startsWith("expect ")) {
                String[] sides = line.substring(7).split(":", 2);
                scripts.add(new Script(
                        name, List.copyOf(moves), use, sides[0].strip(), sides.length > 1 ? sides[1].strip() : ""));
            } else {
                String[] sides = line.split(" ", 2);
                moves.add(new Move(sides[0], sides.length > 1 ? HexFormat.of().formatHex(bytes(sides[1])) : ""));
            }
        }

        /** Hexadecimal digits, text in quotes, a count with a byte, lengths that are worked out, and what has a name. */
        private byte[] bytes(String text) {
            Deque<ByteArrayOutputStream> open = new ArrayDeque<>(List.of(new ByteArrayOutputStream()));
            Deque<Integer> widths = new ArrayDeque<>();
            Matcher tokens = TOKEN.matcher(text);
            while (tokens.find()) {
                String token = tokens.group();
                if (token.endsWith("[")) {
                    widths.push(Integer.parseInt(token.substring(0, 1)));
                    open.push(new ByteArrayOutputStream());
                } else if (token.equals("]")) {
                    byte[] inner = open.pop().toByteArray();
                    byte[] length = ByteBuffer.allocate(4).putInt(inner.length).array();
                    int width = widths.pop();
                    open.element().write(length, 4 - width, width);
                    open.element().writeBytes(inner);
                } else {
                    open.element().writeBytes(plain(token));
                }
            }
            return open.pop().toByteArray();
        }

        private byte[] plain(String token) {
            if (token.startsWith("\"")) {
                return token.substring(1, token.length() - 1).getBytes(StandardCharsets.ISO_8859_1);
            }
            if (token.startsWith("$")) {
                return named.get(token);
            }
            String[] repeated = token.split("\\*", 2);
            return HexFormat.of()
                    .parseHex(repeated.length == 2 ? repeated[1].repeat(Integer.parseInt(repeated[0])) : token);
        }
    }
}
