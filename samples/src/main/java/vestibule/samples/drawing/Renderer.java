package vestibule.samples.drawing;

import java.awt.image.BufferedImage;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;

/** Takes the picture: the nearest surface at each point, lit by a twin flash beside the lens. */
final class Renderer {
    private static final int BAND = 32;
    /** Below this many pixels each is the mean of four looks; above, one look is fine enough. */
    private static final int FINE_UP_TO = 3_000_000;

    private static final int[] CODED = codedLight();

    private final Scene scene;
    private final Camera camera;
    private final int width;
    private final int height;
    private final int looks;

    private Renderer(Scene scene, Camera camera, int width, int height) {
        this.scene = scene;
        this.camera = camera;
        this.width = width;
        this.height = height;
        this.looks = (long) width * height <= FINE_UP_TO ? 2 : 1;
    }

    /** The picture in 8 bit RGB; the same every time. */
    static BufferedImage render(Scene scene, Camera camera, int width, int height) {
        return new Renderer(scene, camera, width, height).render();
    }

    private BufferedImage render() {
        List<Projection> solid = project(scene.solid());
        List<Projection> clear = project(scene.clear());
        BufferedImage image = new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
        int bands = (height + BAND - 1) / BAND;
        IntStream.range(0, bands).parallel().forEach(i -> {
            int top = i * BAND;
            Band band = new Band(scene, camera, width * looks, height * looks, top * looks, BAND * looks);
            solid.forEach(band::draw);
            clear.forEach(band::draw);
            develop(band, image, top);
        });
        return image;
    }

    private List<Projection> project(List<Mesh> meshes) {
        List<Projection> result = new ArrayList<>();
        double scale = width * looks / camera.width();
        for (Mesh mesh : meshes) {
            result.add(Projection.of(mesh, camera, scale, width * looks / 2.0, height * looks / 2.0));
        }
        return result;
    }

    private void develop(Band band, BufferedImage image, int top) {
        int rows = Math.min(BAND, height - top);
        int[] line = new int[width];
        for (int y = 0; y < rows; y++) {
            for (int x = 0; x < width; x++) {
                double grain = 1.6 * Noise.grain(x, y + top, 5);
                line[x] = (code(band.mean(band.red, x, y, looks), grain) << 16)
                        | (code(band.mean(band.green, x, y, looks), grain) << 8)
                        | code(band.mean(band.blue, x, y, looks), grain);
            }
            image.setRGB(0, top + y, width, 1, line, 0, width);
        }
    }

    private static int code(double light, double grain) {
        double film = light / (1 + 0.16 * light) * 1.16;
        int coded = CODED[(int) Math.max(0, Math.min(4095, film * 4095))];
        return (int) Math.max(0, Math.min(255, coded + grain));
    }

    private static int[] codedLight() {
        int[] table = new int[4096];
        for (int i = 0; i < table.length; i++) {
            double v = i / 4095.0;
            double coded = v <= 0.0031308 ? 12.92 * v : 1.055 * Math.pow(v, 1 / 2.4) - 0.055;
            table[i] = (int) Math.round(255 * coded);
        }
        return table;
    }
}
