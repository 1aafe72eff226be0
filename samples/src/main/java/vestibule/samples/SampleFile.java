package vestibule.samples;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Locale;

/**
 * A small DICOM file (PS3.10) put together by hand.
 *
 * @param name names the file, and the hex text {@code files/NAME.hex} it is made from
 * @param good whether it keeps to the standard
 * @param shows what it is there to show
 */
public record SampleFile(String name, boolean good, String shows) {
    private static final String LIST = "files/catalogue.tsv";
    private static final List<SampleFile> ALL = readList();

    /** Every hand-assembled file. */
    public static List<SampleFile> all() {
        return ALL;
    }

    /** The list as tab-separated text: name, good or bad, what it shows. */
    public static String catalogue() {
        return resource(LIST);
    }

    /** The commented hex text the file is made from. */
    public String text() {
        return resource("files/" + name + ".hex");
    }

    /** The file. */
    public byte[] bytes() {
        try {
            return Hex.read(text());
        } catch (IllegalArgumentException e) {
            throw new IllegalStateException(name + ".hex, " + e.getMessage(), e);
        }
    }

    /**
     * A well-formed Explicit VR Little Endian file of sequences within sequences, each item holding nothing but the
     * next: a reader that descends by calling itself runs out of stack.
     *
     * @param depth how many sequences deep, 0 to 10,000,000
     */
    public static byte[] nested(int depth) {
        if (depth < 0 || depth > 10_000_000) {
            throw new IllegalArgumentException("depth: found " + depth + ", expected 0 to 10000000");
        }
        byte[] head = Samples.file("explicit-little-endian");
        byte[] open = Hex.read("40 00 30 A7 \"SQ\" 00 00 FF FF FF FF  FE FF 00 E0 FF FF FF FF");
        byte[] close = Hex.read("FE FF 0D E0 00 00 00 00  FE FF DD E0 00 00 00 00");
        ByteArrayOutputStream file = new ByteArrayOutputStream(head.length + depth * (open.length + close.length));
        file.writeBytes(head);
        for (int i = 0; i < depth; i++) {
            file.writeBytes(open);
        }
        for (int i = 0; i < depth; i++) {
            file.writeBytes(close);
        }
        return file.toByteArray();
    }

    private static List<SampleFile> readList() {
        return resource(LIST).lines().skip(1).map(SampleFile::parse).toList();
    }

    private static SampleFile parse(String line) {
        List<String> cells = List.of(line.split("\t", -1));
        if (cells.size() != 3) {
            throw new IllegalStateException(
                    String.format(Locale.ROOT, "%s: found %d columns in a line, expected 3", LIST, cells.size()));
        }
        return new SampleFile(cells.get(0), cells.get(1).equals("good"), cells.get(2));
    }

    private static String resource(String name) {
        try (InputStream in = SampleFile.class.getResourceAsStream(name)) {
            if (in == null) {
                throw new IllegalStateException(name + ": not in the jar of the samples");
            }
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(name + ": could not be read from the jar of the samples", e);
        }
    }
}
