package vestibule.dicom.jpeg;

import java.util.ArrayList;
import java.util.List;

/**
 * A scan header (T.81 B.2.3) as read, before the data after it has been walked.
 *
 * @param conforming false where Ss, Se, Ah, Al or the table selectors of a sequential scan are not what T.81 Table B.3
 *     allows, which decoders overlook
 */
record ScanHeader(
        List<ScanComponent> components,
        int spectralStart,
        int spectralEnd,
        int approximationHigh,
        int approximationLow,
        boolean conforming) {

    static ScanHeader read(Frame frame, byte[] payload, long offset) throws JpegFormatException {
        int count = payload.length == 0 ? 0 : payload[0] & 0xFF;
        if (count < 1 || count > 4 || payload.length != 4 + 2 * count) {
            throw new JpegFormatException(
                    offset,
                    "a scan header of " + payload.length + " bytes announces " + count
                            + " components, where 1 to 4 and 4 bytes plus 2 for each were expected.");
        }
        List<ScanComponent> components = components(frame, payload, count, offset);
        int start = payload[1 + 2 * count] & 0xFF;
        int end = payload[2 + 2 * count] & 0xFF;
        int high = (payload[3 + 2 * count] & 0xFF) >> 4;
        int low = payload[3 + 2 * count] & 0xF;
        boolean conforming = true;
        if (frame.type().isLossless()) {
            conforming = start <= 7 && end == 0 && high == 0 && low < frame.precision();
        } else if (frame.type().isProgressive()) {
            checkProgressive(count, start, end, high, low, offset);
        } else {
            boolean selectors = frame.type() != FrameType.BASELINE
                    || components.stream().allMatch(one -> one.dcTable() <= 1 && one.acTable() <= 1);
            conforming = selectors && start == 0 && end == 63 && high == 0 && low == 0;
        }
        return new ScanHeader(components, start, end, high, low, conforming);
    }

    private static List<ScanComponent> components(Frame frame, byte[] payload, int count, long offset)
            throws JpegFormatException {
        List<ScanComponent> components = new ArrayList<>(count);
        int blocks = 0;
        for (int number = 0; number < count; number++) {
            int selector = payload[1 + 2 * number] & 0xFF;
            int index = indexOf(frame, selector);
            if (index < 0 || components.stream().anyMatch(earlier -> earlier.index() == index)) {
                throw new JpegFormatException(
                        offset,
                        "a scan header names the component " + selector + (index < 0 ? "" : " twice")
                                + ", where each of its components must be one of the frame's.");
            }
            int dc = (payload[2 + 2 * number] & 0xFF) >> 4;
            int ac = payload[2 + 2 * number] & 0xF;
            if (dc > 3 || ac > 3) {
                throw new JpegFormatException(
                        offset,
                        "a scan header asks for the entropy tables " + dc + " and " + ac
                                + ", where 0 to 3 was expected.");
            }
            Component component = frame.components().get(index);
            blocks += component.horizontal() * component.vertical();
            components.add(new ScanComponent(index, dc, ac));
        }
        if (count > 1 && blocks > 10) {
            throw new JpegFormatException(
                    offset,
                    "a scan interleaves " + blocks + " blocks in a unit, where at most 10 were expected (T.81 B.2.3).");
        }
        return components;
    }

    private static int indexOf(Frame frame, int selector) {
        for (int index = 0; index < frame.components().size(); index++) {
            if (frame.components().get(index).id() == selector) {
                return index;
            }
        }
        return -1;
    }

    private static void checkProgressive(int count, int start, int end, int high, int low, long offset)
            throws JpegFormatException {
        boolean band = start == 0 ? end == 0 : count == 1 && start <= end && end <= 63;
        boolean approximation = low <= 13 && (high == 0 || high == low + 1);
        if (!band || !approximation) {
            throw new JpegFormatException(
                    offset,
                    "a progressive scan of " + count + " components has Ss " + start + ", Se " + end + ", Ah " + high
                            + ", Al " + low + ", a combination T.81 G.1.1.1 does not allow.");
        }
    }

    /** How many MCUs the scan has (T.81 A.2). */
    long units(Frame frame) {
        int unit = frame.type().isLossless() ? 1 : 8;
        if (components.size() == 1) {
            Component only = frame.components().get(components.get(0).index());
            return (long) Frame.ceilingOf(frame.columnsOf(only), unit) * Frame.ceilingOf(frame.linesOf(only), unit);
        }
        return (long) Frame.ceilingOf(frame.samplesPerLine(), unit * frame.maxHorizontal())
                * Frame.ceilingOf(frame.lines(), unit * frame.maxVertical());
    }

    /**
     * The fewest bits the entropy-coded data can have: a Huffman code has at least one bit, and a block of a sequential
     * scan at least two codes. A header that promises more than its data can hold is seen before memory is taken.
     */
    long fewestBits(Frame frame) {
        if (frame.type().isArithmetic()) {
            return 0;
        }
        if (frame.type().isProgressive() && spectralStart > 0) {
            return 1;
        }
        long blocks = units(frame);
        if (components.size() > 1) {
            long each = 0;
            for (ScanComponent one : components) {
                Component component = frame.components().get(one.index());
                each += (long) component.horizontal() * component.vertical();
            }
            blocks *= each;
        }
        return frame.type().isProgressive() || frame.type().isLossless() ? blocks : 2 * blocks;
    }
}
