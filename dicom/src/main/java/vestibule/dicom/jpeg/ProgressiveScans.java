package vestibule.dicom.jpeg;

import java.io.IOException;
import java.nio.channels.SeekableByteChannel;

/** Puts the coefficients of a progressive picture together, scan by scan (T.81 Annex G.2). */
final class ProgressiveScans {
    private final SeekableByteChannel channel;
    private final Jpeg jpeg;
    private final Coefficients coefficients;
    private long surplusBytes;

    ProgressiveScans(SeekableByteChannel channel, Jpeg jpeg, Coefficients coefficients) {
        this.channel = channel;
        this.jpeg = jpeg;
        this.coefficients = coefficients;
    }

    void read() throws IOException {
        for (int number = 0; number < jpeg.scans().size(); number++) {
            Scan scan = jpeg.scans().get(number);
            EntropyInput input = new EntropyInput(channel, scan.data(), number + 1);
            Blocks[] blocks = new Blocks[scan.components().size()];
            for (int index = 0; index < blocks.length; index++) {
                int component = scan.components().get(index).index();
                blocks[index] = new Blocks(coefficients.plane(component), component, false);
            }
            BlockVisitor visitor = visitor(scan, jpeg.tables(number), input, blocks);
            new ScanUnits(jpeg.frame(), scan.restartInterval(), input, blocks, visitor).read();
            surplusBytes += input.surplusBytes();
        }
    }

    /** Whole bytes after the last unit of a scan or an interval. */
    long surplusBytes() {
        return surplusBytes;
    }

    private BlockVisitor visitor(Scan scan, TableState tables, EntropyInput input, Blocks[] blocks) {
        if (scan.spectralStart() == 0) {
            return scan.approximationHigh() == 0
                    ? new DcFirst(scan, tables, input, blocks)
                    : new DcRefinement(scan, input, blocks);
        }
        HuffmanDecoder decoder = HuffmanDecoder.ac(
                ScanTables.present(tables.ac(scan.components().get(0).acTable())));
        int component = blocks[0].component();
        ProgressiveBand band = new ProgressiveBand(
                scan, input, decoder, blocks[0], coefficients.values(component), coefficients.present(component));
        return scan.approximationHigh() == 0 ? new AcFirst(band) : new AcRefinement(band);
    }

    /** G.1.2.1: the first scan of the DC coefficients, all but their lowest bits. */
    private final class DcFirst implements BlockVisitor {
        private final EntropyInput input;
        private final Blocks[] blocks;
        private final HuffmanDecoder[] decoders;
        private final int low;

        DcFirst(Scan scan, TableState tables, EntropyInput input, Blocks[] blocks) {
            this.input = input;
            this.blocks = blocks;
            this.low = scan.approximationLow();
            this.decoders = scan.components().stream()
                    .map(component -> HuffmanDecoder.dc(ScanTables.present(tables.dc(component.dcTable()))))
                    .toArray(HuffmanDecoder[]::new);
        }

        @Override
        public void visit(int component, int blockIndex) throws IOException {
            Blocks of = blocks[component];
            BlockReader.readDc(input, decoders[component], of, blockIndex);
            int value = of.predictor * (1 << low);
            if (Blocks.isOutOfRange(value)) {
                throw input.corrupt("scan " + input.scanNumber() + " brings a DC value out of range for "
                        + of.where(blockIndex) + "; the data is damaged.");
            }
            if (blockIndex >= 0) {
                coefficients.values(of.component())[64 * blockIndex] = (short) value;
            }
        }

        @Override
        public void restart() {
            for (Blocks component : blocks) {
                component.predictor = 0;
            }
        }
    }

    /** G.1.2.1: one more bit of the DC coefficients. */
    private final class DcRefinement implements BlockVisitor {
        private final EntropyInput input;
        private final Blocks[] blocks;
        private final int low;

        DcRefinement(Scan scan, EntropyInput input, Blocks[] blocks) {
            this.input = input;
            this.blocks = blocks;
            this.low = scan.approximationLow();
        }

        @Override
        public void visit(int component, int blockIndex) throws IOException {
            input.ensure();
            int bit = input.take(1) << low;
            if (blockIndex >= 0) {
                coefficients.values(blocks[component].component())[64 * blockIndex] |= (short) bit;
            }
        }

        @Override
        public void restart() {
            // A refinement predicts nothing.
        }
    }
}
