package vestibule.dicom.jpeg;

import java.util.List;
import org.jspecify.annotations.Nullable;

/** Refuses by name the pictures whose coefficients are not decoded here, and those that would take too much memory. */
final class Decodable {
    private static final int BYTES_OF_BLOCK = 64 * Short.BYTES + Long.BYTES;

    private Decodable() {}

    static void check(Jpeg jpeg) throws JpegFormatException {
        Frame frame = jpeg.frame();
        if (!isKnown(jpeg)) {
            throw new JpegFormatException(
                    frameOffset(jpeg),
                    "begins a " + frame.type().words() + " picture (SOF"
                            + frame.type().number() + ") of "
                            + frame.precision() + " bits" + (jpeg.hierarchical() ? " in several frames" : "")
                            + ", where a baseline, extended sequential or progressive one of 8 bits was expected.");
        }
        @Nullable String missing = ScanTables.missing(jpeg);
        if (missing != null) {
            throw new JpegFormatException(frameOffset(jpeg), "begins a picture that is not complete: " + missing + ".");
        }
    }

    /** Whether pictures of this kind are decoded here, whatever state this one is in. */
    static boolean isKnown(Jpeg jpeg) {
        FrameType type = jpeg.frame().type();
        boolean known = type == FrameType.BASELINE || type == FrameType.EXTENDED || type == FrameType.PROGRESSIVE;
        return known && !jpeg.hierarchical() && jpeg.frame().precision() == 8;
    }

    static long frameOffset(Jpeg jpeg) {
        return jpeg.segments().stream()
                .filter(segment -> segment.kind() == SegmentKind.FRAME_HEADER)
                .mapToLong(Segment::offset)
                .findFirst()
                .orElse(0);
    }

    /** The components as a check reads them, which keeps nothing but what a progressive picture is put together from. */
    static Blocks[] blocks(Jpeg jpeg) {
        Blocks[] blocks = new Blocks[jpeg.frame().components().size()];
        for (int index = 0; index < blocks.length; index++) {
            Plane plane = Plane.of(jpeg.frame(), jpeg.frame().components().get(index));
            blocks[index] = new Blocks(plane, index, jpeg.frame().type().isProgressive());
        }
        return blocks;
    }

    static Plane[] planes(Jpeg jpeg) throws JpegFormatException {
        List<Component> components = jpeg.frame().components();
        Plane[] planes = new Plane[components.size()];
        long bytes = 0;
        for (int index = 0; index < planes.length; index++) {
            planes[index] = Plane.of(jpeg.frame(), components.get(index));
            bytes += (long) planes[index].blocks() * BYTES_OF_BLOCK;
        }
        long most = jpeg.limits().maxCoefficientBytes();
        if (bytes > most) {
            throw new JpegFormatException(
                    frameOffset(jpeg),
                    "begins a picture whose coefficients take " + bytes + " bytes, more than the limit of " + most
                            + ".");
        }
        return planes;
    }
}
