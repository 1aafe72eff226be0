package vestibule.samples.drawing;

import java.awt.image.BufferedImage;
import java.awt.image.DataBufferInt;
import java.util.List;
import java.util.stream.IntStream;

/** Takes the picture: the nearest surface at each point, lit by the flash. */
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
        Lamps lamps = new Lamps(camera);
        BufferedImage image = new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
        int[] pixels = ((DataBufferInt) image.getRaster().getDataBuffer()).getData();
        IntStream.range(0, (height + BAND - 1) / BAND).parallel().forEach(number -> {
            int top = number * BAND;
            Band band = new Band(scene, lamps, solid, width * looks, height * looks, top * looks, BAND * looks, looks);
            band.take(clear, number);
            develop(band, pixels, top);
        });
        return image;
    }

    private List<Projection> project(List<Mesh> meshes) {
        double scale = width * looks / camera.width();
        return meshes.parallelStream()
                .map(mesh -> new Projection(mesh, camera, scale, width * looks, height * looks, BAND * looks))
                .toList();
    }

    private void develop(Band band, int[] pixels, int top) {
        int rows = Math.min(BAND, height - top);
        for (int y = 0; y < rows; y++) {
            for (int x = 0; x < width; x++) {
                double grain = 1.6 * Noise.grain(x, y + top, 5);
                pixels[(y + top) * width + x] = (code(band.mean(0, x, y), grain) << 16)
                        | (code(band.mean(1, x, y), grain) << 8)
                        | code(band.mean(2, x, y), grain);
            }
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
