package vestibule.dicom.data;

import java.util.Objects;
import org.jspecify.annotations.Nullable;

/**
 * A data element: an attribute's number, representation and value (PS3.5 7.1). Two elements are equal if these three are; how
 * they were once encoded does not count.
 *
 * @param tag the attribute
 * @param vr the representation the value is in
 * @param value the value
 * @param encoded the bytes it was read from, or null if it was made here
 */
public record Element(Tag tag, VR vr, Value value, @Nullable Encoded encoded) {

    /**
     * How an element stood in the file or message it was read from; the validator judges this beside the decoded value.
     *
     * @param offset where the element starts, in bytes from the beginning of the file or message
     * @param vr the two letters as written, empty where the transfer syntax writes none
     * @param declaredLength the length field, 4294967295 for undefined length
     * @param bytes the value field as read, padding included; empty for sequences and encapsulated pixel data
     */
    public record Encoded(long offset, String vr, long declaredLength, Bulk bytes) {

        /** The length field that means: ended by a delimitation item (PS3.5 7.5). */
        public static final long UNDEFINED_LENGTH = 0xFFFF_FFFFL;
    }

    /** An element made here. */
    public Element(Tag tag, VR vr, Value value) {
        this(tag, vr, value, null);
    }

    /** Whether the value field has zero length. */
    public boolean isEmpty() {
        return value.isEmpty();
    }

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof Element element
                && tag.equals(element.tag)
                && vr == element.vr
                && value.equals(element.value);
    }

    @Override
    public int hashCode() {
        return Objects.hash(tag, vr, value);
    }
}
