package vestibule.samples.drawing;

/** One spot of a surface while it is being shaded: where it is, and, filled in by the material, what it looks like. */
final class Fragment {
    double x;
    double y;
    double z;
    double nx;
    double ny;
    double nz;
    /** Three numbers of the surface's own; each surface says what they mean. */
    double a;

    double b;
    double c;

    /** Whether the camera sees the side that the surface's own normal points away from. */
    boolean inner;

    double red;
    double green;
    double blue;
    double shine;
    double sharpness;
    double opacity;

    /** Starts the spot as a dull grey opaque one. */
    void reset() {
        red = 0.5;
        green = 0.5;
        blue = 0.5;
        shine = 0;
        sharpness = 30;
        opacity = 1;
    }

    void paint(Tint tint) {
        red = tint.red();
        green = tint.green();
        blue = tint.blue();
    }

    /** Lays a tint over what is there. */
    void mix(Tint tint, double share) {
        double s = Math.max(0, Math.min(1, share));
        red += (tint.red() - red) * s;
        green += (tint.green() - green) * s;
        blue += (tint.blue() - blue) * s;
    }

    void dim(double factor) {
        red *= factor;
        green *= factor;
        blue *= factor;
    }

    /** Roughens the surface: hills of the given size in millimetres and steepness. */
    void roughen(double size, double steepness) {
        double f = 1 / size;
        nx += steepness * Noise.at(x * f + 11, y * f, z * f);
        ny += steepness * Noise.at(x * f, y * f + 23, z * f);
        nz += steepness * Noise.at(x * f, y * f, z * f + 37);
    }

    void gloss(double strength, double narrowness) {
        shine = strength;
        sharpness = narrowness;
    }
}
