package vestibule.conformance.bench;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Random;

/** Photographs to measure with: soft shapes under grain, coded by libjpeg-turbo's cjpeg to about 4.4 MB for 12 megapixels. */
final class BenchPhotographs {
    private static final long SEED = 20261125;

    /** Bytes of a 12-megapixel photograph that the figures are about, 4.4 MB, within a tenth. */
    private static final long BYTES_FOR_12_MEGAPIXELS = 4_400_000;

    private final Path folder;

    BenchPhotographs(Path folder) {
        this.folder = folder;
    }

    /** A photograph of this size and sampling ({@code 2x1} for 4:2:2), with the quality that comes nearest to the length. */
    Path make(String name, int width, int height, String sampling) throws IOException, InterruptedException {
        Path pixels = folder.resolve("pixels-" + width + "x" + height + ".ppm");
        if (!Files.exists(pixels)) {
            draw(pixels, width, height);
        }
        long wanted = BYTES_FOR_12_MEGAPIXELS * width * height / 12_000_000;
        Path file = folder.resolve(name + ".jpg");
        int low = 40;
        int high = 98;
        while (low < high) {
            int quality = (low + high) / 2;
            Peer.run(List.of(
                    "cjpeg",
                    "-quality",
                    Integer.toString(quality),
                    "-sample",
                    sampling,
                    "-outfile",
                    file.toString(),
                    pixels.toString()));
            if (Math.abs(Files.size(file) - wanted) < wanted / 20) {
                break;
            }
            if (Files.size(file) < wanted) {
                low = quality + 1;
            } else {
                high = quality;
            }
        }
        return file;
    }

    /** Shapes of many sizes with soft edges, and grain: what a lens and a sensor make of a mouth, as far as coding goes. */
    private static void draw(Path target, int width, int height) throws IOException {
        Random random = new Random(SEED);
        int waves = 24;
        double[][] wave = new double[waves][];
        for (int number = 0; number < waves; number++) {
            double length = 2000 / Math.pow(1.35, number);
            double angle = random.nextDouble() * 2 * Math.PI;
            wave[number] = new double[] {
                Math.cos(angle) * 2 * Math.PI / length,
                Math.sin(angle) * 2 * Math.PI / length,
                random.nextDouble() * 6,
                Math.min(30, length / 8)
            };
        }
        byte[] row = new byte[3 * width];
        float[] across = new float[width];
        try (OutputStream out = new BufferedOutputStream(Files.newOutputStream(target), 1 << 20)) {
            out.write(("P6\n" + width + " " + height + "\n255\n").getBytes(StandardCharsets.US_ASCII));
            for (int y = 0; y < height; y++) {
                fillWaves(across, wave, y);
                for (int x = 0; x < width; x++) {
                    double light = 110 + across[x] + random.nextGaussian() * 5;
                    row[3 * x] = sample(light + 40 + random.nextGaussian() * 4);
                    row[3 * x + 1] = sample(light);
                    row[3 * x + 2] = sample(light - 10 + random.nextGaussian() * 4);
                }
                out.write(row);
            }
        }
    }

    private static void fillWaves(float[] across, double[][] waves, int y) {
        java.util.Arrays.fill(across, 0);
        for (double[] wave : waves) {
            // One step along a row turns each wave by the same angle
            double stepCosine = Math.cos(wave[0]);
            double stepSine = Math.sin(wave[0]);
            double cosine = Math.cos(wave[1] * y + wave[2]);
            double sine = Math.sin(wave[1] * y + wave[2]);
            for (int x = 0; x < across.length; x++) {
                across[x] += (float) (wave[3] * sine);
                double next = sine * stepCosine + cosine * stepSine;
                cosine = cosine * stepCosine - sine * stepSine;
                sine = next;
            }
        }
    }

    private static byte sample(double value) {
        return (byte) Math.max(0, Math.min(255, (int) value));
    }
}
