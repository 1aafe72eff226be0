package vestibule.conformance.color;

/**
 * The colour difference CIEDE2000 between two colours (ISO/CIE 11664-6; G. Sharma, W. Wu, E. N. Dalal, "The CIEDE2000
 * color-difference formula: implementation notes, supplementary test data, and mathematical observations", Color
 * Research and Application 30, 2005), with all three weights 1. About 1 is what a trained eye can just tell apart.
 */
final class Ciede2000 {
    private static final double POWER_OF_25 = Math.pow(25, 7);

    private Ciede2000() {}

    /** Between two colours of CIELAB, each L*, a*, b*. */
    static double between(double[] one, double[] other) {
        double meanChroma = (Math.hypot(one[1], one[2]) + Math.hypot(other[1], other[2])) / 2;
        double stretch = 1 + 0.5 * (1 - grown(meanChroma));
        double chromaOne = Math.hypot(stretch * one[1], one[2]);
        double chromaOther = Math.hypot(stretch * other[1], other[2]);
        double hueOne = hue(stretch * one[1], one[2]);
        double hueOther = hue(stretch * other[1], other[2]);

        boolean colourless = chromaOne * chromaOther == 0;
        double turn = colourless ? 0 : hueOther - hueOne;
        if (turn > 180) {
            turn -= 360;
        } else if (turn < -180) {
            turn += 360;
        }
        double lightness = other[0] - one[0];
        double chroma = chromaOther - chromaOne;
        double hue = 2 * Math.sqrt(chromaOne * chromaOther) * Math.sin(Math.toRadians(turn / 2));
        return weighed(
                lightness,
                chroma,
                hue,
                (one[0] + other[0]) / 2,
                (chromaOne + chromaOther) / 2,
                meanHue(hueOne, hueOther, colourless));
    }

    private static double weighed(
            double lightness, double chroma, double hue, double meanLightness, double meanChroma, double meanHue) {
        double t = 1
                - 0.17 * cosine(meanHue - 30)
                + 0.24 * cosine(2 * meanHue)
                + 0.32 * cosine(3 * meanHue + 6)
                - 0.20 * cosine(4 * meanHue - 63);
        double fromMiddle = (meanLightness - 50) * (meanLightness - 50);
        double byLightness = lightness / (1 + 0.015 * fromMiddle / Math.sqrt(20 + fromMiddle));
        double byChroma = chroma / (1 + 0.045 * meanChroma);
        double byHue = hue / (1 + 0.015 * meanChroma * t);
        double blue = (meanHue - 275) / 25;
        double rotation = -2 * grown(meanChroma) * Math.sin(Math.toRadians(60 * Math.exp(-blue * blue)));
        return Math.sqrt(byLightness * byLightness + byChroma * byChroma + byHue * byHue + rotation * byChroma * byHue);
    }

    private static double grown(double chroma) {
        double power = Math.pow(chroma, 7);
        return Math.sqrt(power / (power + POWER_OF_25));
    }

    private static double hue(double a, double b) {
        double degrees = Math.toDegrees(Math.atan2(b, a));
        return degrees < 0 ? degrees + 360 : degrees;
    }

    private static double meanHue(double one, double other, boolean colourless) {
        if (colourless) {
            return one + other;
        }
        if (Math.abs(one - other) <= 180) {
            return (one + other) / 2;
        }
        return one + other < 360 ? (one + other + 360) / 2 : (one + other - 360) / 2;
    }

    private static double cosine(double degrees) {
        return Math.cos(Math.toRadians(degrees));
    }

    /** CIELAB of an sRGB pixel (IEC 61966-2-1, matrix and white point D65). */
    static double[] lab(int rgb) {
        double red = linear(rgb >> 16 & 0xFF);
        double green = linear(rgb >> 8 & 0xFF);
        double blue = linear(rgb & 0xFF);
        double x = root((0.4124 * red + 0.3576 * green + 0.1805 * blue) / 0.9505);
        double y = root(0.2126 * red + 0.7152 * green + 0.0722 * blue);
        double z = root((0.0193 * red + 0.1192 * green + 0.9505 * blue) / 1.0890);
        return new double[] {116 * y - 16, 500 * (x - y), 200 * (y - z)};
    }

    private static double linear(int sample) {
        double value = sample / 255.0;
        return value <= 0.04045 ? value / 12.92 : Math.pow((value + 0.055) / 1.055, 2.4);
    }

    private static double root(double value) {
        return value > 216.0 / 24389 ? Math.cbrt(value) : (24389.0 / 27 * value + 16) / 116;
    }
}
