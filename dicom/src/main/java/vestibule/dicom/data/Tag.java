package vestibule.dicom.data;

import java.util.HexFormat;
import java.util.Optional;

/**
 * The number of an attribute: group and element, 16 bits each, ordered as unsigned (PS3.5 7.1.1).
 *
 * @param value group in the upper, element in the lower 16 bits
 */
public record Tag(int value) implements Comparable<Tag> {

    /** Starts an item of a sequence or a fragment of pixel data (PS3.5 7.5). */
    public static final Tag ITEM = of(0xFFFE, 0xE000);
    /** Ends an item of undefined length (PS3.5 7.5). */
    public static final Tag ITEM_DELIMITATION = of(0xFFFE, 0xE00D);
    /** Ends a sequence of undefined length (PS3.5 7.5). */
    public static final Tag SEQUENCE_DELIMITATION = of(0xFFFE, 0xE0DD);

    /** The tag of a group and an element number, of which the lower 16 bits count. */
    public static Tag of(int group, int element) {
        return new Tag((group & 0xFFFF) << 16 | (element & 0xFFFF));
    }

    /** Reads {@code (gggg,eeee)} or {@code ggggeeee} in hexadecimal; empty if the text is neither. */
    public static Optional<Tag> parse(String text) {
        String digits = text.startsWith("(") && text.endsWith(")") && text.length() == 11 && text.charAt(5) == ','
                ? text.substring(1, 5) + text.substring(6, 10)
                : text;
        if (digits.length() != 8 || !digits.chars().allMatch(HexFormat::isHexDigit)) {
            return Optional.empty();
        }
        return Optional.of(new Tag(Integer.parseUnsignedInt(digits, 16)));
    }

    /** The group number, 0 to FFFF hexadecimal. */
    public int group() {
        return value >>> 16;
    }

    /** The element number, 0 to FFFF hexadecimal. */
    public int element() {
        return value & 0xFFFF;
    }

    /** Whether this reserves a block of private elements for its creator (PS3.5 7.8.1). */
    public boolean isPrivateCreator() {
        return isPrivate() && element() >= 0x10 && element() <= 0xFF;
    }

    /** Whether the group number is odd, so that the attribute belongs to a private creator (PS3.5 7.8). */
    public boolean isPrivate() {
        return (group() & 1) == 1;
    }

    /** Whether this is a group length, (gggg,0000); retired but for groups 0000 and 0002 (PS3.5 7.2). */
    public boolean isGroupLength() {
        return element() == 0;
    }

    /** Spread, since tags of one group differ in their lowest bits only and those of several groups would fall on one another. */
    @Override
    public int hashCode() {
        return value * 0x9E37_79B1;
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof Tag tag && value == tag.value;
    }

    @Override
    public int compareTo(Tag other) {
        return Integer.compareUnsigned(value, other.value);
    }

    /** The form the standard prints: {@code (0008,0018)}, letters in upper case. */
    @Override
    public String toString() {
        return "(%04X,%04X)".formatted(group(), element());
    }
}
