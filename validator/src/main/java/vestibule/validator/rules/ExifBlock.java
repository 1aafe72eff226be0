package vestibule.validator.rules;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import vestibule.dicom.jpeg.Jpeg;
import vestibule.dicom.jpeg.Segment;
import vestibule.dicom.jpeg.SegmentKind;

/**
 * What an Exif block says that matters to a validator (Exif 2.3 4.6): which tags are there, and the orientation. Offsets are foreign: each
 * is checked, no directory is read twice, and what does not fit is passed over.
 */
final class ExifBlock {

    /** Tags of all directories but the one of positions. */
    private static final int ORIENTATION = 0x0112;

    private static final int EXIF_DIRECTORY = 0x8769;
    private static final int GPS_DIRECTORY = 0x8825;
    private static final int INTEROPERABILITY_DIRECTORY = 0xA005;
    /** Marker and length of a segment. */
    private static final int HEAD = 4;

    private static final int IDENTIFIER = 6;
    private static final int ENTRY = 12;
    private static final int MOST_DIRECTORIES = 16;

    private final ByteBuffer tiff;
    private final Set<Integer> read = new HashSet<>();
    private final Set<Integer> tags = new HashSet<>();
    private int orientation;
    private boolean position;
    private boolean thumbnail;

    private ExifBlock(ByteBuffer tiff) {
        this.tiff = tiff;
    }

    /** Every Exif block of a stream: cameras write one, and which of several a viewer goes by nobody knows. */
    static List<ExifBlock> all(Jpeg jpeg, OpenStream stream) throws IOException {
        List<ExifBlock> blocks = new ArrayList<>();
        for (Segment segment : jpeg.segments()) {
            if (segment.kind() == SegmentKind.EXIF) {
                blocks.add(read(stream.bytes(segment.offset() + HEAD, (int) segment.length() - HEAD)));
            }
        }
        return blocks;
    }

    /** Reads the payload of an Exif segment, identifier included. */
    static ExifBlock read(byte[] payload) {
        ExifBlock block = new ExifBlock(
                payload.length > IDENTIFIER
                        ? ByteBuffer.wrap(payload, IDENTIFIER, payload.length - IDENTIFIER)
                                .slice()
                        : ByteBuffer.allocate(0));
        if (block.tiff.limit() >= 8) {
            block.tiff.order(block.tiff.get(0) == 'I' ? ByteOrder.LITTLE_ENDIAN : ByteOrder.BIG_ENDIAN);
            block.readMain();
        }
        return block;
    }

    private void readMain() {
        int next = directory(tiff.getInt(4), false);
        while (next != 0 && read.size() < MOST_DIRECTORIES) {
            int before = read.size();
            next = directory(next, false);
            thumbnail |= read.size() > before;
        }
    }

    /** Reads one directory and those it points to, and returns where the one after it starts, or 0. */
    private int directory(int offset, boolean ofPositions) {
        if (offset < 8 || offset > tiff.limit() - 2 || read.size() >= MOST_DIRECTORIES || !read.add(offset)) {
            return 0;
        }
        int count = tiff.getShort(offset) & 0xFFFF;
        int at = offset + 2;
        for (int i = 0; i < count && at <= tiff.limit() - ENTRY; i++, at += ENTRY) {
            entry(at, ofPositions);
        }
        return at <= tiff.limit() - 4 ? tiff.getInt(at) : 0;
    }

    private void entry(int at, boolean ofPositions) {
        int tag = tiff.getShort(at) & 0xFFFF;
        if (ofPositions) {
            // tag 0 is the version of the directory, which says nothing of a place
            position |= tag != 0;
            return;
        }
        tags.add(tag);
        switch (tag) {
            case ORIENTATION -> orientation = orientation == 0 ? tiff.getShort(at + 8) & 0xFFFF : orientation;
            case EXIF_DIRECTORY, INTEROPERABILITY_DIRECTORY -> directory(tiff.getInt(at + 8), false);
            case GPS_DIRECTORY -> directory(tiff.getInt(at + 8), true);
            default -> {
                // only that it is there counts
            }
        }
    }

    /** The orientation of the main picture, 0 where none is stated. */
    int orientation() {
        return orientation;
    }

    /** Whether a place is stated. */
    boolean hasPosition() {
        return position;
    }

    /** Whether there is a second directory, that of a thumbnail. */
    boolean hasThumbnail() {
        return thumbnail;
    }

    /** Whether a tag is there. */
    boolean has(int tag) {
        return tags.contains(tag);
    }
}
