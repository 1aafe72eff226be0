package vestibule.dicom.jpeg;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;

/**
 * Pictures of random coefficients, size, sampling and restart interval. They are coded here, by the letter of T.81
 * F.1.2 with the typical tables, and their coefficients are known without decoding.
 */
final class RandomPictures {
    /** One picture: its stream, and for each component the coefficients of its blocks in raster and zigzag order. */
    static final class Picture {
        final Frame frame;
        final byte[] stream;
        final int[][][] blocks;

        Picture(Frame frame, byte[] stream, int[][][] blocks) {
            this.frame = frame;
            this.stream = stream;
            this.blocks = blocks;
        }

        /** Whether these are the coefficients it was made of. */
        boolean isMadeOf(Coefficients coefficients) {
            for (int component = 0; component < blocks.length; component++) {
                int wide = coefficients.blocksWide(component);
                if (wide * coefficients.blocksHigh(component) != blocks[component].length) {
                    return false;
                }
                for (int block = 0; block < blocks[component].length; block++) {
                    for (int index = 0; index < 64; index++) {
                        if (coefficients.value(component, block % wide, block / wide, index)
                                != blocks[component][block][index]) {
                            return false;
                        }
                    }
                }
            }
            return true;
        }
    }

    private static final int[][] SAMPLINGS = {
        {0x11},
        {0x22},
        {0x11, 0x11, 0x11},
        {0x21, 0x11, 0x11},
        {0x22, 0x11, 0x11},
        {0x12, 0x11, 0x11},
        {0x41, 0x11, 0x11},
        {0x22, 0x21, 0x12},
        {0x41, 0x21, 0x22},
        {0x13, 0x11, 0x11},
        {0x22, 0x11, 0x11, 0x22},
        {0x31, 0x21, 0x11}
    };

    private final Random random;

    RandomPictures(long seed) {
        this.random = new Random(seed);
    }

    /** A picture of up to 70 by 70 pixels. */
    Picture next() throws IOException {
        int[] sampling = SAMPLINGS[random.nextInt(SAMPLINGS.length)];
        return next(sampling, 1 + random.nextInt(70), 1 + random.nextInt(70));
    }

    /** A picture with these sampling factors, one byte each, this size, and any restart interval or none. */
    Picture next(int[] sampling, int width, int height) throws IOException {
        return next(sampling, width, height, random.nextBoolean());
    }

    /** The same with restart markers or without. */
    Picture next(int[] sampling, int width, int height, boolean restarts) throws IOException {
        List<Component> components = new ArrayList<>();
        for (int index = 0; index < sampling.length; index++) {
            components.add(new Component(index + 1, sampling[index] >> 4, sampling[index] & 0xF, index == 0 ? 0 : 1));
        }
        Frame frame = new Frame(FrameType.BASELINE, 8, height, width, components);
        int[][][] blocks = new int[sampling.length][][];
        int density = random.nextInt(64);
        for (int index = 0; index < sampling.length; index++) {
            int count = Plane.of(frame, components.get(index)).blocks();
            blocks[index] = new int[count][];
            for (int block = 0; block < count; block++) {
                blocks[index][block] = block(density);
            }
        }
        int restartInterval = restarts ? 1 + random.nextInt(9) : 0;
        return new Picture(frame, encode(frame, blocks, restartInterval), blocks);
    }

    private int[] block(int density) {
        int[] block = new int[64];
        block[0] = random.nextInt(2048) - 1024;
        for (int number = 0; number < density; number++) {
            int magnitude = 1 << random.nextInt(11);
            block[1 + random.nextInt(63)] = random.nextInt(2 * magnitude - 1) - magnitude + 1;
        }
        return block;
    }

    private byte[] encode(Frame frame, int[][][] blocks, int restartInterval) throws IOException {
        StreamBuilder stream = StreamBuilder.start();
        for (int table = 0; table < 2; table++) {
            int[] payload = random.ints(65, 1, 256).toArray();
            payload[0] = table;
            stream.segment(0xDB, payload);
        }
        int[] components = frame.components().stream()
                .flatMapToInt(component -> IntStream.of(
                        component.id(),
                        component.horizontal() << 4 | component.vertical(),
                        component.quantizationTable()))
                .toArray();
        stream.frame(0xC0, 8, frame.lines(), frame.samplesPerLine(), components);
        stream.segment(0xC4, table(0x00, StandardTables.DC_LUMINANCE));
        stream.segment(0xC4, table(0x10, StandardTables.AC_LUMINANCE));
        if (restartInterval > 0) {
            stream.segment(0xDD, 0, restartInterval);
        }
        stream.scan(frame.components().stream().mapToInt(Component::id).toArray());
        for (byte value : data(frame, blocks, restartInterval)) {
            stream.raw(value & 0xFF);
        }
        return stream.end();
    }

    private static int[] table(int classAndSelector, HuffmanTable table) {
        int[] payload = new int[17 + table.size()];
        payload[0] = classAndSelector;
        for (int length = 1; length <= 16; length++) {
            payload[length] = table.count(length);
        }
        for (int index = 0; index < table.size(); index++) {
            payload[17 + index] = table.symbol(index);
        }
        return payload;
    }

    private static byte[] data(Frame frame, int[][][] blocks, int restartInterval) throws IOException {
        ByteArrayOutputStream target = new ByteArrayOutputStream();
        BitOutput output = new BitOutput(target);
        HuffmanCoder dc = new HuffmanCoder(StandardTables.DC_LUMINANCE);
        HuffmanCoder ac = new HuffmanCoder(StandardTables.AC_LUMINANCE);
        Plane[] planes = frame.components().stream()
                .map(component -> Plane.of(frame, component))
                .toArray(Plane[]::new);
        Layout layout = new Layout(planes, frame, Turn.NONE);
        layout.visit(layout.scans().get(0), restartInterval, new BlockVisitor() {
            private final int[] predictors = new int[planes.length];
            private int restarts;

            @Override
            public void visit(int component, int index) throws IOException {
                int[] block = index < 0 ? new int[] {predictors[component]} : blocks[component][index];
                value(output, dc, 0, block[0] - predictors[component]);
                predictors[component] = block[0];
                coefficients(output, ac, block);
            }

            @Override
            public void restart() {
                Arrays.fill(predictors, 0);
            }

            @Override
            public void endInterval() throws IOException {
                output.alignWithOnes();
                output.writeShort(0xFFD0 | (restarts++ & 7));
            }
        });
        output.alignWithOnes();
        output.finish();
        return target.toByteArray();
    }

    private static void coefficients(BitOutput output, HuffmanCoder ac, int[] block) throws IOException {
        int run = 0;
        for (int index = 1; index < block.length; index++) {
            if (block[index] == 0) {
                run++;
                continue;
            }
            for (; run > 15; run -= 16) {
                output.put(ac.code(0xF0) >>> 5, ac.code(0xF0) & 0x1F);
            }
            value(output, ac, run, block[index]);
            run = 0;
        }
        if (run > 0 || block.length == 1) {
            output.put(ac.code(0) >>> 5, ac.code(0) & 0x1F);
        }
    }

    private static void value(BitOutput output, HuffmanCoder coder, int run, int value) throws IOException {
        int category = 0;
        while (Math.abs(value) >> category != 0) {
            category++;
        }
        int code = coder.code(run << 4 | category);
        output.put(code >>> 5 >>> category, (code & 0x1F) - category);
        if (category > 0) {
            output.put(value > 0 ? value : value + (1 << category) - 1, category);
        }
    }
}
