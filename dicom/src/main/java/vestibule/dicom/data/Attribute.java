package vestibule.dicom.data;

/**
 * What the dictionary says of one attribute (PS3.6 6). The constants of {@link vestibule.dicom.dict.Attributes} are of this type, so
 * that a value is put under the right representation without a look-up.
 *
 * @param tag its number
 * @param vr its representation; the first one where the dictionary allows several
 * @param multiplicity how many values it may have
 * @param keyword its name without blanks
 */
public record Attribute(Tag tag, VR vr, Multiplicity multiplicity, String keyword) {

    /** Tag and keyword: {@code (0010,0020) PatientID}. */
    @Override
    public String toString() {
        return tag + " " + keyword;
    }
}
