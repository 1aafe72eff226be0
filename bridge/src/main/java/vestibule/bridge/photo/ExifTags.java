package vestibule.bridge.photo;

import com.drew.lang.Rational;
import com.drew.metadata.Directory;
import com.drew.metadata.StringValue;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** The values of one Exif directory, in forms we use; anything odd is as if it were not there. */
final class ExifTags {

    private static final int MOST_VALUES = 16;

    private final @Nullable Directory directory;

    ExifTags(@Nullable Directory directory) {
        this.directory = directory;
    }

    /** Whether the tag stands there, whatever its value. */
    boolean has(int tag) {
        return value(tag) != null;
    }

    /** Text up to the first NUL, without surrounding blanks; UTF-8 if it is that, else Latin-1; empty if it has control characters. */
    Optional<String> text(int tag) {
        Object value = value(tag);
        if (!(value instanceof StringValue string)) {
            return Optional.empty();
        }
        String decoded = decode(string.getBytes());
        int end = decoded.indexOf('\0');
        String text = (end < 0 ? decoded : decoded.substring(0, end)).strip();
        boolean printable = text.codePoints().noneMatch(Character::isISOControl);
        return text.isEmpty() || !printable ? Optional.empty() : Optional.of(text);
    }

    /** The first whole number. */
    Optional<Long> number(int tag) {
        Object value = value(tag);
        if (value instanceof Number number && !(value instanceof Rational)) {
            return Optional.of(number.longValue());
        }
        if (value instanceof int[] numbers && numbers.length > 0) {
            return Optional.of((long) numbers[0]);
        }
        if (value instanceof short[] numbers && numbers.length > 0) {
            return Optional.of((long) numbers[0]);
        }
        return value instanceof byte[] bytes && bytes.length == 1
                ? Optional.of((long) (bytes[0] & 0xFF))
                : Optional.empty();
    }

    /** All fractions; none if there are more than any attribute takes. */
    List<Rational> fractions(int tag) {
        Object value = value(tag);
        if (value instanceof Rational single) {
            return List.of(single);
        }
        return value instanceof Rational[] several && several.length <= MOST_VALUES ? List.of(several) : List.of();
    }

    /** A block of bytes, as it is. */
    Optional<byte[]> bytes(int tag) {
        return value(tag) instanceof byte[] bytes && bytes.length > 0 ? Optional.of(bytes.clone()) : Optional.empty();
    }

    /** The characters of a block of bytes that is text by definition, as Exif Version. */
    Optional<String> characters(int tag) {
        Object value = value(tag);
        if (value instanceof byte[] bytes && bytes.length > 0 && bytes.length <= 8) {
            String text = new String(bytes, StandardCharsets.US_ASCII);
            return text.matches("[0-9]+") ? Optional.of(text) : Optional.empty();
        }
        return text(tag);
    }

    private @Nullable Object value(int tag) {
        return directory == null ? null : directory.getObject(tag);
    }

    private static String decode(byte[] bytes) {
        try {
            return StandardCharsets.UTF_8
                    .newDecoder()
                    .decode(ByteBuffer.wrap(bytes))
                    .toString();
        } catch (CharacterCodingException notUtf8) {
            return new String(bytes, StandardCharsets.ISO_8859_1);
        }
    }
}
