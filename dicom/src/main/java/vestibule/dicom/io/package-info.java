/**
 * DICOM files and encoded data sets (PS3.5 7, A; PS3.10 7). Start from {@link vestibule.dicom.io.DicomFile}. Reading is lenient
 * and keeps a note of what it forgave; writing is strict and refuses.
 */
@NullMarked
package vestibule.dicom.io;

import org.jspecify.annotations.NullMarked;
