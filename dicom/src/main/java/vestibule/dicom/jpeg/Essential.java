package vestibule.dicom.jpeg;

import java.util.ArrayList;
import java.util.List;

/**
 * The bytes of a stream that an object should carry: tables, headers and entropy-coded data as they are, and of the
 * metadata only what colour needs (PS3.5 8.2.1; PS3.3 C.7.6.3.1.2).
 *
 * @param ranges in the order of the stream, none touching the next
 * @param length how many bytes they sum to
 */
public record Essential(List<ByteRange> ranges, long length) {
    /** Keeps its own copy of the list. */
    public Essential {
        ranges = List.copyOf(ranges);
    }

    static Essential of(Jpeg jpeg, boolean withProfile) {
        List<ByteRange> ranges = new ArrayList<>();
        int scan = 0;
        for (Segment segment : jpeg.segments()) {
            if (travels(segment, jpeg, withProfile)) {
                long start = segment.offset() - segment.fillBytes();
                append(ranges, new ByteRange(start, segment.end() - start));
            }
            if (segment.kind() == SegmentKind.SCAN_HEADER) {
                append(ranges, jpeg.scans().get(scan++).data());
            }
        }
        return new Essential(
                ranges, ranges.stream().mapToLong(ByteRange::length).sum());
    }

    /**
     * A profile travels only when it is whole, since a broken one tells a decoder nothing. An Adobe segment travels
     * where a decoder would see other colours without it; the last one counts, and they all agree or it is not fit.
     */
    static boolean travels(Segment segment, Jpeg jpeg, boolean withProfile) {
        return switch (segment.kind()) {
            case ICC_PROFILE -> withProfile && jpeg.profileCondition() == ProfileCondition.COMPLETE;
            case ADOBE -> jpeg.color().needsAdobe();
            default -> !segment.kind().isMetadata();
        };
    }

    private static void append(List<ByteRange> ranges, ByteRange range) {
        int last = ranges.size() - 1;
        if (range.length() == 0) {
            return;
        }
        if (last >= 0 && ranges.get(last).end() == range.offset()) {
            ByteRange before = ranges.get(last);
            ranges.set(last, new ByteRange(before.offset(), before.length() + range.length()));
        } else {
            ranges.add(range);
        }
    }
}
