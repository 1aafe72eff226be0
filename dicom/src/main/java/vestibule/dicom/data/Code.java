package vestibule.dicom.data;

/**
 * A coded entry (PS3.3 8, Code Sequence macro): what is meant, in a form a program can compare.
 *
 * @param value the code, 1 to 16 characters
 * @param scheme the coding scheme designator, as SCT or DCM
 * @param meaning the words the scheme has for it
 */
public record Code(String value, String scheme, String meaning) {

    /** Whether both name the same concept; the words do not count (PS3.3 8.3). */
    public boolean sameConcept(Code other) {
        return value.equals(other.value) && scheme.equals(other.scheme);
    }

    /** {@code (value, scheme, "meaning")}, the way the standard prints codes. */
    @Override
    public String toString() {
        return "(%s, %s, \"%s\")".formatted(value, scheme, meaning);
    }
}
