package vestibule.bridge.color;

import java.util.List;
import java.util.Optional;

/** Colours described by three primaries and a tone curve for each (ICC.1:2010 8.3.3). */
final class MatrixProfile {

    /** The illuminant of the connection space (ICC.1:2010 7.2.16). */
    static final double[] D50 = {0.9642, 1.0, 0.8249};

    /** White D65 of both spaces, as x and y. */
    private static final double[] D65 = {0.3127, 0.3290};

    /** IEC 61966-2-1: x and y of red, green and blue. */
    private static final double[] SRGB = {0.64, 0.33, 0.30, 0.60, 0.15, 0.06};

    /** Adobe RGB (1998) colour image encoding, version 2005-05: x and y of red, green and blue. */
    private static final double[] ADOBE_RGB = {0.64, 0.33, 0.21, 0.71, 0.15, 0.06};

    /** 2.19921875, in 256ths. */
    private static final int ADOBE_RGB_POWER = 563;

    private static final double[] BRADFORD = {0.8951, 0.2664, -0.1614, -0.7502, 1.7135, 0.0367, 0.0389, -0.0685, 1.0296
    };

    private static final double SAME_PRIMARIES = 0.003;
    private static final double SAME_LIGHT = 0.004;

    private final double[] primaries;
    private final double[] white;
    private final List<ToneCurve> curves;

    /**
     * @param primaries X, Y, Z of red, green and blue, seen under D50: nine numbers
     * @param white X, Y, Z of the media white
     * @param curves of red, green and blue
     */
    MatrixProfile(double[] primaries, double[] white, List<ToneCurve> curves) {
        this.primaries = primaries.clone();
        this.white = white.clone();
        this.curves = List.copyOf(curves);
    }

    double[] primaries() {
        return primaries.clone();
    }

    double[] white() {
        return white.clone();
    }

    List<ToneCurve> curves() {
        return curves;
    }

    /** The published space of that name in Color Space (PS3.3 C.11.15.1.2): SRGB or ADOBERGB. */
    static Optional<MatrixProfile> ofSpace(String space) {
        return switch (space) {
            case "SRGB" -> Optional.of(of(SRGB, ToneCurve.srgb()));
            case "ADOBERGB" -> Optional.of(of(ADOBE_RGB, ToneCurve.power(ADOBE_RGB_POWER)));
            default -> Optional.empty();
        };
    }

    /** The published space that these colours are, if they are one. */
    Optional<String> knownSpace() {
        return List.of("SRGB", "ADOBERGB").stream()
                .filter(space -> sameAs(ofSpace(space).orElseThrow()))
                .findFirst();
    }

    private boolean sameAs(MatrixProfile other) {
        for (int index = 0; index < 9; index++) {
            if (Math.abs(primaries[index] - other.primaries[index]) > SAME_PRIMARIES) {
                return false;
            }
        }
        for (int component = 0; component < 3; component++) {
            for (double value = 0.1; value < 1; value += 0.2) {
                double difference = curves.get(component).light(value)
                        - other.curves.get(component).light(value);
                if (Math.abs(difference) > SAME_LIGHT) {
                    return false;
                }
            }
        }
        return true;
    }

    /** The bytes of a profile of the input class with these colours and nothing else of whatever they were read from. */
    byte[] inputProfile(String description) {
        return new ProfileWriter(this).bytes(description);
    }

    private static MatrixProfile of(double[] chromaticities, ToneCurve curve) {
        double[] white = xyz(D65[0], D65[1]);
        double[] unscaled = new double[9];
        for (int component = 0; component < 3; component++) {
            double[] primary = xyz(chromaticities[2 * component], chromaticities[2 * component + 1]);
            for (int row = 0; row < 3; row++) {
                unscaled[3 * row + component] = primary[row];
            }
        }
        double[] scale = Matrix.times(Matrix.inverse(unscaled), white);
        double[] adaptation = adaptation(white);
        double[] primaries = new double[9];
        for (int component = 0; component < 3; component++) {
            double[] primary = {
                unscaled[component] * scale[component],
                unscaled[3 + component] * scale[component],
                unscaled[6 + component] * scale[component]
            };
            System.arraycopy(Matrix.times(adaptation, primary), 0, primaries, 3 * component, 3);
        }
        return new MatrixProfile(primaries, D50.clone(), List.of(curve, curve, curve));
    }

    /** From that white to D50 by the Bradford method (ICC.1:2010 Annex E). */
    static double[] adaptation(double[] white) {
        double[] from = Matrix.times(BRADFORD, white);
        double[] to = Matrix.times(BRADFORD, D50);
        double[] scaled = BRADFORD.clone();
        for (int row = 0; row < 3; row++) {
            for (int column = 0; column < 3; column++) {
                scaled[3 * row + column] *= to[row] / from[row];
            }
        }
        return Matrix.product(Matrix.inverse(BRADFORD), scaled);
    }

    private static double[] xyz(double x, double y) {
        return new double[] {x / y, 1, (1 - x - y) / y};
    }
}
