package vestibule.samples.drawing;

import java.util.ArrayList;
import java.util.List;

/** What lies inside an arch: the roof of the mouth above, its floor and the tongue below. */
final class Palate {
    private static final Tint ROOF = Tint.of(0xd48e84);
    private static final Tint SOFT = Tint.of(0xb8564f);
    private static final Tint FLOOR = Tint.of(0xa8403f);
    private static final Tint TONGUE = Tint.of(0xc8706c);
    private static final Tint COAT = Tint.of(0xd9a59c);

    private final Jaw jaw;
    private final double front;
    private final double back;

    Palate(Jaw jaw) {
        this.jaw = jaw;
        front = new Gum(jaw).point(0, 2, -1).y() + 0.2;
        back = jaw.back();
    }

    /** Half the free width between the gums of both sides, by how far back. */
    private Curve halfWidth() {
        Gum gum = new Gum(jaw);
        List<Double> points = new ArrayList<>(List.of(front - 0.2, 0.4));
        for (PlacedTooth tooth : jaw.teeth()) {
            Vector3 edge = gum.point(tooth.along(), 2.2, -1);
            if (tooth.along() > 0 && edge.y() > front) {
                points.add(edge.y());
                points.add(edge.x());
            }
        }
        double last = points.get(points.size() - 1);
        points.addAll(List.of(back + 12, last + 6, back + 26, last + 16));
        return new Curve(points.stream().mapToDouble(Double::doubleValue).toArray());
    }

    /**
     * The vault with its ridges (rugae), its middle seam and the papilla behind the incisors.
     *
     * @param beyond how far it goes on behind the last teeth, millimetres in an adult
     */
    Mesh roof(double beyond) {
        double size = jaw.size();
        Curve vault = new Curve(0, 1.0, 6, 4.5, 14, 10, 26, 14, 42, 13.5, 60, 8, 75, 2);
        Curve halfWidth = halfWidth();
        return Mesh.sheet(120, 160, Palate::roofFlesh, (u, v, corner) -> {
            double across = 2 * u - 1;
            double y = front + v * (back + beyond * size - front);
            double x = across * halfWidth.at(y);
            double deep = vault.at((y - front) / size) * size * (1 - Math.pow(Math.abs(across), 2.6));
            double base = jaw.neckHeight(0) + 1.4;
            double ridges = rugae(x / size, (y - front) / size);
            corner.a = (y - front) / size;
            corner.b = x / size;
            corner.c = ridges;
            corner.place = new Vector3(x, y, base + deep - ridges * size);
        });
    }

    private static double rugae(double x, double y) {
        double sideways = Math.abs(x);
        double wave = y - 0.22 * sideways + 0.5 * Noise.at(x * 0.35, y * 0.1, x > 0 ? 4 : 9);
        double ridge = Math.pow(Math.max(0, Math.sin(wave * 2 * Math.PI / 4.3)), 1.5);
        double where = Curve.step(2.5, 5, y)
                * Curve.step(21, 15, y)
                * Curve.step(0.8, 2.2, sideways)
                * Curve.step(13, 9, sideways);
        double papilla = 1.5 * Math.exp(-(x * x / 4.0 + (y - 3.2) * (y - 3.2) / 7.0));
        double seam = -0.35 * Curve.bell(x, 0.55) * Curve.step(6, 9, y);
        return 0.95 * ridge * where + papilla + seam;
    }

    private static void roofFlesh(Fragment spot) {
        spot.paint(ROOF);
        spot.mix(SOFT, Curve.step(42, 52, spot.a));
        spot.dim(0.93 + 0.12 * spot.c);
        spot.dim(1 + 0.07 * Noise.layered(spot.x * 0.4, spot.y * 0.4, 2));
        spot.mix(SOFT, 0.35 * Curve.bell(spot.b, 0.35) * Curve.step(6, 9, spot.a));
        spot.roughen(1.2, 0.07);
        spot.gloss(0.28, 40);
    }

    /** The floor of the mouth under the tongue, going on as the roof does. */
    Mesh floor(double beyond) {
        Curve halfWidth = halfWidth();
        return Mesh.sheet(60, 80, Palate::floorFlesh, (u, v, corner) -> {
            double across = 2 * u - 1;
            double y = front + v * (back + beyond * jaw.size() - front);
            double deep = 9 * jaw.size() * (1 - Math.pow(Math.abs(across), 4)) * Curve.step(0, 0.15, v);
            double base = jaw.neckHeight(0) - 2;
            corner.place = new Vector3(across * halfWidth.at(y), y, base - deep);
        });
    }

    private static void floorFlesh(Fragment spot) {
        spot.paint(FLOOR);
        spot.dim(1 + 0.10 * Noise.layered(spot.x * 0.4, spot.y * 0.4, 7));
        spot.roughen(2, 0.1);
        spot.gloss(0.35, 50);
    }

    /** The tongue lying back in the lower arch. */
    Mesh tongue() {
        double size = jaw.size();
        Vector3 centre = new Vector3(0, 49 * size, jaw.neckHeight(0) - 4 * size);
        Vector3 radii = new Vector3(20.5 * size, 36 * size, 11 * size);
        return Mesh.tube(96, 96, Palate::tongueFlesh, (u, v, corner) -> {
            double turn = 2 * Math.PI * u;
            double rise = Math.PI * (0.002 + 0.996 * v);
            double x = Math.sin(rise) * Math.cos(turn);
            double y = Math.sin(rise) * Math.sin(turn);
            double square = 1 + 0.10 * Math.pow(Math.sin(2 * turn), 2) * Math.sin(rise);
            double groove = 1.3 * Curve.bell(x, 0.13) * Math.max(0, Math.cos(rise)) * Curve.step(-0.95, -0.7, y);
            corner.a = x;
            corner.b = y;
            corner.c = Math.cos(rise);
            corner.place = new Vector3(
                    centre.x() + radii.x() * x * square,
                    centre.y() + radii.y() * y * square,
                    centre.z() + radii.z() * corner.c - groove * size);
        });
    }

    private static void tongueFlesh(Fragment spot) {
        spot.paint(TONGUE);
        double top = Curve.step(0.2, 0.7, spot.c);
        double buds = Noise.layered(spot.x * 2.2, spot.y * 2.2, 3);
        spot.mix(COAT, top * (0.45 + 0.35 * buds));
        spot.dim(1 - 0.25 * top * Curve.bell(spot.a, 0.05));
        spot.roughen(0.8, 0.22 * top + 0.03);
        spot.gloss(0.22, 30);
    }
}
