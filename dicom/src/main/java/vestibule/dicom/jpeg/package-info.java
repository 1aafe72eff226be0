/**
 * JPEG streams as ISO/IEC 10918-1 (ITU-T T.81) writes them: read under limits, judged, and turned without loss.
 *
 * <p>Start from {@link vestibule.dicom.jpeg.Jpeg}: {@code Jpeg.read(path, JpegLimits.DEFAULT)} walks every segment of a
 * file and never holds the file in memory. What it returns says what the frame is ({@code frame()}), what the
 * components mean ({@code color()}), whether the stream may go into a DICOM JPEG Baseline object as it is
 * ({@code fitness()}) and which of its bytes such an object should carry ({@code essential()}). All bad input becomes
 * one checked exception, {@link vestibule.dicom.jpeg.JpegFormatException}.
 */
@NullMarked
package vestibule.dicom.jpeg;

import org.jspecify.annotations.NullMarked;
