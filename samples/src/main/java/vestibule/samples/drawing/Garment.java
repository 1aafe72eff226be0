package vestibule.samples.drawing;

import java.util.List;

/** Shoulders and what is worn on them. */
final class Garment {
    private Garment() {}

    static List<Mesh> meshes(Likeness likeness, double size) {
        Tint cloth = Tint.of(likeness.clothes());
        Mesh shoulders = Mesh.tube(
                160,
                90,
                spot -> {
                    spot.paint(cloth);
                    spot.dim(1 + 0.12 * Noise.layered(spot.x * 0.03, spot.y * 0.03, spot.z * 0.03));
                    spot.dim(0.92 + 0.08 * Math.sin(spot.x * 1.9) * Math.sin(spot.z * 1.9));
                    spot.roughen(14, 0.16);
                },
                (u, v, corner) -> {
                    double turn = 2 * Math.PI * u;
                    Curve wide = new Curve(0, 60, 0.06, 64, 0.2, 110, 0.4, 175, 0.6, 205, 1, 215);
                    Curve deep = new Curve(0, 54, 0.06, 56, 0.4, 75, 1, 100);
                    double h = -100 - 190 * Math.pow(v, 1.4);
                    corner.place = new Vector3(
                                    wide.at(v) * Math.cos(turn),
                                    102 + deep.at(v) * Math.sin(turn),
                                    h - 6 * Math.sin(turn) * (1 - v))
                            .times(size);
                });
        return List.of(shoulders);
    }
}
