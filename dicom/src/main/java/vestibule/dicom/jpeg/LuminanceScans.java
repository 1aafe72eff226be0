package vestibule.dicom.jpeg;

import java.io.IOException;
import java.nio.channels.SeekableByteChannel;

/** The component that tells brightness, and all scans of a picture on the way to it. */
final class LuminanceScans {
    private final SeekableByteChannel channel;
    private final Jpeg jpeg;
    private final int number;
    private final Component component;

    /**
     * Takes the first component, which is the luminance where there is one; of a picture that is coded as red, green and
     * blue the second, which comes nearest to it.
     */
    LuminanceScans(SeekableByteChannel channel, Jpeg jpeg) throws IOException {
        Decodable.check(jpeg);
        this.channel = channel;
        this.jpeg = jpeg;
        this.number = jpeg.color().coding() == ColorCoding.RGB ? 1 : 0;
        this.component = jpeg.frame().components().get(number);
    }

    /** What takes the blocks of sequential scans, and those of progressive ones. */
    abstract static class Reader extends BlockReader implements ProgressiveSink {
        private final BlockChecker others = new BlockChecker();

        /** Index of the component whose blocks count. */
        private final int component;

        Reader(LuminanceScans scans) {
            this.component = scans.number;
        }

        @Override
        final void read(EntropyInput in, HuffmanDecoder dc, HuffmanDecoder ac, Blocks blocks, int index)
                throws IOException {
            if (blocks.component() != component || index < 0) {
                others.read(in, dc, ac, blocks, index);
            } else {
                readLuminance(in, dc, ac, blocks, index);
            }
        }

        @Override
        public final ProgressiveBlock take(Blocks blocks, int index, ProgressiveBlock block) {
            if (blocks.component() == component) {
                takeLuminance(blocks, index, block);
            }
            return block;
        }

        abstract void readLuminance(EntropyInput in, HuffmanDecoder dc, HuffmanDecoder ac, Blocks blocks, int index)
                throws IOException;

        abstract void takeLuminance(Blocks blocks, int index, ProgressiveBlock block);
    }

    Plane plane() {
        return Plane.of(jpeg.frame(), component);
    }

    /** Samples in a line. */
    int columns() {
        return jpeg.frame().columnsOf(component);
    }

    int lines() {
        return jpeg.frame().linesOf(component);
    }

    /** Whether it has as many samples as the picture, on both axes. */
    boolean isFull() {
        return columns() == jpeg.frame().samplesPerLine()
                && lines() == jpeg.frame().lines();
    }

    /** What its coefficients are multiplied with, by zigzag index. */
    float[] steps() throws IOException {
        QuantizationTable table = QuantizationPlan.tableAtFirstScan(jpeg, number, component.quantizationTable());
        float[] steps = new float[64];
        for (int index = 0; index < steps.length; index++) {
            steps[index] = table.element(index);
        }
        return steps;
    }

    /** Decodes every code of the picture. */
    void read(Reader reader) throws IOException {
        Blocks[] blocks = Decodable.blocks(jpeg);
        if (jpeg.frame().type().isProgressive()) {
            new ProgressiveScans(channel, jpeg, blocks).read(of -> reader);
        } else {
            new SequentialScans(channel, jpeg).read(blocks, reader);
        }
    }
}
