package vestibule.samples.drawing;

import java.util.ArrayList;
import java.util.List;

/** Lips held open around the teeth by clear plastic retractors, seen by a camera. */
final class LipFrame {
    private static final Tint WET = Tint.of(0x9c3a3c);
    private static final Tint RED = Tint.of(0xc06a66);
    private static final Tint PLASTIC = Tint.of(0xe9f1f4);

    private final Camera camera;
    private final double halfWidth;
    private final double halfHeight;
    private final Tint skin;

    /** @param halfWidth half the opening, millimetres at the target */
    LipFrame(Camera camera, double halfWidth, double halfHeight, Likeness likeness) {
        this.camera = camera;
        this.halfWidth = halfWidth;
        this.halfHeight = halfHeight;
        skin = Tint.of(likeness.skin());
    }

    /** The lips, then the retractors on the wanted sides of the picture. */
    List<Mesh> meshes(boolean retractorLeft, boolean retractorRight) {
        List<Mesh> meshes = new ArrayList<>();
        meshes.add(lips());
        if (retractorLeft) {
            meshes.add(rim(-1));
            meshes.add(handle(-1));
        }
        if (retractorRight) {
            meshes.add(rim(1));
            meshes.add(handle(1));
        }
        return meshes;
    }

    private Vector3 around(double turn, double outward, double behind) {
        double cos = Math.cos(turn);
        double sin = Math.sin(turn);
        double x = (halfWidth + outward) * Math.copySign(Math.pow(Math.abs(cos), 0.72), cos);
        double y = (halfHeight + outward) * Math.copySign(Math.pow(Math.abs(sin), 0.80), sin);
        double bow = 9 * cos * cos;
        return camera.point(x, y, behind + bow);
    }

    private Mesh lips() {
        Curve outward = new Curve(0, -1.0, 0.2, -1.6, 0.4, 0.5, 0.6, 4, 0.75, 8, 1, 60);
        Curve behind = new Curve(0, 24, 0.2, 0, 0.4, -12, 0.6, -16, 0.75, -14.5, 1, -12);
        return Mesh.tube(200, 60, this::lip, (u, v, corner) -> {
            double turn = 2 * Math.PI * u;
            corner.a = v;
            corner.b = turn;
            corner.place = around(turn, outward.at(v), behind.at(v));
        });
    }

    private void lip(Fragment spot) {
        spot.paint(WET);
        spot.mix(RED, Curve.step(0.30, 0.46, spot.a));
        double border = 0.66 + 0.012 * Noise.at(spot.b * 6, 1, 1);
        spot.mix(skin, Curve.step(border - 0.03, border + 0.04, spot.a));
        double crease = Noise.at(spot.b * 46, spot.a * 3, 2);
        double red = Curve.step(0.3, 0.42, spot.a) * Curve.step(0.7, 0.62, spot.a);
        spot.dim(1 + 0.10 * crease * red + 0.05 * Noise.layered(spot.x, spot.y, spot.z));
        spot.roughen(1.5, 0.08);
        spot.gloss(0.30 * Curve.step(0.72, 0.5, spot.a), 40);
    }

    private Mesh rim(int side) {
        double middle = side > 0 ? 0 : Math.PI;
        return Mesh.clearTube(28, 90, LipFrame::plastic, (u, v, corner) -> {
            double turn = middle + (v - 0.5) * 2.0;
            double round = 2 * Math.PI * u;
            corner.a = Math.cos(round);
            corner.b = v;
            corner.place = around(turn, -1.6 + 3.6 * Math.cos(round), -10 + 3.0 * Math.sin(round));
        });
    }

    private Mesh handle(int side) {
        return Mesh.clearTube(28, 30, LipFrame::plastic, (u, v, corner) -> {
            double round = 2 * Math.PI * u;
            double right = side * (halfWidth + 1 + 45 * v);
            double down = (5.2 - 1.5 * v) * Math.sin(round);
            corner.a = Math.sin(round);
            corner.b = v;
            corner.place = camera.point(right, down, -10 - 8 * Math.min(1, 4 * v) + 1.6 * Math.cos(round));
        });
    }

    private static void plastic(Fragment spot) {
        spot.paint(PLASTIC);
        spot.opacity = 0.16 + 0.16 * Math.abs(spot.a);
        spot.gloss(0.9, 120);
    }
}
