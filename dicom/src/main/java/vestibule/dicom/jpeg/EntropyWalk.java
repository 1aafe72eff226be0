package vestibule.dicom.jpeg;

import java.io.IOException;

/** Finds the end of one scan's entropy-coded data (T.81 B.1.1.5) and counts its restart markers. */
final class EntropyWalk {
    private final StreamReader reader;
    private final int number;
    private int restarts;
    private long end;
    private long lastRestartEnd;

    EntropyWalk(StreamReader reader, int scanNumber) {
        this.reader = reader;
        this.number = scanNumber;
    }

    int restarts() {
        return restarts;
    }

    /** Leaves the reader at the FF that ends the data, and returns its offset. */
    long walk() throws IOException {
        while (true) {
            if (!reader.seekMarkerPrefix()) {
                throw cutShort();
            }
            long prefix = reader.offset();
            int code = 0xFF;
            while (code == 0xFF) {
                code = reader.read();
            }
            if (code < 0) {
                throw cutShort();
            }
            if (Marker.isRestart(code)) {
                countRestart(code, prefix);
            } else if (code != 0) {
                reader.seek(prefix);
                end = prefix;
                return prefix;
            }
        }
    }

    private void countRestart(int code, long offset) throws JpegFormatException {
        int expected = Marker.RST0 + (restarts & 7);
        if (code != expected) {
            throw new JpegFormatException(
                    offset,
                    "scan " + number + " has the restart marker " + Marker.name(code) + ", where "
                            + Marker.name(expected) + " was expected; a part of the picture is missing.");
        }
        restarts++;
        lastRestartEnd = reader.offset();
    }

    /** Whether a restart marker stands after the last unit, where none belongs; some cameras write one. */
    boolean endsWithRestart() {
        return lastRestartEnd == end;
    }

    private JpegFormatException cutShort() {
        return new JpegFormatException(
                reader.length(),
                "the file ends in the middle of scan " + number
                        + ", where an end-of-image marker (EOI) was expected; the picture is cut short.");
    }

    void checkAgainst(Frame frame, ScanHeader header, int restartInterval, long start) throws JpegFormatException {
        long units = header.units(frame);
        long expected = restartInterval == 0 ? 0 : (units + restartInterval - 1) / restartInterval - 1;
        boolean oneMoreAtTheEnd =
                restartInterval > 0 && restarts == expected + 1 && endsWithRestart() && units % restartInterval == 0;
        if (restarts != expected && !oneMoreAtTheEnd) {
            throw new JpegFormatException(
                    start,
                    "scan " + number + " has " + restarts + " restart markers, where " + expected
                            + " were expected for " + units + " units and an interval of " + restartInterval + ".");
        }
        long bytes = end - start - 2L * restarts;
        if (bytes * 8 < header.fewestBits(frame)) {
            throw new JpegFormatException(
                    start,
                    "scan " + number + " has " + bytes + " bytes of data, where the " + frame.samplesPerLine() + " x "
                            + frame.lines() + " pixels of the frame header need at least "
                            + (header.fewestBits(frame) + 7) / 8 + "; the picture is cut short.");
        }
    }
}
