/**
 * The invented practice: patients, photographs and files that nobody need be asked about. Start from {@link
 * vestibule.samples.Samples}.
 *
 * <p>The photographs are drawn by code from solid bodies in one anatomical frame (x to the patient's left, y to the
 * back, z to the head) and then stored as a camera would have stored them: as they are, as seen in a mirror by an
 * operator in front of the patient or behind the head, or turned by Exif Orientation. {@link
 * vestibule.samples.SamplePhoto} says for each what it truly shows, so that whoever reads it can be proved right or
 * wrong. So that a wrong flip shows at once, nobody in this practice is symmetric:
 *
 * <ul>
 *   <li>a dark birthmark on the <b>right</b> cheek,
 *   <li>a gold crown on the <b>upper right</b> first molar (16; in a primary dentition 55),
 *   <li>a grey metal filling in the <b>lower left</b> first molar (36; in a primary dentition 75),
 *   <li>a green jewel on the <b>upper right</b> lateral incisor (12; 52),
 *   <li>letters in the strip along the edge, which come out mirrored where the picture is.
 * </ul>
 *
 * <p>{@link vestibule.samples.Card} writes photographs the way a camera card holds them, {@link
 * vestibule.samples.SampleFile} names small DICOM files put together by hand from commented hex text ({@link
 * vestibule.samples.Hex}). The same parameters give the same bytes on the same Java runtime.
 *
 * <p>Patients, practice, camera maker, shade names and places are invented.
 */
@NullMarked
package vestibule.samples;

import org.jspecify.annotations.NullMarked;
