package vestibule.samples.drawing;

import java.util.ArrayList;
import java.util.List;

/**
 * The head of an invented person. The edges of the front teeth are at height 0; the chin is below, the eyes 66 mm above.
 */
final class Head {
    /** Expression of the mouth. */
    enum Mouth {
        CLOSED,
        APART,
        SMILE
    }

    /** Front line of the face in the middle, without the nose: how far back, by height. */
    private static final Curve PROFILE = new Curve(
            -150, 46, -110, 58, -78, 56, -62, 52, -50, 35, -44, 14, -37, -1, -28, -4, -18, -4.5, -6, -6.5, 8, -6.5, 20,
            -5, 45, -2, 66, 3, 84, -4, 100, -4, 125, 6, 145, 25, 158, 46, 164, 63, 167, 76, 168, 92);

    private static final Curve BACK = new Curve(
            -150, 150, -110, 140, -78, 138, -50, 142, -20, 150, 20, 168, 60, 182, 100, 184, 130, 170, 150, 150, 160,
            131, 165, 113, 167, 103, 168, 93);
    private static final Curve HALF_WIDTH = new Curve(
            -150, 96, -132, 70, -110, 54, -78, 49, -62, 48, -50, 44, -43, 42, -34, 45, -20, 54, 0, 61, 25, 66, 50, 69,
            75, 70, 100, 70, 125, 62, 145, 49, 158, 33, 164, 21, 167, 11, 168, 1);

    private static final Curve NOSE_RIDGE =
            new Curve(18, 0, 23, 4, 27, 15, 32, 20, 38, 19, 50, 13, 62, 7, 74, 2, 84, 0);
    private static final Curve NOSE_WIDTH = new Curve(18, 11, 32, 10, 45, 7.5, 62, 7, 84, 9);

    private final Likeness likeness;
    private final Mouth mouth;
    private final double size;

    Head(Likeness likeness, Mouth mouth) {
        this.likeness = likeness;
        this.mouth = mouth;
        size = likeness.primaryTeeth() ? 0.80 : 1;
    }

    List<Mesh> meshes() {
        List<Mesh> meshes = new ArrayList<>();
        FaceSkin skin = new FaceSkin(likeness, mouth, size);
        meshes.add(Mesh.tube(320, 420, skin, (u, v, corner) -> {
            double h = 168 - 318 * Math.pow(1 - v, 1.25);
            corner.place = surface(-Math.PI / 2 + 2 * Math.PI * u, h).times(size);
        }));
        for (int side = -1; side <= 1; side += 2) {
            meshes.add(eye(side));
            if (!likeness.longHair()) {
                meshes.add(ear(side, skin));
            }
        }
        meshes.addAll(Garment.meshes(likeness, size));
        meshes.add(hair());
        return meshes;
    }

    /** A point of the skin; the turn starts at the left ear and passes the face at a quarter. */
    private Vector3 surface(double turn, double h) {
        double front = PROFILE.at(h);
        double back = BACK.at(h);
        double middle = Curve.mix(front, back, 0.5);
        double cos = Math.cos(turn);
        double sin = Math.sin(turn);
        double x = HALF_WIDTH.at(h) * Math.copySign(Math.pow(Math.abs(sin), 0.86), sin);
        double y = middle - (back - front) / 2 * Math.copySign(Math.pow(Math.abs(cos), 0.86), cos);
        double forward = cos > 0 ? features(Math.abs(x), h) : 0;
        return new Vector3(x, y - forward, h);
    }

    /** How far the features of a face stand out of the plain form at a height and distance from the middle. */
    private double features(double x, double h) {
        double sum = nose(x, h);
        sum -= 9 * bump(x - 31, 15, h - 67, 10);
        sum += 4.5 * bump(x - 30, 20, h - 87, 7);
        sum += 5 * bump(x - 42, 17, h - 42, 17);
        sum -= 3 * bump(x - 36, 14, h - 12, 18);
        sum += lips(x, h);
        if (mouth == Mouth.SMILE) {
            sum -= 2.6 * bump(x, 30, h, 13) + 15 * bump(x - 29, 13, h - 3, 15);
        }
        sum += 4.5 * bump(x, 15, h + 32, 9) - 3.0 * bump(x, 19, h + 17, 6);
        sum += 4 * bump(x - 22, 22, h, 26);
        return sum;
    }

    private static double bump(double x, double width, double h, double height) {
        return Math.exp(-(x * x / (width * width) + h * h / (height * height)));
    }

    private static double nose(double x, double h) {
        double wings = 8.5 * bump(x - 12.5, 5.5, h - 29, 6.5);
        return NOSE_RIDGE.at(h) * Curve.bell(x, NOSE_WIDTH.at(h)) + wings;
    }

    private double lips(double x, double h) {
        double reach = mouth == Mouth.SMILE ? 29 : 25;
        double fade = Curve.step(reach + 3, reach - 12, x);
        double gap = mouth == Mouth.CLOSED ? 0 : mouth == Mouth.APART ? 2 : 7;
        double curl = mouth == Mouth.SMILE ? 5 * x * x / (reach * reach) : 0;
        double middle = FaceSkin.mouthLine(mouth, x);
        double full = mouth == Mouth.SMILE ? 0.45 : 1;
        double upper = 4.6 * full * Curve.bell(h - middle - 4 - gap * 0.7 + 0.2 * curl, 4.0);
        double lower = 4.4 * full * Curve.bell(h - middle + 5 + gap * 0.6, 4.5);
        double seam = mouth == Mouth.CLOSED ? 1.6 * Curve.bell(h - middle, 1.2) : 0;
        return fade * (upper + lower - seam);
    }

    private Mesh eye(int side) {
        Vector3 front = surfaceAt(side * 31, 67);
        Vector3 centre = new Vector3(side * 31, front.y() + 11.2, 67).times(size);
        double r = 13.5 * size;
        Tint iris = Tint.of(likeness.iris());
        return Mesh.ball(centre, new Vector3(r, r, r), 60, spot -> {
            double away = Math.hypot(spot.a, spot.c);
            spot.paint(Tint.of(0xeee6e0));
            if (spot.b < 0) {
                spot.mix(iris, Curve.step(0.50, 0.47, away));
                spot.mix(Tint.of(0x1a1412), 0.6 * Curve.bell(away - 0.48, 0.04));
                spot.mix(Tint.of(0x050404), Curve.step(0.22, 0.19, away));
            }
            spot.gloss(0.8, 250);
        });
    }

    /** The skin in front at a place, found by halving the turn. */
    private Vector3 surfaceAt(double x, double h) {
        double low = -Math.PI / 2;
        double high = Math.PI / 2;
        for (int i = 0; i < 40; i++) {
            double middle = (low + high) / 2;
            if (surface(middle, h).x() < x) {
                low = middle;
            } else {
                high = middle;
            }
        }
        return surface(low, h);
    }

    private Mesh ear(int side, FaceSkin skin) {
        return Mesh.tube(64, 64, skin.ear(), (u, v, corner) -> {
            double turn = 2 * Math.PI * u;
            double rise = Math.PI * (0.002 + 0.996 * v);
            double x = Math.sin(rise) * Math.cos(turn);
            double y = Math.sin(rise) * Math.sin(turn);
            double z = Math.cos(rise);
            double away = Math.hypot(y, z);
            double shell = 3.0 * Curve.bell(away - 0.86, 0.16)
                    - 3.5 * Math.exp(-((y + 0.05) * (y + 0.05) + (z + 0.1) * (z + 0.1)) / 0.12);
            double out = 66 + 3.2 * x + (x > 0 ? shell : 0) + 7 * (y + 0.4) * 0.8;
            corner.a = away;
            corner.place = new Vector3(side * out, 90 + 16 * y + 4 * z, 53 + (z > 0 ? 33 : 31) * z).times(size);
        });
    }

    private Mesh hair() {
        boolean longHair = likeness.longHair();
        double lowest = longHair ? -70 : -8;
        return Mesh.tube(360, 300, new Hair(likeness), (u, v, corner) -> {
            double turn = -Math.PI / 2 + 2 * Math.PI * u;
            double h = 168 - (168 - lowest) * Math.pow(1 - v, 1.6);
            Vector3 skull = surface(turn, Math.max(h, longHair ? 40 : -30));
            double strand = 1.5 * Noise.at(turn * 40, h * 0.02, 1) + 2.0 * Noise.at(turn * 9, h * 0.02, 8);
            double thick = (longHair ? 8.5 : 6.5) + strand;
            Vector3 outward = new Vector3(skull.x(), skull.y() - 92, Math.max(0, 1.6 * (h - 60))).unit();
            double spread = longHair ? 10 * Curve.step(60, -60, h) : 0;
            corner.a = turn;
            corner.b = h;
            corner.c = skull.y();
            Vector3 place = skull.plus(thick + spread, outward);
            corner.place = new Vector3(
                            place.x(),
                            place.y() + (longHair ? 6 * Curve.step(40, -60, h) : 0),
                            place.z() + Math.min(0, h - (longHair ? 40 : -30)))
                    .times(size);
        });
    }
}
