package vestibule.samples.drawing;

import java.util.List;

/** The gum around a row of teeth: scalloped at the necks, pink where it is tight, red where it is loose. */
final class Gum {
    private static final Tint MARGIN = Tint.of(0xdf9c93);
    private static final Tint TIGHT = Tint.of(0xd27f78);
    private static final Tint LOOSE = Tint.of(0xa83d3c);
    private static final Tint VESSEL = Tint.of(0x8a2428);

    /** Outward of the neck by distance from the margin. */
    private static final Curve CHEEK_SIDE =
            new Curve(0, -2.4, 0.15, -0.15, 0.9, 0.45, 3, 0.55, 6, 0.7, 9, 1.0, 13, 1.7, 17, 3.6, 20, 5.0);

    private static final Curve TONGUE_SIDE =
            new Curve(0, -2.4, 0.15, -0.15, 0.9, 0.45, 3, 0.9, 6, 1.9, 9, 3.4, 13, 5.5);

    private final Jaw jaw;

    Gum(Jaw jaw) {
        this.jaw = jaw;
    }

    List<Mesh> meshes() {
        return List.of(side(1), side(-1));
    }

    private Mesh side(int facing) {
        double end = jaw.end();
        return Mesh.sheet(520, 44, Gum::flesh, (u, v, corner) -> {
            double along = -end + 2 * end * u;
            double fromMargin = (facing > 0 ? 20 : 12) * Math.pow(v, 1.7);
            corner.a = fromMargin;
            corner.b = relative(along);
            corner.c = facing;
            corner.place = point(along, fromMargin, facing);
        });
    }

    /** -1 to 1 across the nearest tooth, 0 in its middle. */
    private double relative(double along) {
        PlacedTooth tooth = jaw.nearest(along);
        double relative = (along - tooth.along()) / (tooth.shape().width() / 2);
        return Math.max(-1, Math.min(1, relative));
    }

    /** The gum so far from its margin, on the cheek side (1) or the tongue side (-1). */
    Vector3 point(double along, double fromMargin, int facing) {
        double relative = Math.abs(relative(along));
        double size = jaw.size();
        double halfDepth = jaw.crownDepth(along) / 2 * 0.95;
        double inset = halfDepth * 0.34 * Math.pow(relative, 2.5) * Curve.step(7, 0, fromMargin);
        double root = 0.55 * (1 - relative * relative) * Curve.step(0.5, 3, fromMargin) * Curve.step(12, 6, fromMargin);
        Curve profile = facing > 0 ? CHEEK_SIDE : TONGUE_SIDE;
        double outward = halfDepth - inset + root + profile.at(fromMargin) * size;
        double behind = Curve.step(jaw.end() - 17.5, jaw.end() - 14, Math.abs(along));
        double closing =
                Curve.step(-0.3, 1.2, fromMargin) * Curve.step(jaw.end() + 10, jaw.end() - 18, Math.abs(along));
        double gap = jaw.nearest(along).stands() ? 0 : Curve.step(1, 0.7, relative);
        outward *= Curve.mix(1, closing, Math.max(behind, gap));
        double height = jaw.neckHeight(along)
                + jaw.rise() * (papilla(along, relative) * Curve.step(11, -2, fromMargin) - fromMargin * size);
        height +=
                jaw.rise() * 0.85 * jaw.crownHeight(along) * Curve.step(jaw.end() - 16, jaw.end() - 4, Math.abs(along));
        Vector3 arch = jaw.at(along);
        Vector3 place = arch.plus(jaw.neckShift(along) + facing * outward, jaw.outward(along));
        return new Vector3(place.x(), place.y(), height);
    }

    /** Between two teeth the gum rises; where one is missing it has sunk. */
    private double papilla(double along, double relative) {
        PlacedTooth tooth = jaw.nearest(along);
        PlacedTooth other = jaw.nearest(along + Math.copySign(tooth.shape().width() * 0.6, along - tooth.along()));
        double full = tooth.stands() && other.stands() ? 0.50 : 0.16;
        double inner = tooth.stands() ? 2.1 : 4;
        double outside = Curve.step(jaw.end() - 14, jaw.end() - 17.5, Math.abs(along));
        return 0.25 + full * jaw.crownHeight(along) * Math.pow(relative, inner) * outside;
    }

    private static void flesh(Fragment spot) {
        double line = 5.5 + 0.8 * Noise.at(spot.x * 0.25, spot.y * 0.25, 1) - 1.0 * (1 - spot.b * spot.b);
        spot.paint(MARGIN);
        spot.mix(TIGHT, Curve.step(0.3, 1.6, spot.a));
        double loose = spot.c > 0 ? Curve.step(line, line + 2.5, spot.a) : 0.25 * Curve.step(4, 10, spot.a);
        spot.mix(LOOSE, loose);
        double vein = Curve.bell(Noise.layered(spot.x * 0.35, spot.y * 0.35, spot.z * 0.2), 0.05);
        spot.mix(VESSEL, 0.5 * vein * loose);
        spot.dim(1 + 0.06 * Noise.layered(spot.x * 0.7, spot.y * 0.7, spot.z * 0.7));
        spot.roughen(0.7, 0.10 * (1 - loose) * Curve.step(0.5, 2, spot.a));
        spot.roughen(2.5, 0.10);
        spot.gloss(0.30, 55);
    }
}
