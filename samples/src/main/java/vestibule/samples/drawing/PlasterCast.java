package vestibule.samples.drawing;

import java.util.ArrayList;
import java.util.List;

/** Plaster copies of both jaws on trimmed bases. */
final class PlasterCast {
    private static final Tint PLASTER = Tint.of(0xe3d7b4);

    private final Dentition dentition;

    PlasterCast(Dentition dentition) {
        this.dentition = dentition;
    }

    List<Mesh> upper() {
        List<Mesh> meshes = jaw(dentition.upper);
        meshes.add(plain(new Palate(dentition.upper).roof(7)));
        return meshes;
    }

    List<Mesh> lower() {
        List<Mesh> meshes = jaw(dentition.lower);
        meshes.add(plain(new Palate(dentition.lower).floor(7)));
        return meshes;
    }

    private static List<Mesh> jaw(Jaw jaw) {
        List<Mesh> meshes = new ArrayList<>();
        for (PlacedTooth tooth : jaw.teeth()) {
            if (tooth.stands()) {
                meshes.add(tooth.crown(PlasterCast::plaster));
            }
        }
        for (Mesh gum : new Gum(jaw).meshes()) {
            meshes.add(plain(gum));
        }
        meshes.add(base(jaw));
        return meshes;
    }

    private static Mesh plain(Mesh mesh) {
        return mesh.of(PlasterCast::plaster);
    }

    /** The block: seven-sided for the upper jaw, rounded in front for the lower. */
    private static Mesh base(Jaw jaw) {
        double size = jaw.size();
        Vector3 middle = new Vector3(0, 26, 0).times(size);
        double near = jaw.neckHeight(0) - jaw.rise() * 10 * size;
        double far = near - jaw.rise() * 15 * size;
        return Mesh.tube(240, 40, PlasterCast::plaster, (u, v, corner) -> {
            double turn = 2 * Math.PI * u;
            double shrink = v < 0.2 ? v / 0.2 : v > 0.8 ? (1 - v) / 0.2 : 1;
            double height = v < 0.2 ? near : v > 0.8 ? far : Curve.mix(near, far, (v - 0.2) / 0.6);
            double radius = outline(turn, jaw.upper) * size * Math.max(0.002, shrink);
            corner.place =
                    new Vector3(middle.x() + radius * Math.sin(turn), middle.y() - radius * Math.cos(turn), height);
        });
    }

    /** Distance from the middle to the edge of the base by turn from the front. */
    private static double outline(double turn, boolean upper) {
        double[][] sides = upper
                ? new double[][] {{25, 39}, {-25, 39}, {76, 42}, {-76, 42}, {130, 47}, {-130, 47}, {180, 44}}
                : new double[][] {{76, 40}, {-76, 40}, {130, 46}, {-130, 46}, {180, 44}};
        double reach = upper ? 100 : 39;
        for (double[] side : sides) {
            double facing = Math.cos(turn - Math.toRadians(side[0]));
            if (facing > 0.05) {
                reach = Math.min(reach, side[1] / facing);
            }
        }
        return reach;
    }

    private static void plaster(Fragment spot) {
        spot.paint(PLASTER);
        spot.dim(1 + 0.05 * Noise.layered(spot.x * 0.6, spot.y * 0.6, spot.z * 0.6));
        spot.roughen(0.5, 0.05);
        spot.gloss(0.03, 10);
    }
}
