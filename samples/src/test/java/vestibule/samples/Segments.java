package vestibule.samples;

import java.util.ArrayList;
import java.util.List;

/** The marker segments of a JPEG stream up to its first scan, read here for the tests alone. */
record Segments(List<Segment> list) {
    /** One segment; content without marker and length. */
    static final class Segment {
        private final int marker;
        private final byte[] content;

        private Segment(int marker, byte[] content) {
            this.marker = marker;
            this.content = content;
        }

        int marker() {
            return marker;
        }

        byte[] content() {
            return content.clone();
        }

        boolean starts(String text) {
            for (int i = 0; i < text.length(); i++) {
                if (content.length <= i || content[i] != text.charAt(i)) {
                    return false;
                }
            }
            return true;
        }
    }

    static Segments of(byte[] file) {
        List<Segment> list = new ArrayList<>();
        int at = 2;
        int marker = 0;
        while (marker != 0xDA) {
            marker = file[at + 1] & 255;
            int length = ((file[at + 2] & 255) << 8) | (file[at + 3] & 255);
            list.add(new Segment(marker, java.util.Arrays.copyOfRange(file, at + 4, at + 2 + length)));
            at += 2 + length;
        }
        return new Segments(list);
    }

    Segment first(int marker) {
        return list.stream().filter(s -> s.marker() == marker).findFirst().orElseThrow();
    }

    boolean has(int marker) {
        return list.stream().anyMatch(s -> s.marker() == marker);
    }
}
