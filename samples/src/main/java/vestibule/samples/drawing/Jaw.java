package vestibule.samples.drawing;

import java.util.ArrayList;
import java.util.List;

/** One row of teeth along the curve of its arch. */
final class Jaw {
    /** Straight steps that follow the arch closely enough. */
    private static final double STEP = 0.05;
    /** On a curve the crowns touch a little inside their widest lines. */
    private static final double SPACING = 0.955;
    /** The arch is the curve y = depth (x / halfWidth)^BEND. */
    private static final double BEND = 2.5;

    final boolean upper;
    private final Likeness likeness;
    private final double halfWidth;
    private final double depth;
    private final double front;
    private final double drop;
    private final List<PlacedTooth> teeth = new ArrayList<>();
    private final double[] archX;
    private final double end;
    private final Curve neckHeight;
    private final Curve crownDepth;
    private final Curve crownHeight;
    private final Curve neckShift;

    /**
     * @param gape how far the lower jaw hangs down, millimetres; 0 is biting together
     */
    Jaw(boolean upper, Likeness likeness, double gape) {
        this.upper = upper;
        this.likeness = likeness;
        double size = likeness.primaryTeeth() ? 0.74 : 1;
        halfWidth = (upper ? 28.5 : 26.5) * size;
        depth = (upper ? 47 : 45) * size;
        front = upper ? 0 : 2.6 * size;
        drop = upper ? 0 : gape;
        archX = walk(halfWidth, depth);
        int places = likeness.primaryTeeth() ? 5 : 7;
        for (int side = -1; side <= 1; side += 2) {
            double along = -0.25;
            for (int place = 1; place <= places; place++) {
                int number = quadrant(side) * 10 + place;
                ToothShape shape = ToothShape.of(number);
                teeth.add(stand(number, shape, side * (along + SPACING * shape.width() / 2)));
                along += SPACING * shape.width();
            }
        }
        teeth.sort((p, q) -> Double.compare(p.along(), q.along()));
        end = teeth.get(teeth.size() - 1).along() + 16;
        neckHeight = overTeeth(t -> t.neck().z());
        crownDepth = overTeeth(t -> t.shape().depth());
        crownHeight = overTeeth(t -> t.shape().height());
        neckShift = overTeeth(t -> -lean(t.number() % 10) * t.shape().height() * 0.6);
    }

    private interface Measure {
        double of(PlacedTooth tooth);
    }

    private Curve overTeeth(Measure measure) {
        double[] points = new double[2 * teeth.size()];
        for (int i = 0; i < teeth.size(); i++) {
            points[2 * i] = teeth.get(i).along();
            points[2 * i + 1] = measure.of(teeth.get(i));
        }
        return new Curve(points);
    }

    private int quadrant(int side) {
        int base = upper ? (side < 0 ? 1 : 2) : (side < 0 ? 4 : 3);
        return likeness.primaryTeeth() ? base + 4 : base;
    }

    private PlacedTooth stand(int number, ToothShape shape, double along) {
        Vector3 place = at(along);
        Vector3 across = at(along + 0.4).plus(-1, at(along - 0.4)).unit();
        Vector3 outward = new Vector3(across.y(), -across.x(), 0);
        ToothState state = likeness.state(number);
        if (state == ToothState.ROTATED) {
            double turn = Math.toRadians(35);
            Vector3 turned = across.times(Math.cos(turn)).plus(Math.sin(turn), outward);
            outward = outward.times(Math.cos(turn)).plus(-Math.sin(turn), across);
            across = turned;
        }
        Vector3 rise = new Vector3(0, 0, upper ? -1 : 1);
        Vector3 lean = rise.plus(lean(number % 10), outward).unit();
        double edge = edge(number % 10);
        Vector3 neck = new Vector3(place.x(), place.y(), edge - lean.z() * shape.height())
                .plus(-lean(number % 10) * shape.height() * 0.6, outward);
        return new PlacedTooth(number, shape, state, along, neck, across, outward, lean);
    }

    private double lean(int place) {
        if (place <= 2) {
            return upper ? 0.20 : 0.12;
        }
        return place == 3 ? 0.10 : upper ? 0.04 : -0.10;
    }

    private double edge(int place) {
        double height = switch (place) {
            case 1 -> upper ? -2.4 : 0.2;
            case 2 -> upper ? -1.9 : 0.3;
            case 3 -> upper ? -2.6 : 1.0;
            case 4, 5 -> upper ? -1.3 : 0.7;
            default -> upper ? -0.4 : 1.3;
        };
        return (likeness.primaryTeeth() ? 0.7 * height : height) - drop;
    }

    /** The point of the arch so many millimetres along it from the midline, negative on the patient's right. */
    Vector3 at(double along) {
        double place = Math.min(Math.abs(along) / STEP, archX.length - 1.001);
        int i = (int) place;
        double f = place - i;
        double x = archX[i] + f * (archX[i + 1] - archX[i]);
        return new Vector3(Math.copySign(x, along), front + depth * Math.pow(x / halfWidth, BEND), 0);
    }

    private static double[] walk(double halfWidth, double depth) {
        double[] x = new double[(int) (90 / STEP)];
        for (int i = 1; i < x.length; i++) {
            double slope = depth * BEND * Math.pow(x[i - 1] / halfWidth, BEND - 1) / halfWidth;
            x[i] = x[i - 1] + STEP / Math.sqrt(1 + slope * slope);
        }
        return x;
    }

    Vector3 outward(double along) {
        Vector3 across = at(along + 0.4).plus(-1, at(along - 0.4)).unit();
        return new Vector3(across.y(), -across.x(), 0);
    }

    List<PlacedTooth> teeth() {
        return teeth;
    }

    /** The tooth whose place is at this point of the arch. */
    PlacedTooth nearest(double along) {
        PlacedTooth best = teeth.get(0);
        double bestAway = Double.MAX_VALUE;
        for (PlacedTooth tooth : teeth) {
            double away = Math.abs(along - tooth.along()) / tooth.shape().width();
            if (away < bestAway) {
                bestAway = away;
                best = tooth;
            }
        }
        return best;
    }

    PlacedTooth tooth(int number) {
        return teeth.stream().filter(t -> t.number() == number).findFirst().orElseThrow();
    }

    /** How far the row of gum reaches on each side of the midline. */
    double end() {
        return end;
    }

    /** How far behind the midline of the front teeth the row of teeth ends. */
    double back() {
        return at(end - 9).y();
    }

    double neckHeight(double along) {
        return neckHeight.at(along);
    }

    double crownDepth(double along) {
        return crownDepth.at(along);
    }

    double crownHeight(double along) {
        return crownHeight.at(along);
    }

    /** How far the necks stand inside the arch because the crowns lean; negative is inwards. */
    double neckShift(double along) {
        return neckShift.at(along);
    }

    /** -1 where crowns point to the feet, 1 where they point to the head. */
    double rise() {
        return upper ? -1 : 1;
    }

    double drop() {
        return drop;
    }

    double size() {
        return likeness.primaryTeeth() ? 0.74 : 1;
    }

    Likeness likeness() {
        return likeness;
    }
}
