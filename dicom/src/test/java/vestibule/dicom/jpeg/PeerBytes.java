package vestibule.dicom.jpeg;

import java.util.Arrays;

/** The part of a stream in which two programs that use the same tables must agree. */
final class PeerBytes {
    private PeerBytes() {}

    /** The stream from its first quantization table on; what metadata comes before is each program's own affair. */
    static byte[] fromTables(byte[] stream) throws JpegFormatException {
        long offset = Jpeg.read(stream, JpegLimits.DEFAULT).segments().stream()
                .filter(segment -> segment.kind() == SegmentKind.QUANTIZATION_TABLES)
                .mapToLong(Segment::offset)
                .min()
                .orElseThrow();
        return Arrays.copyOfRange(stream, (int) offset, stream.length);
    }
}
