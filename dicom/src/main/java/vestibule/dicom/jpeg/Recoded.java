package vestibule.dicom.jpeg;

/**
 * What became of a picture that was coded again.
 *
 * @param frame the frame header of the outcome
 * @param turn how it was laid down
 * @param loss what was left off at the edges of the source
 * @param tablesKept whether all Huffman tables are the source's own
 * @param surplusBytes bytes of entropy-coded data after the last unit of a scan, which stayed behind
 * @param length bytes written
 */
public record Recoded(Frame frame, Turn turn, EdgeLoss loss, boolean tablesKept, long surplusBytes, long length) {}
