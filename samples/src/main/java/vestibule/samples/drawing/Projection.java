package vestibule.samples.drawing;

/** A mesh as the camera sees it: for each corner the place in the raster and the depth, and which triangles lie where. */
final class Projection {
    /** A triangle in the raster. */
    record Facet(float x0, float y0, float x1, float y1, float x2, float y2) {
        double area() {
            return ((double) x1 - x0) * ((double) y2 - y0) - ((double) x2 - x0) * ((double) y1 - y0);
        }

        /** The share of the second corner at a point. */
        double second(double x, double y) {
            return ((x - x0) * ((double) y2 - y0) - ((double) x2 - x0) * (y - y0)) / area();
        }

        /** The share of the third corner at a point. */
        double third(double x, double y) {
            return (((double) x1 - x0) * (y - y0) - (x - x0) * ((double) y1 - y0)) / area();
        }

        double least(float p, float q, float r) {
            return Math.min(p, Math.min(q, r));
        }

        double most(float p, float q, float r) {
            return Math.max(p, Math.max(q, r));
        }
    }

    private final Mesh mesh;
    private final float[] x;
    private final float[] y;
    private final float[] depth;
    private final int[][] bands;

    /**
     * Looks at a mesh.
     *
     * @param scale looks for a millimetre at the target
     * @param width looks in a row
     * @param height rows of looks
     * @param bandRows rows of looks in a band
     */
    Projection(Mesh mesh, Camera camera, double scale, int width, int height, int bandRows) {
        this.mesh = mesh;
        int corners = mesh.place.length / 3;
        x = new float[corners];
        y = new float[corners];
        depth = new float[corners];
        for (int i = 0; i < corners; i++) {
            Vector3 seen = camera.see(new Vector3(mesh.place[3 * i], mesh.place[3 * i + 1], mesh.place[3 * i + 2]));
            x[i] = (float) (width / 2.0 + scale * seen.x());
            y[i] = (float) (height / 2.0 + scale * seen.y());
            depth[i] = (float) seen.z();
        }
        bands = sort((height + bandRows - 1) / bandRows, bandRows);
    }

    private int[][] sort(int count, int bandRows) {
        int[] sizes = new int[count];
        visitBands(count, bandRows, (band, t) -> sizes[band]++);
        int[][] result = new int[count][];
        for (int band = 0; band < count; band++) {
            result[band] = new int[sizes[band]];
            sizes[band] = 0;
        }
        visitBands(count, bandRows, (band, t) -> {
            result[band][sizes[band]] = t;
            sizes[band]++;
        });
        return result;
    }

    private interface BandVisitor {
        void visit(int band, int t);
    }

    private void visitBands(int count, int bandRows, BandVisitor visitor) {
        for (int t = 0; t < mesh.triangles.length; t += 3) {
            Facet facet = facet(t);
            double from = facet.least(facet.y0, facet.y1, facet.y2) / bandRows;
            double to = facet.most(facet.y0, facet.y1, facet.y2) / bandRows;
            for (int band = Math.max(0, (int) Math.floor(from));
                    band <= Math.min(count - 1, (int) Math.floor(to));
                    band++) {
                visitor.visit(band, t);
            }
        }
    }

    Mesh mesh() {
        return mesh;
    }

    /** The triangles that reach into a band, by the place of their first corner in the mesh's list. */
    int[] inBand(int number) {
        return bands[number];
    }

    Facet facet(int t) {
        int p = mesh.triangles[t];
        int q = mesh.triangles[t + 1];
        int r = mesh.triangles[t + 2];
        return new Facet(x[p], y[p], x[q], y[q], x[r], y[r]);
    }

    double depth(int t, double first, double second, double third) {
        return first * depth[mesh.triangles[t]]
                + second * depth[mesh.triangles[t + 1]]
                + third * depth[mesh.triangles[t + 2]];
    }

    /** Fills in a spot within a triangle and lets the material paint it. */
    void visit(Fragment spot, int t, double first, double second, double third, Lamps lamps) {
        spot.reset();
        spot.x = blend(mesh.place, 0, t, first, second, third);
        spot.y = blend(mesh.place, 1, t, first, second, third);
        spot.z = blend(mesh.place, 2, t, first, second, third);
        spot.nx = blend(mesh.normal, 0, t, first, second, third);
        spot.ny = blend(mesh.normal, 1, t, first, second, third);
        spot.nz = blend(mesh.normal, 2, t, first, second, third);
        spot.a = blend(mesh.free, 0, t, first, second, third);
        spot.b = blend(mesh.free, 1, t, first, second, third);
        spot.c = blend(mesh.free, 2, t, first, second, third);
        spot.inner = lamps.facing(spot) < 0;
        mesh.material.paint(spot);
    }

    private double blend(float[] from, int part, int t, double first, double second, double third) {
        return first * from[3 * mesh.triangles[t] + part]
                + second * from[3 * mesh.triangles[t + 1] + part]
                + third * from[3 * mesh.triangles[t + 2] + part];
    }
}
