package vestibule.samples.drawing;

/** A mesh as the camera sees it: for each corner the place in the raster and the depth. */
record Projection(Mesh mesh, Screen screen) {
    /** Raster places and depths, by corner. */
    static final class Screen {
        final float[] x;
        final float[] y;
        final float[] depth;

        private Screen(int corners) {
            x = new float[corners];
            y = new float[corners];
            depth = new float[corners];
        }
    }

    static Projection of(Mesh mesh, Camera camera, double scale, double middleX, double middleY) {
        int corners = mesh.place.length / 3;
        Screen screen = new Screen(corners);
        for (int i = 0; i < corners; i++) {
            Vector3 seen = camera.see(new Vector3(mesh.place[3 * i], mesh.place[3 * i + 1], mesh.place[3 * i + 2]));
            screen.x[i] = (float) (middleX + scale * seen.x());
            screen.y[i] = (float) (middleY + scale * seen.y());
            screen.depth[i] = (float) seen.z();
        }
        return new Projection(mesh, screen);
    }
}
