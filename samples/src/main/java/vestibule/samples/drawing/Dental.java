package vestibule.samples.drawing;

/** What teeth and what is put on them are made of. */
final class Dental {
    private static final Tint NECK = Tint.of(0xc9a878);
    private static final Tint EDGE = Tint.of(0xb9c2cc);
    private static final Tint GOLD = Tint.of(0xe0a62a);
    private static final Tint AMALGAM = Tint.of(0x565b63);
    private static final Tint FISSURE = Tint.of(0x7a5836);
    private static final Tint DENTINE = Tint.of(0xdcc08e);
    private static final Tint TITANIUM = Tint.of(0x9aa0a8);
    private static final Tint JEWEL = Tint.of(0x0a9a4a);

    private Dental() {}

    static Material of(PlacedTooth tooth, Likeness likeness) {
        return switch (tooth.state()) {
            case GOLD_CROWN -> gold(tooth.shape());
            case AMALGAM -> filled(enamel(tooth.shape(), likeness));
            case PREPARED ->
                spot -> {
                    spot.paint(DENTINE);
                    spot.roughen(0.35, 0.05);
                    spot.gloss(0.18, 25);
                };
            default -> enamel(tooth.shape(), likeness);
        };
    }

    private static Material enamel(ToothShape shape, Likeness likeness) {
        Tint body = Tint.of(likeness.enamel());
        boolean sharp = shape.kind() == ToothShape.Kind.INCISOR || shape.kind() == ToothShape.Kind.CANINE;
        return spot -> {
            spot.paint(body);
            spot.mix(NECK, 0.55 * Curve.step(0.45, -0.05, spot.c));
            if (sharp) {
                spot.mix(EDGE, (shape.kind() == ToothShape.Kind.INCISOR ? 0.45 : 0.15) * Curve.step(0.72, 1.0, spot.c));
            }
            spot.mix(NECK, 0.35 * Curve.step(0.75, 1.02, Math.abs(spot.a)));
            spot.dim(1 + 0.045 * Noise.layered(spot.x * 0.8, spot.y * 0.8, spot.z * 0.8));
            if (!sharp) {
                spot.mix(FISSURE, 0.75 * fissure(shape.kind(), spot));
            }
            spot.roughen(2.2, 0.05);
            spot.gloss(0.42, 90);
        };
    }

    private static double fissure(ToothShape.Kind kind, Fragment spot) {
        double inside = Curve.step(0.80, 0.95, spot.c)
                * Curve.step(0.86, 0.6, Math.abs(spot.a))
                * Curve.step(0.75, 0.45, Math.abs(spot.b));
        double wave = 0.06 * Math.sin(5 * spot.a) + 0.05 * Noise.at(spot.x, spot.y, 3);
        double long1 = Curve.bell(spot.b - wave, 0.055);
        double across = kind == ToothShape.Kind.MOLAR ? Curve.bell(spot.a + 0.5 * wave, 0.05) : 0;
        return inside * Math.max(long1, across);
    }

    private static Material gold(ToothShape shape) {
        return spot -> {
            spot.paint(GOLD);
            spot.dim(1 - 0.45 * fissure(shape.kind(), spot));
            spot.roughen(3.0, 0.06);
            spot.gloss(0.55, 45);
        };
    }

    private static Material filled(Material enamel) {
        return spot -> {
            double edge = 0.08 * Noise.at(spot.x * 0.9, spot.y * 0.9, spot.z * 0.9);
            boolean top = spot.c > 0.84
                    && ((Math.abs(spot.b) < 0.34 + edge && Math.abs(spot.a) < 0.72)
                            || (Math.abs(spot.a) < 0.24 + edge && Math.abs(spot.b) < 0.62));
            boolean side = spot.b > 0.5 && Math.hypot(spot.a / 0.42, (spot.c - 0.58) / 0.26) < 1 + edge;
            if (top || side) {
                spot.paint(AMALGAM);
                spot.dim(1 + 0.15 * Noise.layered(spot.x * 3, spot.y * 3, spot.z * 3));
                spot.roughen(0.5, 0.06);
                spot.gloss(0.20, 25);
            } else {
                enamel.paint(spot);
            }
        };
    }

    static Mesh jewel(PlacedTooth tooth) {
        double rise = 0.52;
        Vector3 place = tooth.at(
                0, tooth.shape().front(rise) + 0.1, rise * tooth.shape().height());
        return Mesh.ball(place, new Vector3(1.35, 1.35, 1.35), 20, spot -> {
            spot.paint(JEWEL);
            spot.gloss(0.5, 60);
        });
    }

    /** A healing cap: a metal button standing a little out of the gum. */
    static Mesh healingCap(PlacedTooth tooth) {
        Curve radius = new Curve(0, 1.9, 0.45, 2.5, 0.72, 2.6, 0.85, 2.3, 1, 0.02);
        Curve height = new Curve(0, -3, 0.45, 0.6, 0.72, 2.6, 0.85, 3.0, 1, 3.05);
        return Mesh.tube(48, 40, Dental::cap, (u, v, corner) -> {
            double turn = 2 * Math.PI * u;
            double r = radius.at(v);
            corner.a = r * Math.cos(turn);
            corner.b = r * Math.sin(turn);
            corner.c = v;
            corner.place = tooth.at(corner.a, corner.b, height.at(v));
        });
    }

    private static void cap(Fragment spot) {
        double corners = 0.9 + 0.09 * Math.cos(6 * Math.atan2(spot.b, spot.a));
        spot.paint(TITANIUM);
        spot.dim(spot.c > 0.85 && Math.hypot(spot.a, spot.b) < corners ? 0.12 : 1);
        spot.gloss(0.55, 40);
    }
}
