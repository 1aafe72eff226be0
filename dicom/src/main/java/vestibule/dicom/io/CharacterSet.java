package vestibule.dicom.io;

import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.Charset;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import vestibule.dicom.data.VR;

/**
 * What Specific Character Set (0008,0005) makes of the bytes of text (PS3.3 C.12.1.1.2, tables C.12-2 and C.12-5): the single sets
 * without code extension, the three that stand alone, and those that change by escape sequences (ISO 2022).
 */
public final class CharacterSet {

    /** The default repertoire, ISO-IR 6, when (0008,0005) is absent (PS3.5 6.1.2.1). */
    public static final CharacterSet DEFAULT = new CharacterSet(List.of(), StandardCharsets.US_ASCII);
    /** UTF-8: what we write as soon as a character leaves the default repertoire. */
    public static final CharacterSet UTF_8 = new CharacterSet(List.of("ISO_IR 192"), StandardCharsets.UTF_8);

    private static final Map<String, String> SETS = Map.ofEntries(
            Map.entry("ISO_IR 192", "UTF-8"),
            Map.entry("GB18030", "GB18030"),
            Map.entry("GBK", "GBK"),
            Map.entry("ISO_IR 6", "US-ASCII"),
            Map.entry("ISO_IR 100", "ISO-8859-1"),
            Map.entry("ISO_IR 101", "ISO-8859-2"),
            Map.entry("ISO_IR 109", "ISO-8859-3"),
            Map.entry("ISO_IR 110", "ISO-8859-4"),
            Map.entry("ISO_IR 144", "ISO-8859-5"),
            Map.entry("ISO_IR 127", "ISO-8859-6"),
            Map.entry("ISO_IR 126", "ISO-8859-7"),
            Map.entry("ISO_IR 138", "ISO-8859-8"),
            Map.entry("ISO_IR 148", "ISO-8859-9"),
            Map.entry("ISO_IR 203", "ISO-8859-15"),
            Map.entry("ISO_IR 13", "JIS_X0201"),
            Map.entry("ISO_IR 166", "TIS-620"));

    private static final char YEN = '\u00A5';

    private final List<String> terms;
    private final Charset charset;
    private final @Nullable CodeExtension extension;

    private CharacterSet(List<String> terms, Charset charset) {
        this(terms, charset, null);
    }

    private CharacterSet(List<String> terms, Charset charset, @Nullable CodeExtension extension) {
        this.terms = List.copyOf(terms);
        this.charset = charset;
        this.extension = extension;
    }

    /**
     * The character set of the values of (0008,0005).
     *
     * @return empty if a term is unknown, or stands with others that it may not stand with
     */
    public static Optional<CharacterSet> of(List<String> terms) {
        List<String> named = terms.stream().map(String::strip).toList();
        if (named.isEmpty() || named.equals(List.of(""))) {
            return Optional.of(DEFAULT);
        }
        String set = named.size() == 1 ? SETS.get(named.get(0)) : null;
        if (set != null && Charset.isSupported(set)) {
            return Optional.of(new CharacterSet(named, Charset.forName(set)));
        }
        return CodeExtension.of(named).map(extension -> new CharacterSet(named, StandardCharsets.US_ASCII, extension));
    }

    /** The smallest set we write that holds all of a text: the default repertoire, or UTF-8. */
    public static CharacterSet toWrite(String text) {
        return text.chars().allMatch(c -> c < 0x80) ? DEFAULT : UTF_8;
    }

    /** The values of (0008,0005) that name this set; none for the default repertoire. */
    public List<String> terms() {
        return terms;
    }

    private boolean romaji() {
        return charset.name().equals("JIS_X0201");
    }

    /** The text of these bytes in a value of that representation; empty if the set does not have one of them. */
    Optional<String> decode(byte[] bytes, VR vr) {
        return extension == null ? decode(bytes) : extension.decode(bytes, vr == VR.PN);
    }

    /** The bytes of a text in a value of that representation; empty if the set does not have one of its characters. */
    Optional<byte[]> encode(String text, VR vr) {
        return extension == null ? encode(text) : extension.encode(text, vr == VR.PN);
    }

    private Optional<String> decode(byte[] bytes) {
        try {
            CharBuffer text = charset.newDecoder()
                    .onMalformedInput(CodingErrorAction.REPORT)
                    .onUnmappableCharacter(CodingErrorAction.REPORT)
                    .decode(ByteBuffer.wrap(bytes));
            // Byte 5C parts values although ISO-IR 14 shows a yen sign there (PS3.5 6.1.2.3)
            return Optional.of(romaji() ? text.toString().replace(YEN, '\\') : text.toString());
        } catch (CharacterCodingException notInThisSet) {
            return Optional.empty();
        }
    }

    private Optional<byte[]> encode(String text) {
        try {
            if (romaji() && text.indexOf(YEN) >= 0) {
                return Optional.empty();
            }
            ByteBuffer bytes = charset.newEncoder()
                    .onMalformedInput(CodingErrorAction.REPORT)
                    .onUnmappableCharacter(CodingErrorAction.REPORT)
                    .encode(CharBuffer.wrap(romaji() ? text.replace('\\', YEN) : text));
            byte[] exact = new byte[bytes.remaining()];
            bytes.get(exact);
            return Optional.of(exact);
        } catch (CharacterCodingException notInThisSet) {
            return Optional.empty();
        }
    }
}
