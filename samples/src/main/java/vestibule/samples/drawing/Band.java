package vestibule.samples.drawing;

import java.util.Arrays;
import java.util.List;

/**
 * Some rows of the picture while it is being taken; bands know nothing of each other.
 *
 * <p>First every look finds the surface nearest to it, then each surface in a pixel is shaded once for all looks that
 * found it, then what is clear is laid over.
 */
final class Band {
    private static final int NOTHING = -1;

    private final float[] red;
    private final float[] green;
    private final float[] blue;
    private final float[] depth;
    private final int[] owner;
    private final int[] triangle;
    private final List<Projection> solid;
    private final Scene scene;
    private final Lamps lamps;
    private final int width;
    private final int height;
    private final int top;
    private final int rows;
    private final int looks;
    private final Fragment spot = new Fragment();

    /**
     * Rows of looks.
     *
     * @param width looks in a row
     * @param top first row of looks
     * @param looks how many looks across and down make a pixel
     */
    Band(Scene scene, Lamps lamps, List<Projection> solid, int width, int height, int top, int rows, int looks) {
        this.scene = scene;
        this.lamps = lamps;
        this.solid = solid;
        this.width = width;
        this.height = height;
        this.top = top;
        this.rows = rows;
        this.looks = looks;
        int count = width * rows;
        red = new float[count];
        green = new float[count];
        blue = new float[count];
        depth = new float[count];
        owner = new int[count];
        triangle = new int[count];
        Arrays.fill(depth, Float.MAX_VALUE);
        Arrays.fill(owner, NOTHING);
    }

    void take(List<Projection> clear, int number) {
        for (int i = 0; i < solid.size(); i++) {
            for (int t : solid.get(i).inBand(number)) {
                draw(solid.get(i), i, t);
            }
        }
        shade();
        for (Projection projection : clear) {
            for (int t : projection.inBand(number)) {
                draw(projection, NOTHING, t);
            }
        }
    }

    /** The mean light over the looks that make one pixel, of red (0), green (1) or blue (2). */
    double mean(int part, int x, int y) {
        float[] from = part == 0 ? red : part == 1 ? green : blue;
        double sum = 0;
        for (int j = 0; j < looks; j++) {
            for (int i = 0; i < looks; i++) {
                sum += from[(y * looks + j) * width + x * looks + i];
            }
        }
        return sum / (looks * looks);
    }

    private void draw(Projection projection, int index, int t) {
        Projection.Facet facet = projection.facet(t);
        int firstY = Math.max(top, (int) Math.ceil(facet.least(facet.y0(), facet.y1(), facet.y2()) - 0.5));
        int lastY = Math.min(top + rows - 1, (int) Math.floor(facet.most(facet.y0(), facet.y1(), facet.y2()) - 0.5));
        int firstX = Math.max(0, (int) Math.ceil(facet.least(facet.x0(), facet.x1(), facet.x2()) - 0.5));
        int lastX = Math.min(width - 1, (int) Math.floor(facet.most(facet.x0(), facet.x1(), facet.x2()) - 0.5));
        if (firstY > lastY || firstX > lastX || Math.abs(facet.area()) < 1e-9) {
            return;
        }
        for (int y = firstY; y <= lastY; y++) {
            for (int x = firstX; x <= lastX; x++) {
                double second = facet.second(x + 0.5, y + 0.5);
                double third = facet.third(x + 0.5, y + 0.5);
                double first = 1 - second - third;
                if (first >= -1e-9 && second >= -1e-9 && third >= -1e-9) {
                    cover(projection, index, t, (y - top) * width + x, first, second, third);
                }
            }
        }
    }

    private void cover(Projection projection, int index, int t, int at, double first, double second, double third) {
        double z = projection.depth(t, first, second, third);
        if (z >= depth[at]) {
            return;
        }
        if (index == NOTHING) {
            projection.visit(spot, t, first, second, third, lamps);
            lay(at, z);
            return;
        }
        if (projection.mesh().cut) {
            projection.visit(spot, t, first, second, third, lamps);
            if (spot.opacity <= 0) {
                return;
            }
        }
        depth[at] = (float) z;
        owner[at] = index;
        triangle[at] = t;
    }

    private void shade() {
        for (int y = 0; y < rows; y += looks) {
            for (int x = 0; x < width; x += looks) {
                for (int k = 0; k < looks * looks; k++) {
                    int at = look(x, y, k);
                    if (!borrow(x, y, k, at)) {
                        shade(at);
                    }
                }
            }
        }
    }

    private int look(int x, int y, int k) {
        return (y + k / looks) * width + x + k % looks;
    }

    /** Takes the light of an earlier look of the same pixel at the same surface. */
    private boolean borrow(int x, int y, int k, int at) {
        for (int earlier = 0; earlier < k; earlier++) {
            int from = look(x, y, earlier);
            if (owner[from] == owner[at]) {
                red[at] = red[from];
                green[at] = green[from];
                blue[at] = blue[from];
                return true;
            }
        }
        return false;
    }

    private void shade(int at) {
        double x = at % width + 0.5;
        double y = (double) at / width + top;
        if (owner[at] == NOTHING) {
            double away = Math.hypot(x - width / 2.0, y - height / 2.0) / Math.hypot(width / 2.0, height / 2.0);
            Tint tint = scene.backdropCentre().mixed(scene.backdropEdge(), Math.min(1, away));
            red[at] = (float) tint.red();
            green[at] = (float) tint.green();
            blue[at] = (float) tint.blue();
            return;
        }
        Projection projection = solid.get(owner[at]);
        Projection.Facet facet = projection.facet(triangle[at]);
        double row = Math.floor(y) + 0.5;
        double second = facet.second(x, row);
        double third = facet.third(x, row);
        projection.visit(spot, triangle[at], 1 - second - third, second, third, lamps);
        lay(at, depth[at]);
    }

    /** Lights the spot and lays it over what is there. */
    private void lay(int at, double z) {
        lamps.light(spot, scene.flash(z));
        red[at] += (float) ((spot.red - red[at]) * spot.opacity);
        green[at] += (float) ((spot.green - green[at]) * spot.opacity);
        blue[at] += (float) ((spot.blue - blue[at]) * spot.opacity);
    }
}
