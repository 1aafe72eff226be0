package vestibule.samples.drawing;

/** The skin of a face with lips, brows, lashes, and the birthmark on the right cheek. */
final class FaceSkin implements Material {
    private static final Tint LIP = Tint.of(0xb25f5c);
    private static final Tint BIRTHMARK = Tint.of(0x3c1a0d);
    private static final Tint INSIDE = Tint.of(0x3a1010);
    private static final Tint BLUSH = Tint.of(0xd9806a);
    private static final Tint DARK = Tint.of(0x2a1512);

    private final Tint skin;
    private final Tint brow;
    private final Head.Mouth mouth;
    private final double size;

    FaceSkin(Likeness likeness, Head.Mouth mouth, double size) {
        skin = Tint.of(likeness.skin());
        brow = Tint.of(likeness.hair()).times(0.7);
        this.mouth = mouth;
        this.size = size;
    }

    /** Height of the line between the lips at a distance from the middle. */
    static double mouthLine(Head.Mouth mouth, double x) {
        double f = x / 25;
        return mouth == Head.Mouth.SMILE ? 0.5 + 3.6 * f * f : 1.0 - 0.4 * f * f;
    }

    @Override
    public boolean cuts() {
        return true;
    }

    @Override
    public void paint(Fragment spot) {
        double x = spot.x / size;
        double y = spot.y / size;
        double h = spot.z / size;
        spot.paint(skin);
        spot.dim(1
                + 0.05 * Noise.layered(x * 0.15, y * 0.15, h * 0.15)
                + 0.03 * Noise.layered(x * 1.5, y * 1.5, h * 1.5));
        spot.roughen(1.2, 0.03);
        spot.gloss(0.05, 14);
        if (spot.inner && y < 60) {
            spot.paint(INSIDE);
            spot.gloss(0, 1);
        }
        if (y < 60) {
            cheek(spot, Math.abs(x), h);
            birthmark(spot, x, h);
            nostril(spot, Math.abs(x), h);
            brow(spot, Math.abs(x), h);
            eye(spot, Math.abs(x), h);
            lips(spot, Math.abs(x), h);
        }
    }

    private static void cheek(Fragment spot, double x, double h) {
        double away = ((x - 42) * (x - 42) + (h - 30) * (h - 30)) / 400;
        spot.mix(BLUSH, 0.22 * Math.exp(-away));
    }

    private static void birthmark(Fragment spot, double x, double h) {
        double away = Math.hypot((x + 43) / 7.5, (h - 21) / 6.0) + 0.12 * Noise.at(x * 0.6, h * 0.6, 1);
        double share = Curve.step(1.05, 0.92, away);
        spot.mix(BIRTHMARK, 0.95 * share);
        spot.shine *= 1 - share;
    }

    private static void nostril(Fragment spot, double x, double h) {
        double away = Math.hypot((x - 7.5) / 4.2, (h - 23.5) / 2.2);
        spot.mix(DARK, 0.85 * Curve.step(1.2, 0.7, away));
    }

    private void brow(Fragment spot, double x, double h) {
        double f = (x - 32) / 19;
        double line = 85 + 4.5 * (1 - f * f) - 2 * f;
        double thick = 3.0 * (1 - 0.55 * Math.max(0, f)) * Curve.step(1.05, 0.8, Math.abs(f));
        double hairs = 0.75 + 0.35 * Noise.at(x * 1.6 + h * 0.8, h * 0.5, 2);
        spot.mix(
                brow,
                hairs * Curve.step(1.0, 0.85, Math.abs(f)) * Curve.step(thick + 0.8, thick - 1.2, Math.abs(h - line)));
    }

    private void eye(Fragment spot, double x, double h) {
        double f = (x - 31) / 14.0;
        if (Math.abs(f) > 1.25) {
            return;
        }
        double arc = Math.max(0, 1 - f * f);
        double upper = 66.2 + 5.6 * Math.pow(arc, 0.8) + 0.9 * f;
        double lower = 66.2 - 4.4 * arc + 0.9 * f;
        if (Math.abs(f) < 1 && h < upper && h > lower) {
            spot.opacity = 0;
            return;
        }
        double lash = Math.abs(f) < 1.04 ? Curve.step(1.7, 0.3, h - upper) * (h >= upper - 0.2 ? 1 : 0) : 0;
        spot.mix(DARK, 0.9 * lash);
        double under = Math.abs(f) < 1 ? Curve.step(1.2, 0.1, lower - h) * (h <= lower ? 1 : 0) : 0;
        spot.mix(LIP, 0.5 * under);
        spot.mix(DARK, 0.30 * Curve.bell(h - upper - 4.2, 0.8) * Curve.step(1.15, 0.8, Math.abs(f)));
        spot.mix(DARK, 0.10 * Curve.bell(h - lower + 5, 1.6) * Curve.step(1.1, 0.6, Math.abs(f)));
    }

    private void lips(Fragment spot, double x, double h) {
        double reach = mouth == Head.Mouth.SMILE ? 28 : 24;
        double f = x / reach;
        if (f > 1.1) {
            return;
        }
        double arc = Math.max(0, 1 - f * f);
        double line = mouthLine(mouth, x);
        double open = switch (mouth) {
            case CLOSED -> 0;
            case APART -> 1.6;
            case SMILE -> 8.2;
        };
        double top = line + open * 0.72 * Math.pow(arc, 0.8);
        double bottom = line - open * 0.62 * Math.pow(arc, 0.7);
        if (open > 0 && f < 1 && h < top && h > bottom) {
            spot.opacity = 0;
            return;
        }
        double bow = 1.2 * Curve.bell(x, 3.2);
        double upperEdge = top + (mouth == Head.Mouth.SMILE ? 5.2 : 7.2) * Math.pow(arc, 0.9) - bow;
        double lowerEdge = bottom - (mouth == Head.Mouth.SMILE ? 7.0 : 8.6) * Math.pow(arc, 0.75);
        double red = Curve.step(upperEdge + 0.5, upperEdge - 0.5, h)
                * Curve.step(lowerEdge - 0.5, lowerEdge + 0.5, h)
                * Curve.step(1.02, 0.97, f);
        spot.mix(LIP, 0.85 * red);
        spot.dim(1 + 0.10 * red * Noise.at(x * 1.1, h * 0.15, 3));
        if (red > 0.5) {
            spot.gloss(0.14, 22);
        }
        if (mouth == Head.Mouth.CLOSED) {
            spot.mix(DARK, 0.8 * Curve.bell(h - line, 0.7) * Curve.step(1.05, 0.98, f));
        }
    }

    /** Skin without the marks of the face. */
    Material ear() {
        return spot -> {
            spot.paint(skin);
            spot.mix(BLUSH, 0.18);
            spot.dim(1 - 0.30 * Curve.step(0.6, 0.2, spot.a));
            spot.gloss(0.05, 14);
        };
    }
}
