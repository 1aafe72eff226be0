package vestibule.conformance.job;

import java.io.ByteArrayOutputStream;
import java.util.Arrays;
import java.util.Set;
import java.util.TreeSet;

/**
 * A second walk over the segments of a JPEG stream (ISO/IEC 10918-1 B.1), written for these tests alone so that it shares no mistake with
 * the one under test.
 */
final class JpegWalk {

    private static final int SOI = 0xD8;
    private static final int EOI = 0xD9;
    private static final int SOS = 0xDA;
    private static final int COM = 0xFE;

    private final byte[] bytes;
    private final ByteArrayOutputStream kept = new ByteArrayOutputStream();
    private final Set<String> metadata = new TreeSet<>();

    private JpegWalk(byte[] bytes) {
        this.bytes = bytes;
    }

    /** The stream from SOI to EOI without APPn and COM. */
    static byte[] withoutMetadata(byte[] stream) {
        JpegWalk walk = new JpegWalk(stream);
        walk.run();
        return walk.kept.toByteArray();
    }

    /** The APPn and COM segments, each as its marker and first characters. */
    static Set<String> metadata(byte[] stream) {
        JpegWalk walk = new JpegWalk(stream);
        walk.run();
        return walk.metadata;
    }

    private int at(int position) {
        return bytes[position] & 0xFF;
    }

    private void run() {
        int position = 0;
        while (position + 1 < bytes.length) {
            int marker = at(position + 1);
            if (marker == 0xFF) {
                position++;
            } else if (marker == SOI) {
                position = keep(position, position + 2);
            } else if (marker == EOI) {
                keep(position, position + 2);
                return;
            } else {
                position = segment(position, marker);
            }
        }
    }

    private int segment(int start, int marker) {
        int end = start + 2 + (at(start + 2) << 8 | at(start + 3));
        if (marker == COM || (marker & 0xF0) == 0xE0) {
            byte[] first = Arrays.copyOfRange(bytes, start + 4, Math.min(end, start + 16));
            metadata.add("%02X %s".formatted(marker, new String(first, java.nio.charset.StandardCharsets.ISO_8859_1)));
            return end;
        }
        return keep(start, marker == SOS ? scanEnd(end) : end);
    }

    /** Entropy-coded data ends at a marker that is neither a stuffed zero nor a restart. */
    private int scanEnd(int start) {
        int position = start;
        while (position + 1 < bytes.length) {
            int next = at(position + 1);
            if (at(position) == 0xFF && next != 0 && next != 0xFF && (next < 0xD0 || next > 0xD7)) {
                return position;
            }
            position++;
        }
        return bytes.length;
    }

    private int keep(int start, int end) {
        kept.write(bytes, start, Math.min(end, bytes.length) - start);
        return end;
    }
}
