package vestibule.dicom.jpeg;

/**
 * One marker segment where it lies in the stream (T.81 B.1.1.4).
 *
 * @param marker the code after FF, 0 to 255
 * @param offset offset of the FF that belongs to the code
 * @param length bytes on disk from that FF to the segment's last byte; of a scan the header only
 * @param fillBytes how many fill bytes FF stand before the offset (T.81 B.1.1.2)
 * @param kind what it is for
 */
public record Segment(int marker, long offset, long length, int fillBytes, SegmentKind kind) {
    /** Offset of the first byte after the segment. */
    public long end() {
        return offset + length;
    }

    @Override
    public String toString() {
        return Marker.name(marker) + " " + kind + " at " + offset + ", " + length + " bytes";
    }
}
