package vestibule.dicom.jpeg;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/** Reads a frame header (T.81 B.2.2) and refuses what no decoder could act upon. */
final class FrameHeader {
    private static final int FIXED_LENGTH = 6;

    private FrameHeader() {}

    static Frame read(FrameType type, byte[] payload, long offset, JpegLimits limits) throws JpegFormatException {
        if (payload.length < FIXED_LENGTH) {
            throw new JpegFormatException(offset, "the frame header ends before it has told the picture's size.");
        }
        int precision = payload[0] & 0xFF;
        int lines = (payload[1] & 0xFF) << 8 | (payload[2] & 0xFF);
        int columns = (payload[3] & 0xFF) << 8 | (payload[4] & 0xFF);
        int count = payload[5] & 0xFF;
        if (count < 1 || count > limits.maxComponents()) {
            throw new JpegFormatException(
                    offset,
                    "the frame has " + count + " components, where 1 to " + limits.maxComponents() + " were expected.");
        }
        if (payload.length != FIXED_LENGTH + 3 * count) {
            throw new JpegFormatException(
                    offset,
                    "the frame header has " + payload.length + " bytes, where " + (FIXED_LENGTH + 3 * count)
                            + " were expected for " + count + " components.");
        }
        checkPrecision(type, precision, offset);
        checkSize(lines, columns, offset, limits);
        return new Frame(type, precision, lines, columns, components(payload, count, offset));
    }

    private static void checkPrecision(FrameType type, int precision, long offset) throws JpegFormatException {
        boolean allowed = type.isLossless()
                ? precision >= 2 && precision <= 16
                : precision == 8 || (precision == 12 && type != FrameType.BASELINE);
        if (!allowed) {
            throw new JpegFormatException(
                    offset,
                    "the frame header of a " + type.words() + " picture says " + precision
                            + " bits a sample, which T.81 Table B.2 does not allow.");
        }
    }

    private static void checkSize(int lines, int columns, long offset, JpegLimits limits) throws JpegFormatException {
        if (lines == 0) {
            throw new JpegFormatException(
                    offset,
                    "the frame header gives 0 lines, which leaves the height to a DNL segment after the first scan;"
                            + " a height in the frame header was expected.");
        }
        if (columns == 0) {
            throw new JpegFormatException(offset, "the frame header gives 0 samples per line; 1 or more was expected.");
        }
        if ((long) lines * columns > limits.maxPixels()) {
            throw new JpegFormatException(
                    offset,
                    "the frame header declares " + columns + " x " + lines + " pixels, more than the limit of "
                            + limits.maxPixels() + ".");
        }
    }

    private static List<Component> components(byte[] payload, int count, long offset) throws JpegFormatException {
        List<Component> components = new ArrayList<>(count);
        Set<Integer> ids = new HashSet<>();
        for (int index = 0; index < count; index++) {
            int at = FIXED_LENGTH + 3 * index;
            int id = payload[at] & 0xFF;
            int horizontal = (payload[at + 1] & 0xFF) >> 4;
            int vertical = payload[at + 1] & 0xF;
            int table = payload[at + 2] & 0xFF;
            if (horizontal < 1 || horizontal > 4 || vertical < 1 || vertical > 4) {
                throw new JpegFormatException(
                        offset,
                        "component " + (index + 1) + " has the sampling factors " + horizontal + "x" + vertical
                                + ", where 1 to 4 was expected for each.");
            }
            if (table > 3) {
                throw new JpegFormatException(
                        offset,
                        "component " + (index + 1) + " asks for quantization table " + table
                                + ", where 0 to 3 was expected.");
            }
            if (!ids.add(id)) {
                throw new JpegFormatException(
                        offset, "two components have the identifier " + id + "; each must have its own.");
            }
            components.add(new Component(id, horizontal, vertical, table));
        }
        return components;
    }
}
