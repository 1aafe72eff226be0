/**
 * The tables of the standard as data: attributes (PS3.6 6 to 9) and unique identifiers (PS3.6 A). Start from
 * {@link vestibule.dicom.dict.Dictionary}; the constants that code names stand in {@link vestibule.dicom.dict.Attributes} and
 * {@link vestibule.dicom.dict.Uids}.
 */
@NullMarked
package vestibule.dicom.dict;

import org.jspecify.annotations.NullMarked;
