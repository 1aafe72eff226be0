package vestibule.samples.drawing;

/** Smooth noise without state, so that the same place always looks the same. */
final class Noise {
    private Noise() {}

    /** Between -1 and 1, with hills about one unit wide. */
    static double at(double x, double y, double z) {
        int ix = (int) Math.floor(x);
        int iy = (int) Math.floor(y);
        int iz = (int) Math.floor(z);
        double fx = x - ix;
        double fy = y - iy;
        double fz = z - iz;
        double low = plane(ix, iy, iz, fx, fy, fz);
        double high = plane(ix, iy, iz + 1, fx, fy, fz - 1);
        return low + (high - low) * smooth(fz);
    }

    /** Noise with finer hills added, between about -1 and 1. */
    static double layered(double x, double y, double z) {
        return 0.6 * at(x, y, z) + 0.3 * at(2.1 * x + 7, 2.1 * y, 2.1 * z) + 0.15 * at(4.3 * x, 4.3 * y + 3, 4.3 * z);
    }

    private static double tilt(int bits) {
        return (bits & 1023) / 511.5 - 1;
    }

    /** Between -1 and 1 for a whole-numbered place. */
    static double grain(int x, int y, int z) {
        return hash(x, y, z) / 2147483648.0;
    }

    private static int hash(int x, int y, int z) {
        int h = (x * 0x27d4eb2d) ^ (y * 0x165667b1) ^ (z * 0x9e3779b1);
        h = (h ^ (h >>> 15)) * 0x85ebca6b;
        h = (h ^ (h >>> 13)) * 0xc2b2ae35;
        return h ^ (h >>> 16);
    }

    private static double plane(int ix, int iy, int iz, double fx, double fy, double fz) {
        double a = slope(ix, iy, iz, fx, fy, fz);
        double b = slope(ix + 1, iy, iz, fx - 1, fy, fz);
        double c = slope(ix, iy + 1, iz, fx, fy - 1, fz);
        double d = slope(ix + 1, iy + 1, iz, fx - 1, fy - 1, fz);
        double sx = smooth(fx);
        double near = a + (b - a) * sx;
        double far = c + (d - c) * sx;
        return near + (far - near) * smooth(fy);
    }

    /** A plane through zero at a corner of the lattice, tilted at random. */
    private static double slope(int ix, int iy, int iz, double fx, double fy, double fz) {
        int h = hash(ix, iy, iz);
        return 1.5 * (tilt(h) * fx + tilt(h >> 10) * fy + tilt(h >> 20) * fz);
    }

    private static double smooth(double f) {
        return f * f * (3 - 2 * f);
    }
}
