package vestibule.dicom.jpeg;

/** The AC coefficients of one block while the scans of a progressive picture bring them together, by zigzag index. */
final class ProgressiveBlock {
    /** What each coefficient is without its sign; of meaning only where it is present. */
    final int[] magnitudes = new int[64];

    /** Which coefficients are not zero. */
    long present;

    /** Which of them are below zero. */
    long negative;

    void clear() {
        present = 0;
        negative = 0;
    }
}
