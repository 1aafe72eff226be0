package vestibule.samples.drawing;

/** Hair, cut away where the face is. Its numbers: turn round the head, height, and how far back the skull is. */
final class Hair implements Material {
    private static final Curve LONG_HAIRLINE =
            new Curve(-70, 66, 20, 62, 60, 58, 85, 54, 104, 42, 118, 24, 126, 4, 134, -30);
    private static final Curve SHORT_HAIRLINE =
            new Curve(-8, 128, 10, 118, 26, 106, 60, 102, 84, 76, 92, 60, 104, 44, 118, 26, 126, 4, 134, -30);

    private final Tint colour;
    private final Curve hairline;

    Hair(Likeness likeness) {
        colour = Tint.of(likeness.hair());
        hairline = likeness.longHair() ? LONG_HAIRLINE : SHORT_HAIRLINE;
    }

    @Override
    public boolean cuts() {
        return true;
    }

    @Override
    public void paint(Fragment spot) {
        double h = spot.b;
        if (spot.c < hairline.at(h) + 2.5 * Noise.at(h * 0.4, spot.a * 25, 6)) {
            spot.opacity = 0;
            return;
        }
        double strand = Noise.at(spot.a * 90, h * 0.03, 2) + 0.6 * Noise.at(spot.a * 240, h * 0.05, 4);
        spot.paint(colour);
        spot.dim(1 + 0.35 * strand);
        spot.nx += 0.25 * strand;
        spot.ny += 0.15 * strand;
        spot.gloss(0.035, 10);
    }
}
