package vestibule.samples.drawing;

import java.util.Arrays;

/** Some rows of the picture while it is being taken; bands know nothing of each other. */
final class Band {
    private static final double SIDE = 0.34;
    private static final double ABOVE = 0.30;

    final float[] red;
    final float[] green;
    final float[] blue;
    private final float[] depth;
    private final Scene scene;
    private final int width;
    private final int top;
    private final int rows;
    private final Vector3 back;
    private final Vector3 leftFlash;
    private final Vector3 rightFlash;
    private final Vector3 leftGlint;
    private final Vector3 rightGlint;
    private final Fragment spot = new Fragment();

    Band(Scene scene, Camera camera, int width, int height, int top, int rows) {
        this.scene = scene;
        this.width = width;
        this.top = top;
        this.rows = rows;
        red = new float[width * rows];
        green = new float[width * rows];
        blue = new float[width * rows];
        depth = new float[width * rows];
        Arrays.fill(depth, Float.MAX_VALUE);
        back = camera.look().times(-1);
        leftFlash =
                back.plus(-SIDE, camera.rows()).plus(-ABOVE, camera.columns()).unit();
        rightFlash =
                back.plus(SIDE, camera.rows()).plus(-ABOVE, camera.columns()).unit();
        leftGlint = leftFlash.plus(back).unit();
        rightGlint = rightFlash.plus(back).unit();
        fillBackdrop(height);
    }

    private void fillBackdrop(int height) {
        double reach = Math.hypot(width / 2.0, height / 2.0);
        for (int y = 0; y < rows; y++) {
            for (int x = 0; x < width; x++) {
                double away = Math.hypot(x - width / 2.0, y + top - height / 2.0) / reach;
                Tint tint = scene.backdropCentre().mixed(scene.backdropEdge(), Math.min(1, away));
                set(y * width + x, tint.red(), tint.green(), tint.blue(), 1);
            }
        }
    }

    private void set(int at, double r, double g, double b, double opacity) {
        red[at] += (float) ((r - red[at]) * opacity);
        green[at] += (float) ((g - green[at]) * opacity);
        blue[at] += (float) ((b - blue[at]) * opacity);
    }

    /** The mean light over the looks that make one pixel. */
    double mean(float[] part, int x, int y, int looks) {
        double sum = 0;
        for (int j = 0; j < looks; j++) {
            for (int i = 0; i < looks; i++) {
                sum += part[(y * looks + j) * width + x * looks + i];
            }
        }
        return sum / (looks * looks);
    }

    void draw(Projection projection) {
        int[] triangles = projection.mesh().triangles;
        for (int t = 0; t < triangles.length; t += 3) {
            draw(projection, triangles[t], triangles[t + 1], triangles[t + 2]);
        }
    }

    private void draw(Projection projection, int p, int q, int r) {
        float[] sx = projection.screen().x;
        float[] sy = projection.screen().y;
        int firstY = Math.max(top, (int) Math.ceil(Math.min(sy[p], Math.min(sy[q], sy[r])) - 0.5));
        int lastY = Math.min(top + rows - 1, (int) Math.floor(Math.max(sy[p], Math.max(sy[q], sy[r])) - 0.5));
        if (firstY > lastY) {
            return;
        }
        int firstX = Math.max(0, (int) Math.ceil(Math.min(sx[p], Math.min(sx[q], sx[r])) - 0.5));
        int lastX = Math.min(width - 1, (int) Math.floor(Math.max(sx[p], Math.max(sx[q], sx[r])) - 0.5));
        double area = ((double) sx[q] - sx[p]) * ((double) sy[r] - sy[p])
                - ((double) sx[r] - sx[p]) * ((double) sy[q] - sy[p]);
        if (firstX > lastX || Math.abs(area) < 1e-9) {
            return;
        }
        for (int y = firstY; y <= lastY; y++) {
            for (int x = firstX; x <= lastX; x++) {
                double cx = x + 0.5;
                double cy = y + 0.5;
                double wq = ((cx - sx[p]) * ((double) sy[r] - sy[p]) - ((double) sx[r] - sx[p]) * (cy - sy[p])) / area;
                double wr = (((double) sx[q] - sx[p]) * (cy - sy[p]) - (cx - sx[p]) * ((double) sy[q] - sy[p])) / area;
                double wp = 1 - wq - wr;
                if (wp >= -1e-9 && wq >= -1e-9 && wr >= -1e-9) {
                    cover(projection, (y - top) * width + x, p, q, r, wp, wq, wr);
                }
            }
        }
    }

    private void cover(Projection projection, int at, int p, int q, int r, double wp, double wq, double wr) {
        float[] d = projection.screen().depth;
        double z = wp * d[p] + wq * d[q] + wr * d[r];
        if (z >= depth[at]) {
            return;
        }
        Mesh mesh = projection.mesh();
        spot.reset();
        spot.x = blend(mesh.place, 0, p, q, r, wp, wq, wr);
        spot.y = blend(mesh.place, 1, p, q, r, wp, wq, wr);
        spot.z = blend(mesh.place, 2, p, q, r, wp, wq, wr);
        spot.nx = blend(mesh.normal, 0, p, q, r, wp, wq, wr);
        spot.ny = blend(mesh.normal, 1, p, q, r, wp, wq, wr);
        spot.nz = blend(mesh.normal, 2, p, q, r, wp, wq, wr);
        spot.a = blend(mesh.free, 0, p, q, r, wp, wq, wr);
        spot.b = blend(mesh.free, 1, p, q, r, wp, wq, wr);
        spot.c = blend(mesh.free, 2, p, q, r, wp, wq, wr);
        mesh.material.paint(spot);
        if (spot.opacity <= 0) {
            return;
        }
        light(at, z);
        if (!mesh.clear) {
            depth[at] = (float) z;
        }
    }

    private static double blend(float[] from, int part, int p, int q, int r, double wp, double wq, double wr) {
        return wp * from[3 * p + part] + wq * from[3 * q + part] + wr * from[3 * r + part];
    }

    private void light(int at, double z) {
        double length = Math.sqrt(spot.nx * spot.nx + spot.ny * spot.ny + spot.nz * spot.nz) + 1e-12;
        double facing = spot.nx * back.x() + spot.ny * back.y() + spot.nz * back.z();
        double turn = (facing < 0 ? -1 : 1) / length;
        double nx = spot.nx * turn;
        double ny = spot.ny * turn;
        double nz = spot.nz * turn;
        double diffuse = 0.5 * (reach(nx, ny, nz, leftFlash) + reach(nx, ny, nz, rightFlash));
        double flash = scene.flash(z);
        double glint = spot.shine <= 0
                ? 0
                : spot.shine
                        * flash
                        * (Math.pow(reach(nx, ny, nz, leftGlint), spot.sharpness)
                                + Math.pow(reach(nx, ny, nz, rightGlint), spot.sharpness));
        double lit = flash * (0.16 + 0.94 * diffuse);
        set(at, spot.red * lit + glint, spot.green * lit + glint, spot.blue * lit + glint, spot.opacity);
    }

    private static double reach(double nx, double ny, double nz, Vector3 light) {
        return Math.max(0, nx * light.x() + ny * light.y() + nz * light.z());
    }
}
