package vestibule.samples.drawing;

/** A smooth curve through given points, flat beyond its ends. */
final class Curve {
    private final double[] at;
    private final double[] value;

    /** @param points position, value, position, value… with growing positions */
    Curve(double... points) {
        at = new double[points.length / 2];
        value = new double[points.length / 2];
        for (int i = 0; i < at.length; i++) {
            at[i] = points[2 * i];
            value[i] = points[2 * i + 1];
        }
    }

    double at(double position) {
        int last = at.length - 1;
        if (position <= at[0]) {
            return value[0];
        }
        if (position >= at[last]) {
            return value[last];
        }
        int i = 0;
        while (position > at[i + 1]) {
            i++;
        }
        double span = at[i + 1] - at[i];
        double f = (position - at[i]) / span;
        double f2 = f * f;
        double f3 = f2 * f;
        return (2 * f3 - 3 * f2 + 1) * value[i]
                + (f3 - 2 * f2 + f) * span * slope(i)
                + (3 * f2 - 2 * f3) * value[i + 1]
                + (f3 - f2) * span * slope(i + 1);
    }

    private double slope(int i) {
        int before = Math.max(0, i - 1);
        int after = Math.min(at.length - 1, i + 1);
        return (value[after] - value[before]) / (at[after] - at[before]);
    }

    /** Zero up to {@code from}, one from {@code to} on, smooth between. */
    static double step(double from, double to, double position) {
        double f = Math.max(0, Math.min(1, (position - from) / (to - from)));
        return f * f * (3 - 2 * f);
    }

    /** A bell of height one around zero that has fallen to 1/e at {@code width}. */
    static double bell(double distance, double width) {
        double f = distance / width;
        return Math.exp(-f * f);
    }

    static double mix(double from, double to, double share) {
        return from + (to - from) * share;
    }
}
