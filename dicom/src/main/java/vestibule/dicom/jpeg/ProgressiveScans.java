package vestibule.dicom.jpeg;

import java.io.IOException;
import java.io.InterruptedIOException;
import java.nio.channels.SeekableByteChannel;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ForkJoinPool;
import java.util.concurrent.FutureTask;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;

/**
 * Puts the coefficients of a progressive picture together (T.81 Annex G.2): the DC scans first, then for each component
 * all of its AC scans side by side, block by block. No block depends on another but through its own scans, so the
 * outcome is the same as scan after scan, and one block in memory is enough.
 */
final class ProgressiveScans {
    private final SeekableByteChannel channel;
    private final Jpeg jpeg;
    private final Blocks[] components;
    private long surplusBytes;

    /** The components must keep their blocks: the DC values go there. */
    ProgressiveScans(SeekableByteChannel channel, Jpeg jpeg, Blocks[] components) {
        this.channel = channel;
        this.jpeg = jpeg;
        this.components = components;
    }

    /**
     * Reads all scans, the AC scans of each component in a thread of its own where there are processors for it.
     *
     * @param sinks gives the one that takes a component's blocks; it is asked here, and used in the component's thread
     */
    void read(Function<Blocks, ProgressiveSink> sinks) throws IOException {
        readDc();
        List<FutureTask<Long>> tasks = new ArrayList<>();
        for (Blocks component : components) {
            ProgressiveSink sink = sinks.apply(component);
            tasks.add(new FutureTask<>(() -> readAc(component, sink)));
        }
        tasks.subList(1, tasks.size()).forEach(ForkJoinPool.commonPool()::execute);
        // The first, which has most to do, stays here; so does each of the others that nobody has begun by then
        tasks.forEach(FutureTask::run);
        surplusBytes += outcomes(tasks);
    }

    /** Waits for all of them, so that nobody reads any more when the first that failed is told. */
    private static long outcomes(List<FutureTask<Long>> tasks) throws IOException {
        long surplus = 0;
        @Nullable Throwable failure = null;
        for (FutureTask<Long> task : tasks) {
            try {
                surplus += outcome(task);
            } catch (IOException | Error e) {
                failure = failure == null ? e : failure;
            }
        }
        if (failure instanceof IOException failed) {
            throw failed;
        }
        if (failure instanceof Error failed) {
            throw failed;
        }
        return surplus;
    }

    private static long outcome(FutureTask<Long> task) throws IOException {
        try {
            return task.get();
        } catch (ExecutionException e) {
            if (e.getCause() instanceof IOException failure) {
                throw failure;
            }
            if (e.getCause() instanceof Error failure) {
                // Want of memory is no fault of the picture, and who called can wait for better times
                throw failure;
            }
            throw new IllegalStateException(e.getCause());
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new InterruptedIOException("interrupted while a picture was read");
        }
    }

    /** Reads the scans of DC coefficients alone. */
    void readDc() throws IOException {
        surplusBytes = 0;
        for (int number = 0; number < jpeg.scans().size(); number++) {
            Scan scan = jpeg.scans().get(number);
            if (scan.spectralStart() == 0) {
                EntropyInput input = input(number);
                Blocks[] blocks = scan.components().stream()
                        .map(component -> components[component.index()])
                        .toArray(Blocks[]::new);
                BlockVisitor visitor = scan.approximationHigh() == 0
                        ? new DcFirst(scan, jpeg.tables(number), input, blocks)
                        : new DcRefinement(scan, input, blocks);
                new ScanUnits(jpeg.frame(), scan.restartInterval(), input, blocks, visitor).read();
                surplusBytes += input.surplusBytes();
            }
        }
    }

    /** Whole bytes after the last unit of a scan or an interval. */
    long surplusBytes() {
        return surplusBytes;
    }

    private EntropyInput input(int number) throws IOException {
        return new EntropyInput(channel, jpeg.scans().get(number).data(), number + 1);
    }

    /** Returns how many whole bytes were left over. */
    private long readAc(Blocks blocks, ProgressiveSink sink) throws IOException {
        ProgressiveBand[] bands = bands(blocks);
        ProgressiveBlock block = new ProgressiveBlock();
        for (int row = 0; row < blocks.plane.blocksHigh(); row++) {
            for (int column = 0; column < blocks.plane.blocksWide(); column++) {
                int index = blocks.index(column, row);
                block.clear();
                for (ProgressiveBand band : bands) {
                    band.next(block, index);
                }
                if (index >= 0) {
                    block = sink.take(blocks, index, block);
                }
            }
        }
        sink.finish();
        long surplus = 0;
        for (ProgressiveBand band : bands) {
            band.end();
            surplus += band.input.surplusBytes();
        }
        return surplus;
    }

    private ProgressiveBand[] bands(Blocks blocks) throws IOException {
        List<ProgressiveBand> bands = new ArrayList<>();
        for (int number = 0; number < jpeg.scans().size(); number++) {
            Scan scan = jpeg.scans().get(number);
            ScanComponent component = scan.components().get(0);
            if (scan.spectralStart() > 0 && component.index() == blocks.component()) {
                SymbolDecoder decoder =
                        new SymbolDecoder(ScanTables.present(jpeg.tables(number).ac(component.acTable())));
                bands.add(
                        scan.approximationHigh() == 0
                                ? new AcFirst(scan, input(number), decoder, blocks)
                                : new AcRefinement(scan, input(number), decoder, blocks));
            }
        }
        return bands.toArray(ProgressiveBand[]::new);
    }

    /** G.1.2.1: the first scan of the DC coefficients, all but their lowest bits. */
    private static final class DcFirst implements BlockVisitor {
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
                of.dc[blockIndex] = (short) value;
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
    private static final class DcRefinement implements BlockVisitor {
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
                blocks[component].dc[blockIndex] |= (short) bit;
            }
        }

        @Override
        public void restart() {
            // A refinement predicts nothing.
        }
    }
}
