package vestibule.samples.drawing;

/** A surface of triangles with smooth normals and three free numbers a corner. */
final class Mesh {
    /** One corner as a surface function fills it in. */
    static final class Corner {
        Vector3 place = Vector3.ZERO;
        double a;
        double b;
        double c;
    }

    /** A surface over u and v, both 0 to 1. */
    @FunctionalInterface
    interface Surface {
        void at(double u, double v, Corner corner);
    }

    final float[] place;
    final float[] normal;
    final float[] free;
    final int[] triangles;
    final Material material;
    final boolean clear;
    final boolean cut;

    private Mesh(int corners, int[] triangles, Material material, boolean clear) {
        place = new float[3 * corners];
        normal = new float[3 * corners];
        free = new float[3 * corners];
        this.triangles = triangles;
        this.material = material;
        this.clear = clear;
        cut = material.cuts();
    }

    private Mesh(Mesh form, Material material) {
        place = form.place;
        normal = form.normal;
        free = form.free;
        triangles = form.triangles;
        this.material = material;
        clear = form.clear;
        cut = material.cuts();
    }

    /** The same form made of something else. */
    Mesh of(Material other) {
        return new Mesh(this, other);
    }

    /** A sheet with open edges. */
    static Mesh sheet(int across, int along, Material material, Surface surface) {
        return grid(across, along, false, false, material, surface);
    }

    /** A tube or vessel: the edge u = 1 is the edge u = 0. */
    static Mesh tube(int around, int along, Material material, Surface surface) {
        return grid(around, along, true, false, material, surface);
    }

    /** A tube of something one can look through. */
    static Mesh clearTube(int around, int along, Material material, Surface surface) {
        return grid(around, along, true, true, material, surface);
    }

    /** A ball-like body around a centre. */
    static Mesh ball(Vector3 centre, Vector3 radii, int fineness, Material material) {
        return tube(fineness, fineness, material, (u, v, corner) -> {
            double turn = 2 * Math.PI * u;
            double rise = Math.PI * (v * 0.996 + 0.002);
            double ring = Math.sin(rise);
            corner.a = ring * Math.cos(turn);
            corner.b = ring * Math.sin(turn);
            corner.c = Math.cos(rise);
            corner.place = new Vector3(
                    centre.x() + radii.x() * corner.a,
                    centre.y() + radii.y() * corner.b,
                    centre.z() + radii.z() * corner.c);
        });
    }

    private static Mesh grid(int across, int along, boolean closed, boolean clear, Material material, Surface surface) {
        int columns = closed ? across : across + 1;
        int[] triangles = new int[6 * across * along];
        int t = 0;
        for (int j = 0; j < along; j++) {
            for (int i = 0; i < across; i++) {
                int next = (i + 1) % columns;
                int p = j * columns + i;
                int q = j * columns + next;
                t = add(triangles, t, p, q, p + columns);
                t = add(triangles, t, q, q + columns, p + columns);
            }
        }
        Mesh mesh = new Mesh(columns * (along + 1), triangles, material, clear);
        Corner corner = new Corner();
        for (int j = 0; j <= along; j++) {
            for (int i = 0; i < columns; i++) {
                surface.at((double) i / across, (double) j / along, corner);
                mesh.put(j * columns + i, corner);
            }
        }
        mesh.smooth();
        return mesh;
    }

    private static int add(int[] triangles, int at, int p, int q, int r) {
        triangles[at] = p;
        triangles[at + 1] = q;
        triangles[at + 2] = r;
        return at + 3;
    }

    private void put(int index, Corner corner) {
        int i = 3 * index;
        place[i] = (float) corner.place.x();
        place[i + 1] = (float) corner.place.y();
        place[i + 2] = (float) corner.place.z();
        free[i] = (float) corner.a;
        free[i + 1] = (float) corner.b;
        free[i + 2] = (float) corner.c;
    }

    private void smooth() {
        for (int t = 0; t < triangles.length; t += 3) {
            Vector3 p = at(triangles[t]);
            Vector3 n =
                    at(triangles[t + 1]).plus(-1, p).cross(at(triangles[t + 2]).plus(-1, p));
            for (int k = 0; k < 3; k++) {
                int i = 3 * triangles[t + k];
                normal[i] += (float) n.x();
                normal[i + 1] += (float) n.y();
                normal[i + 2] += (float) n.z();
            }
        }
        for (int i = 0; i < normal.length; i += 3) {
            Vector3 n = new Vector3(normal[i], normal[i + 1], normal[i + 2]).unit();
            normal[i] = (float) n.x();
            normal[i + 1] = (float) n.y();
            normal[i + 2] = (float) n.z();
        }
    }

    private Vector3 at(int index) {
        return new Vector3(place[3 * index], place[3 * index + 1], place[3 * index + 2]);
    }
}
