package vestibule.bridge.color;

import java.nio.ByteBuffer;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * An ICC profile that came with a photograph, read under suspicion (ICC.1:2010 7).
 *
 * @param matrix its colours; null if they cannot be carried
 * @param problem why not, as the rest of a sentence that begins with the profile; empty if they can
 * @param elsewhere whether the profile is none for this picture at all, so that another statement may count
 */
record SourceProfile(@Nullable MatrixProfile matrix, String problem, boolean elsewhere) {

    private static final int HEADER = 128;
    private static final int MOST_TAGS = 256;
    private static final int XYZ = 0x58595A20;
    private static final double WHITE_TOLERANCE = 0.03;

    static SourceProfile read(byte[] bytes) {
        ByteBuffer profile = ByteBuffer.wrap(bytes);
        String device = text(profile, 12);
        String space = text(profile, 16);
        if (!space.equals("RGB ")) {
            return wrong("is one for other components than red, green and blue");
        }
        if (!device.equals("mntr") && !device.equals("scnr")) {
            return wrong("describes neither a display nor a camera");
        }
        Map<String, ByteBuffer> tags = tags(profile);
        if (!text(profile, 20).equals("XYZ ") || !tags.containsKey("rXYZ")) {
            return new SourceProfile(null, "describes colours by a table, which cannot be carried", false);
        }
        return matrix(tags);
    }

    private static SourceProfile matrix(Map<String, ByteBuffer> tags) {
        double[] primaries = new double[9];
        double[] sum = new double[3];
        List<ToneCurve> curves = new ArrayList<>();
        for (int component = 0; component < 3; component++) {
            String letter = "rgb".substring(component, component + 1);
            Optional<double[]> primary = xyz(tags.get(letter + "XYZ"));
            Optional<ToneCurve> curve =
                    Optional.ofNullable(tags.get(letter + "TRC")).flatMap(ToneCurve::read);
            if (primary.isEmpty() || curve.isEmpty()) {
                return wrong("has primaries or tone curves that cannot be read");
            }
            System.arraycopy(primary.get(), 0, primaries, 3 * component, 3);
            curves.add(curve.get());
            for (int axis = 0; axis < 3; axis++) {
                sum[axis] += primary.get()[axis];
            }
        }
        for (int axis = 0; axis < 3; axis++) {
            if (Math.abs(sum[axis] - MatrixProfile.D50[axis]) > WHITE_TOLERANCE) {
                return wrong("has primaries that do not add up to white");
            }
        }
        double[] white = xyz(tags.get("wtpt")).orElse(MatrixProfile.D50.clone());
        return new SourceProfile(new MatrixProfile(primaries, white, curves), "", false);
    }

    private static SourceProfile wrong(String problem) {
        return new SourceProfile(null, problem, true);
    }

    private static Optional<double[]> xyz(@Nullable ByteBuffer tag) {
        if (tag == null || tag.remaining() < 20 || tag.getInt(tag.position()) != XYZ) {
            return Optional.empty();
        }
        double[] value = new double[3];
        for (int axis = 0; axis < 3; axis++) {
            value[axis] = tag.getInt(tag.position() + 8 + 4 * axis) / 65536.0;
        }
        return Optional.of(value);
    }

    /** The tags that lie within the profile; others are as if they were not there. */
    private static Map<String, ByteBuffer> tags(ByteBuffer profile) {
        Map<String, ByteBuffer> tags = new HashMap<>();
        if (profile.capacity() < HEADER + 4) {
            return tags;
        }
        int count = Math.min(MOST_TAGS, profile.getInt(HEADER));
        for (int index = 0; index < count && HEADER + 16 + 12 * index <= profile.capacity(); index++) {
            int entry = HEADER + 4 + 12 * index;
            int offset = profile.getInt(entry + 4);
            int length = profile.getInt(entry + 8);
            if (offset >= HEADER && length >= 8 && length <= profile.capacity() - offset) {
                tags.putIfAbsent(text(profile, entry), profile.slice(offset, length));
            }
        }
        return tags;
    }

    private static String text(ByteBuffer profile, int offset) {
        StringBuilder text = new StringBuilder();
        for (int index = 0; index < 4; index++) {
            text.append((char) (profile.get(offset + index) & 0xFF));
        }
        return text.toString();
    }
}
