package vestibule.samples.drawing;

/**
 * The form of a crown. Sizes are everyday averages of tooth anatomy from memory, in millimetres.
 *
 * @param kind which family the tooth belongs to
 * @param width mesial to distal
 * @param depth cheek or lip side to tongue side
 * @param height neck to edge
 */
record ToothShape(Kind kind, double width, double depth, double height) {
    enum Kind {
        INCISOR,
        CANINE,
        PREMOLAR,
        MOLAR
    }

    private static final double[][] UPPER = {
        {8.6, 7.0, 10.8},
        {6.7, 6.0, 9.4},
        {7.7, 7.8, 10.4},
        {7.0, 9.0, 8.6},
        {6.8, 9.0, 8.0},
        {10.4, 11.0, 7.4},
        {9.6, 10.8, 7.0}
    };
    private static final double[][] LOWER = {
        {5.4, 5.8, 9.0},
        {5.9, 6.1, 9.4},
        {6.9, 7.4, 10.8},
        {7.0, 7.6, 8.8},
        {7.1, 8.2, 8.0},
        {11.2, 10.5, 7.4},
        {10.6, 10.2, 7.0}
    };
    private static final double[][] UPPER_PRIMARY = {
        {6.6, 5.0, 6.2}, {5.2, 4.6, 5.8}, {6.8, 6.2, 6.6}, {7.2, 8.4, 5.6}, {8.9, 9.6, 5.8}
    };
    private static final double[][] LOWER_PRIMARY = {
        {4.2, 4.2, 5.2}, {4.6, 4.4, 5.5}, {5.6, 5.2, 6.2}, {7.9, 7.0, 5.8}, {9.8, 8.8, 5.7}
    };

    private static final Curve INCISOR_WIDTH = new Curve(-0.3, 0.60, 0, 0.68, 0.4, 0.88, 0.82, 1.0, 1, 0.97);
    private static final Curve INCISOR_FRONT = new Curve(-0.3, 0.85, 0, 0.95, 0.3, 1.0, 0.7, 0.84, 1, 0.60);
    private static final Curve INCISOR_BACK =
            new Curve(-0.3, -0.85, 0, -0.95, 0.22, -0.9, 0.5, -0.25, 0.85, 0.18, 1, 0.28);
    private static final Curve CANINE_WIDTH = new Curve(-0.3, 0.66, 0, 0.72, 0.45, 0.93, 0.68, 1.0, 1, 0.80);
    private static final Curve CANINE_FRONT = new Curve(-0.3, 0.85, 0, 0.95, 0.35, 1.05, 0.7, 0.86, 1, 0.48);
    private static final Curve CANINE_BACK = new Curve(-0.3, -0.85, 0, -0.95, 0.3, -0.88, 0.6, -0.4, 1, 0.0);
    private static final Curve PREMOLAR_WIDTH = new Curve(-0.3, 0.68, 0, 0.76, 0.5, 0.96, 0.75, 1.0, 1, 0.90);
    private static final Curve PREMOLAR_FRONT = new Curve(-0.3, 0.85, 0, 0.95, 0.35, 1.0, 0.7, 0.86, 1, 0.66);
    private static final Curve PREMOLAR_BACK = new Curve(-0.3, -0.82, 0, -0.9, 0.4, -1.0, 0.7, -0.9, 1, -0.68);
    private static final Curve MOLAR_WIDTH = new Curve(-0.3, 0.80, 0, 0.86, 0.5, 0.97, 0.75, 1.0, 1, 0.93);
    private static final Curve MOLAR_FRONT = new Curve(-0.3, 0.88, 0, 0.95, 0.3, 1.0, 0.7, 0.88, 1, 0.72);
    private static final Curve MOLAR_BACK = new Curve(-0.3, -0.88, 0, -0.94, 0.4, -1.0, 0.7, -0.9, 1, -0.72);

    /** The shape of a tooth by its ISO 3950 number. */
    static ToothShape of(int tooth) {
        int quadrant = tooth / 10;
        int place = tooth % 10 - 1;
        boolean primary = quadrant > 4;
        boolean upper = quadrant == 1 || quadrant == 2 || quadrant == 5 || quadrant == 6;
        double[] size = primary ? (upper ? UPPER_PRIMARY : LOWER_PRIMARY)[place] : (upper ? UPPER : LOWER)[place];
        return new ToothShape(kind(place, primary), size[0], size[1], size[2]);
    }

    private static Kind kind(int place, boolean primary) {
        if (place < 2) {
            return Kind.INCISOR;
        }
        if (place == 2) {
            return Kind.CANINE;
        }
        return place < 5 && !primary ? Kind.PREMOLAR : Kind.MOLAR;
    }

    /** A ground-down version, as prepared for a crown. */
    ToothShape prepared() {
        return new ToothShape(kind, width * 0.74, depth * 0.74, height * 0.78);
    }

    double halfWidth(double rise) {
        return width
                / 2
                * switch (kind) {
                    case INCISOR -> INCISOR_WIDTH.at(rise);
                    case CANINE -> CANINE_WIDTH.at(rise);
                    case PREMOLAR -> PREMOLAR_WIDTH.at(rise);
                    case MOLAR -> MOLAR_WIDTH.at(rise);
                };
    }

    /** How far the lip or cheek side stands out from the middle line, by height above the neck (0 to 1). */
    double front(double rise) {
        return depth
                / 2
                * switch (kind) {
                    case INCISOR -> INCISOR_FRONT.at(rise);
                    case CANINE -> CANINE_FRONT.at(rise);
                    case PREMOLAR -> PREMOLAR_FRONT.at(rise);
                    case MOLAR -> MOLAR_FRONT.at(rise);
                };
    }

    /** The same for the tongue side; negative. */
    double back(double rise) {
        return depth
                / 2
                * switch (kind) {
                    case INCISOR -> INCISOR_BACK.at(rise);
                    case CANINE -> CANINE_BACK.at(rise);
                    case PREMOLAR -> PREMOLAR_BACK.at(rise);
                    case MOLAR -> MOLAR_BACK.at(rise);
                };
    }

    /** How square the outline is; 2 is an ellipse. */
    double squareness() {
        return switch (kind) {
            case INCISOR -> 2.7;
            case CANINE -> 2.3;
            case PREMOLAR -> 2.4;
            case MOLAR -> 3.1;
        };
    }

    /** Hills and hollows of the chewing surface in millimetres; x and y run from -1 to 1. */
    double cusps(double x, double y) {
        return switch (kind) {
            case INCISOR -> -0.9 * Math.pow(Math.abs(x), 5);
            case CANINE -> -2.6 * Math.pow(Math.abs(x), 1.25);
            case PREMOLAR ->
                1.6 * hill(x, y - 0.52, 0.55)
                        + 1.2 * hill(x, y + 0.52, 0.55)
                        - 0.9 * hill(x, y, 0.4)
                        - 0.9 * Math.pow(Math.abs(x), 3);
            case MOLAR ->
                1.5 * (hill(x - 0.46, y - 0.48, 0.36) + hill(x + 0.46, y - 0.48, 0.36))
                        + 1.3 * (hill(x - 0.44, y + 0.48, 0.36) + hill(x + 0.44, y + 0.48, 0.36))
                        - 1.1 * hill(x, y, 0.34)
                        - 0.5 * hill(x, y - 0.8, 0.18);
        };
    }

    private static double hill(double x, double y, double size) {
        return Math.exp(-(x * x + y * y) / (size * size));
    }
}
