package vestibule.samples.drawing;

/**
 * A tooth at its place in the jaw.
 *
 * @param number ISO 3950
 * @param along where its middle lies on the arch, millimetres from the midline, negative on the patient's right
 * @param neck the middle of its neck
 * @param across unit vector along the arch, from the patient's right to the left
 * @param outward unit vector to lip or cheek
 * @param rise unit vector from the neck to the chewing edge
 */
record PlacedTooth(
        int number,
        ToothShape shape,
        ToothState state,
        double along,
        Vector3 neck,
        Vector3 across,
        Vector3 outward,
        Vector3 rise) {

    Vector3 at(double x, double y, double z) {
        return neck.plus(x, across).plus(y, outward).plus(z, rise);
    }

    boolean stands() {
        return state != ToothState.MISSING && state != ToothState.IMPLANT;
    }

    /** The crown as a closed body; its free numbers are x and y across the crown (-1 to 1) and the height (0 to 1). */
    Mesh crown(Material material) {
        ToothShape form = state == ToothState.PREPARED ? shape.prepared() : shape;
        double size = 2 / form.squareness();
        return Mesh.tube(72, 56, material, (u, v, corner) -> {
            double turn = 2 * Math.PI * u;
            double cap = Math.max(0, (v - 0.72) / 0.28);
            double rise = v < 0.72 ? -0.3 + 1.22 * (v / 0.72) : 0.92 + 0.08 * Math.sin(cap * Math.PI / 2);
            double shrink = v < 0.72 ? 1 : Math.max(0.01, Math.cos(cap * Math.PI / 2));
            double front = form.front(rise);
            double back = form.back(rise);
            double x = shrink * form.halfWidth(rise) * power(Math.cos(turn), size);
            double y = (front + back) / 2 + shrink * (front - back) / 2 * power(Math.sin(turn), size);
            corner.a = x / (form.width() / 2);
            corner.b = y / (form.depth() / 2);
            corner.c = rise;
            double lift = Curve.step(0.45, 0.98, rise) * form.cusps(corner.a, corner.b);
            corner.place = at(x, y, rise * form.height() + lift);
        });
    }

    private static double power(double base, double exponent) {
        return Math.copySign(Math.pow(Math.abs(base), exponent), base);
    }
}
