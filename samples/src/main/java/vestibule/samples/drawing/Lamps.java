package vestibule.samples.drawing;

/** A twin flash, one lamp on each side of the lens and a little above it. */
final class Lamps {
    private static final double SIDE = 0.34;
    private static final double ABOVE = 0.30;

    private final Vector3 back;
    private final Vector3 left;
    private final Vector3 right;
    private final Vector3 leftGlint;
    private final Vector3 rightGlint;

    Lamps(Camera camera) {
        back = camera.look().times(-1);
        left = back.plus(-SIDE, camera.rows()).plus(-ABOVE, camera.columns()).unit();
        right = back.plus(SIDE, camera.rows()).plus(-ABOVE, camera.columns()).unit();
        leftGlint = left.plus(back).unit();
        rightGlint = right.plus(back).unit();
    }

    /** Above zero where the surface's own normal points to the camera. */
    double facing(Fragment spot) {
        return spot.nx * back.x() + spot.ny * back.y() + spot.nz * back.z();
    }

    /** Turns the colours of the spot into the light that comes from it. */
    void light(Fragment spot, double flash) {
        double length = Math.sqrt(spot.nx * spot.nx + spot.ny * spot.ny + spot.nz * spot.nz) + 1e-12;
        double turn = (facing(spot) < 0 ? -1 : 1) / length;
        double nx = spot.nx * turn;
        double ny = spot.ny * turn;
        double nz = spot.nz * turn;
        double diffuse = 0.5 * (reach(nx, ny, nz, left) + reach(nx, ny, nz, right));
        double glint = 0;
        if (spot.shine > 0) {
            glint = spot.shine
                    * flash
                    * (Math.pow(reach(nx, ny, nz, leftGlint), spot.sharpness)
                            + Math.pow(reach(nx, ny, nz, rightGlint), spot.sharpness));
        }
        double lit = flash * (0.16 + 0.94 * diffuse);
        spot.red = spot.red * lit + glint;
        spot.green = spot.green * lit + glint;
        spot.blue = spot.blue * lit + glint;
    }

    private static double reach(double nx, double ny, double nz, Vector3 lamp) {
        return Math.max(0, nx * lamp.x() + ny * lamp.y() + nz * lamp.z());
    }
}
