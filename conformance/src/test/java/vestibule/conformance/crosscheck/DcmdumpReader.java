package vestibule.conformance.crosscheck;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Deque;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import vestibule.conformance.peer.Scratch;
import vestibule.conformance.peer.Tool;
import vestibule.dicom.data.Bulk;
import vestibule.dicom.data.VR;

/** Readings by DCMTK's dcmdump, all files in one process; pixel data goes through files, so that its bytes are compared too. */
public final class DcmdumpReader {

    private static final Pattern FILE = Pattern.compile("# dcmdump \\(\\d+/\\d+\\): (.*)");
    private static final Pattern ELEMENT = Pattern.compile(
            "( *)\\(([0-9a-f]{4}),([0-9a-f]{4})\\) (\\S\\S) (.*?) +# +(?:\\d+|u/l), ?(\\d+) .*", Pattern.DOTALL);
    private static final Pattern START = Pattern.compile(" *\\([0-9a-f]{4},[0-9a-f]{4}\\) ");

    private final Map<String, Flat.Line> lines = new LinkedHashMap<>();
    private final Deque<String> sequences = new ArrayDeque<>();
    private final Deque<Integer> items = new ArrayDeque<>();

    private DcmdumpReader() {}

    /** What it makes of each file it can read. The test is skipped where dcmdump is absent. */
    public static Map<Path, Flat> read(List<Path> files) throws IOException {
        try (Scratch pixels = Scratch.create()) {
            List<String> arguments = new ArrayList<>(List.of(
                    "-q", "+F", "+L", "+U8", "-Un", "+W", pixels.folder().toString()));
            files.forEach(file -> arguments.add(file.toString()));
            return parse(Tool.named("dcmdump").run(arguments).out());
        }
    }

    /** Our reading with as much of it as dcmdump prints: no bytes but those of encapsulated pixel data, no offset table. */
    public static Flat comparable(Flat ours) {
        Map<String, Flat.Line> lines = new LinkedHashMap<>();
        ours.lines().forEach((path, line) -> lines.put(path, comparable(line)));
        lines.keySet().removeIf(DcmdumpReader::changedByPrinting);
        return new Flat(lines);
    }

    /** It says UTF-8 there, for that is what it prints in. */
    private static boolean changedByPrinting(String path) {
        return path.endsWith("(0008,0005)");
    }

    private static Flat.Line comparable(Flat.Line line) {
        if (!line.values().isEmpty() && line.values().get(0).startsWith("offsets")) {
            List<String> values = new ArrayList<>(line.values());
            values.set(0, "offsets");
            return new Flat.Line(line.vr(), values);
        }
        if (line.vr().equals("FL") || line.vr().equals("FD")) {
            return new Flat.Line(line.vr(), printed(line.values()));
        }
        boolean binary =
                VR.parse(line.vr()).filter(vr -> vr.kind() == VR.Kind.BINARY).isPresent();
        return binary && !line.values().isEmpty() ? new Flat.Line(line.vr(), List.of("1 value")) : line;
    }

    /** As many digits as it prints. */
    private static List<String> printed(List<String> numbers) {
        return numbers.stream()
                .map(number -> String.format(Locale.ROOT, "%.6e", Double.parseDouble(number)))
                .toList();
    }

    private static Map<Path, Flat> parse(String text) throws IOException {
        Map<Path, Flat> readings = new LinkedHashMap<>();
        DcmdumpReader reader = new DcmdumpReader();
        StringBuilder pending = new StringBuilder();
        for (String line : text.split("\n", -1)) {
            Matcher file = FILE.matcher(line);
            boolean starts = file.matches() || START.matcher(line).lookingAt() || line.startsWith("# ");
            if (starts) {
                reader.element(pending.toString());
                pending.setLength(0);
            }
            if (file.matches()) {
                reader.leave(0);
                reader = new DcmdumpReader();
                readings.put(Path.of(file.group(1)), new Flat(reader.lines));
            } else if (!line.startsWith("# ")) {
                pending.append(pending.isEmpty() ? "" : "\n").append(line);
            }
        }
        reader.element(pending.toString());
        reader.leave(0);
        return readings;
    }

    private void element(String text) throws IOException {
        Matcher element = ELEMENT.matcher(text.stripTrailing());
        if (!element.matches()) {
            return;
        }
        int depth = element.group(1).length() / 2;
        String tag = "(%s,%s)".formatted(element.group(2), element.group(3)).toUpperCase(Locale.ROOT);
        String value = element.group(5);
        if (element.group(4).equals("pi")) {
            fragment(value);
        } else if (element.group(2).equals("fffe")) {
            leave(depth + 1);
            if (element.group(3).equals("e000")) {
                items.push(items.pop() + 1);
            }
        } else {
            leave(depth);
            String path = prefix() + tag;
            if (value.startsWith("(Sequence with") || value.startsWith("(PixelSequence")) {
                boolean pixels = value.startsWith("(Pixel");
                lines.put(path, new Flat.Line(pixels ? element.group(4) : "SQ", List.of()));
                sequences.push(path);
                items.push(0);
            } else if (!changedByPrinting(path)) {
                lines.put(path, line(element.group(4).replace("??", "UN"), value, Integer.parseInt(element.group(6))));
            }
        }
    }

    /** An element of that depth stands in half as many sequences: each has items, each item elements. */
    private void leave(int depth) {
        while (sequences.size() > depth / 2) {
            String path = sequences.pop();
            int count = items.pop();
            Flat.Line line = java.util.Objects.requireNonNull(lines.get(path));
            if (line.vr().equals("SQ")) {
                lines.put(path, new Flat.Line("SQ", List.of(String.valueOf(count))));
            }
        }
    }

    private String prefix() {
        return sequences.isEmpty() ? "" : "%s[%d].".formatted(sequences.peek(), items.peek());
    }

    private void fragment(String value) throws IOException {
        String path = java.util.Objects.requireNonNull(sequences.peek());
        Flat.Line pixels = java.util.Objects.requireNonNull(lines.get(path));
        List<String> values = new ArrayList<>(pixels.values());
        if (values.isEmpty()) {
            values.add("offsets");
        } else if (value.startsWith("=")) {
            Path file = Path.of(value.substring(1));
            values.add(Flat.told(Bulk.of(file, 0, Files.size(file))));
        } else {
            values.add(bytes(value));
        }
        lines.put(path, new Flat.Line(pixels.vr(), values));
    }

    private static String bytes(String value) throws IOException {
        String[] pairs = value.split("\\\\", -1);
        byte[] bytes = new byte[pairs.length];
        for (int i = 0; i < bytes.length; i++) {
            bytes[i] = (byte) Integer.parseInt(pairs[i], 16);
        }
        return Flat.told(Bulk.of(bytes));
    }

    private static Flat.Line line(String vr, String value, int count) {
        if (value.equals("(no value available)") || value.equals("(no value)")) {
            return new Flat.Line(vr, List.of());
        }
        VR known = VR.parse(vr).orElse(VR.UN);
        if (value.startsWith("[") && value.endsWith("]")) {
            String text = value.substring(1, value.length() - 1);
            String[] values = known.severalValues() ? text.split("\\\\", -1) : new String[] {text};
            return new Flat.Line(vr, Flat.normal(known, Arrays.asList(values)));
        }
        if (known.kind() == VR.Kind.INTEGER && vr.equals("AT")) {
            return new Flat.Line(
                    vr,
                    Arrays.stream(value.split("\\\\", -1))
                            .map(tag -> String.valueOf(Long.parseLong(tag.replaceAll("[(),]", ""), 16)))
                            .toList());
        }
        if (known.kind() == VR.Kind.REAL) {
            return new Flat.Line(vr, printed(Arrays.asList(value.split("\\\\", -1))));
        }
        if (known.kind() == VR.Kind.INTEGER) {
            return new Flat.Line(vr, Flat.normal(known, Arrays.asList(value.split("\\\\", -1))));
        }
        return new Flat.Line(vr, List.of(count + " value"));
    }
}
