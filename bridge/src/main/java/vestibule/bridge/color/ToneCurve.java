package vestibule.bridge.color;

import java.nio.ByteBuffer;
import java.util.Optional;

/** How a component's numbers become light, as an ICC profile writes it: a curve of points or a formula (ICC.1:2010 10.5, 10.15). */
final class ToneCurve {

    private static final int CURVE = 0x63757276;
    private static final int FORMULA = 0x70617261;
    private static final int MOST_POINTS = 4096;
    private static final int[] PARAMETERS = {1, 3, 4, 5, 7};
    private static final int POINTS = 1024;
    private static final double ONE = 65535.0;

    private final byte[] element;

    private ToneCurve(byte[] element) {
        this.element = element;
    }

    /** The tag element, type signature included. */
    byte[] element() {
        return element.clone();
    }

    /** The curve of IEC 61966-2-1, sRGB. */
    static ToneCurve srgb() {
        ByteBuffer bytes = ByteBuffer.allocate(12 + 2 * POINTS);
        bytes.putInt(CURVE).putInt(0).putInt(POINTS);
        for (int point = 0; point < POINTS; point++) {
            double value = point / (double) (POINTS - 1);
            double light = value <= 0.04045 ? value / 12.92 : Math.pow((value + 0.055) / 1.055, 2.4);
            bytes.putShort((short) Math.round(light * ONE));
        }
        return new ToneCurve(bytes.array());
    }

    /** A power, in 256ths. */
    static ToneCurve power(int twoHundredFiftySixths) {
        return new ToneCurve(ByteBuffer.allocate(16)
                .putInt(CURVE)
                .putInt(0)
                .putInt(1)
                .putShort((short) twoHundredFiftySixths)
                .array());
    }

    /** Reads a tag element; empty if it is neither form, too long for its bytes, or not rising from dark to light. */
    static Optional<ToneCurve> read(ByteBuffer tag) {
        if (tag.remaining() < 12) {
            return Optional.empty();
        }
        int start = tag.position();
        int length = switch (tag.getInt(start)) {
            case CURVE -> {
                int count = tag.getInt(start + 8);
                yield count < 0 || count > MOST_POINTS ? -1 : 12 + 2 * count;
            }
            case FORMULA -> {
                int function = tag.getShort(start + 8);
                yield function < 0 || function >= PARAMETERS.length ? -1 : 12 + 4 * PARAMETERS[function];
            }
            default -> -1;
        };
        if (length < 0 || length > tag.remaining()) {
            return Optional.empty();
        }
        byte[] element = new byte[(length + 3) / 4 * 4];
        tag.get(start, element, 0, length);
        // Bytes 4 to 7 are reserved, as are two of a formula's; nothing may hide there
        ByteBuffer.wrap(element).putInt(4, 0);
        if (ByteBuffer.wrap(element).getInt(0) == FORMULA) {
            ByteBuffer.wrap(element).putShort(10, (short) 0);
        }
        ToneCurve curve = new ToneCurve(element);
        double dark = curve.light(0.05);
        double light = curve.light(0.95);
        return dark < light && light <= 1.001 && dark >= -0.001 ? Optional.of(curve) : Optional.empty();
    }

    /** Whether it is a formula, which only profiles of version 4 have. */
    boolean isFormula() {
        return ByteBuffer.wrap(element).getInt(0) == FORMULA;
    }

    /** Light from 0 to 1 for a number from 0 to 1. */
    double light(double value) {
        ByteBuffer bytes = ByteBuffer.wrap(element);
        return isFormula() ? formula(bytes, value) : points(bytes, value);
    }

    private static double points(ByteBuffer bytes, double value) {
        int count = bytes.getInt(8);
        if (count == 0) {
            return value;
        }
        if (count == 1) {
            return Math.pow(value, (bytes.getShort(12) & 0xFFFF) / 256.0);
        }
        double at = value * (count - 1);
        int below = Math.min((int) at, count - 2);
        double low = (bytes.getShort(12 + 2 * below) & 0xFFFF) / ONE;
        double high = (bytes.getShort(14 + 2 * below) & 0xFFFF) / ONE;
        return low + (at - below) * (high - low);
    }

    /** Functions 0 to 4 of the parametric curve (ICC.1:2010 Table 65). */
    private static double formula(ByteBuffer bytes, double value) {
        int function = bytes.getShort(8);
        double[] p = new double[7];
        for (int index = 0; index < PARAMETERS[function]; index++) {
            p[index] = bytes.getInt(12 + 4 * index) / 65536.0;
        }
        double power = Math.pow(Math.max(0, (function == 0 ? 1 : p[1]) * value + p[2]), p[0]);
        return switch (function) {
            case 0 -> power;
            case 1 -> value >= -p[2] / p[1] ? power : 0;
            case 2 -> value >= -p[2] / p[1] ? power + p[3] : p[3];
            case 3 -> value >= p[4] ? power : p[3] * value;
            default -> value >= p[4] ? power + p[5] : p[3] * value + p[6];
        };
    }

    @Override
    public String toString() {
        return "tone curve of " + element.length + " bytes";
    }
}
