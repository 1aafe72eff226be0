package vestibule.bridge.color;

import java.io.ByteArrayOutputStream;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * Writes a profile of the input class with three primaries (ICC.1:2001-04 6.3.1.2; with formulas ICC.1:2010 8.3.3). The same colours
 * give the same bytes; there is no maker, no date but a fixed one, and no text but our own.
 */
final class ProfileWriter {

    private static final int HEADER = 128;
    private static final int VERSION_2 = 0x02400000;
    private static final int VERSION_4 = 0x04200000;
    private static final String COPYRIGHT = "Facts of published standards or of the camera; no rights claimed";

    private final MatrixProfile colors;
    private final boolean formulas;

    ProfileWriter(MatrixProfile colors) {
        this.colors = colors;
        this.formulas = colors.curves().stream().anyMatch(ToneCurve::isFormula);
    }

    byte[] bytes(String description) {
        Map<String, byte[]> tags = new LinkedHashMap<>();
        tags.put("desc", formulas ? localized(description) : described(description));
        tags.put("cprt", formulas ? localized(COPYRIGHT) : text(COPYRIGHT));
        // Version 4 has the white of the connection space here, whatever the camera's was (ICC.1:2010 9.2.34)
        tags.put("wtpt", xyz(formulas ? MatrixProfile.D50 : colors.white(), 0));
        for (int component = 0; component < 3; component++) {
            tags.put("rgb".charAt(component) + "XYZ", xyz(colors.primaries(), 3 * component));
        }
        for (int component = 0; component < 3; component++) {
            tags.put(
                    "rgb".charAt(component) + "TRC",
                    colors.curves().get(component).element());
        }
        return assembled(tags);
    }

    private byte[] assembled(Map<String, byte[]> tags) {
        int offset = HEADER + 4 + 12 * tags.size();
        ByteArrayOutputStream data = new ByteArrayOutputStream();
        ByteBuffer table = ByteBuffer.allocate(4 + 12 * tags.size()).putInt(tags.size());
        List<byte[]> written = new ArrayList<>();
        List<Integer> places = new ArrayList<>();
        for (Map.Entry<String, byte[]> tag : tags.entrySet()) {
            int known = indexOf(written, tag.getValue());
            if (known < 0) {
                written.add(tag.getValue());
                places.add(offset + data.size());
                data.writeBytes(tag.getValue());
                data.writeBytes(new byte[-data.size() & 3]);
                known = written.size() - 1;
            }
            table.put(tag.getKey().getBytes(StandardCharsets.US_ASCII))
                    .putInt(places.get(known))
                    .putInt(tag.getValue().length);
        }
        ByteBuffer profile = ByteBuffer.allocate(offset + data.size());
        putHeader(profile);
        return profile.put(HEADER, table.array())
                .put(HEADER + table.capacity(), data.toByteArray())
                .array();
    }

    private static int indexOf(List<byte[]> written, byte[] element) {
        for (int index = 0; index < written.size(); index++) {
            if (java.util.Arrays.equals(written.get(index), element)) {
                return index;
            }
        }
        return -1;
    }

    private void putHeader(ByteBuffer profile) {
        profile.putInt(0, profile.capacity());
        profile.putInt(8, formulas ? VERSION_4 : VERSION_2);
        profile.put(12, "scnrRGB XYZ ".getBytes(StandardCharsets.US_ASCII));
        short[] moment = {2026, 1, 1, 0, 0, 0};
        for (int index = 0; index < moment.length; index++) {
            profile.putShort(24 + 2 * index, moment[index]);
        }
        profile.put(36, "acsp".getBytes(StandardCharsets.US_ASCII));
        for (int axis = 0; axis < 3; axis++) {
            profile.putInt(68 + 4 * axis, fixed(MatrixProfile.D50[axis]));
        }
    }

    private static byte[] xyz(double[] values, int first) {
        ByteBuffer element = ByteBuffer.allocate(20).put("XYZ ".getBytes(StandardCharsets.US_ASCII));
        element.putInt(0);
        for (int axis = 0; axis < 3; axis++) {
            element.putInt(fixed(values[first + axis]));
        }
        return element.array();
    }

    private static int fixed(double value) {
        return (int) Math.round(value * 65536);
    }

    /** textType (ICC.1:2001-04 6.5.17). */
    private static byte[] text(String text) {
        byte[] letters = (text + "\0").getBytes(StandardCharsets.US_ASCII);
        return ByteBuffer.allocate(8 + letters.length)
                .put("text".getBytes(StandardCharsets.US_ASCII))
                .putInt(0)
                .put(letters)
                .array();
    }

    /** textDescriptionType with the ASCII part only (ICC.1:2001-04 6.5.17). */
    private static byte[] described(String text) {
        byte[] letters = (text + "\0").getBytes(StandardCharsets.US_ASCII);
        return ByteBuffer.allocate(12 + letters.length + 4 + 4 + 2 + 1 + 67)
                .put("desc".getBytes(StandardCharsets.US_ASCII))
                .putInt(0)
                .putInt(letters.length)
                .put(letters)
                .array();
    }

    /** multiLocalizedUnicodeType with one record (ICC.1:2010 10.13). */
    private static byte[] localized(String text) {
        byte[] letters = text.getBytes(StandardCharsets.UTF_16BE);
        return ByteBuffer.allocate(28 + letters.length)
                .put("mluc".getBytes(StandardCharsets.US_ASCII))
                .putInt(0)
                .putInt(1)
                .putInt(12)
                .put("enUS".getBytes(StandardCharsets.US_ASCII))
                .putInt(letters.length)
                .putInt(28)
                .put(letters)
                .array();
    }
}
