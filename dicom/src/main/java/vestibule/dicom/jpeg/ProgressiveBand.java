package vestibule.dicom.jpeg;

import java.io.IOException;

/** One scan of AC coefficients of a progressive picture, read block by block (T.81 G.1.2.2, G.1.2.3). */
abstract class ProgressiveBand {
    final EntropyInput input;
    final SymbolDecoder decoder;
    final Blocks blocks;
    final int first;
    final int last;

    /** How far the bits of this scan are to be moved to the left. */
    final int low;

    /** The zigzag indices of the band as bits. */
    final long indices;

    /** How many blocks from here on have no more symbols (Table G.1). */
    int endedBlocks;

    private final int restartInterval;
    private int unitsLeft;

    ProgressiveBand(Scan scan, EntropyInput input, SymbolDecoder decoder, Blocks blocks) {
        this.input = input;
        this.decoder = decoder;
        this.blocks = blocks;
        this.first = scan.spectralStart();
        this.last = scan.spectralEnd();
        this.low = scan.approximationLow();
        this.indices = (-1L << first) & (-1L >>> (63 - last));
        this.restartInterval = scan.restartInterval() == 0 ? Integer.MAX_VALUE : scan.restartInterval();
        this.unitsLeft = restartInterval;
    }

    /** Reads what the scan has for the next block. */
    final void next(ProgressiveBlock block, int index) throws IOException {
        if (unitsLeft == 0) {
            end();
            input.nextInterval();
            unitsLeft = restartInterval;
        }
        unitsLeft--;
        read(block, index);
    }

    abstract void read(ProgressiveBlock block, int index) throws IOException;

    /** Closes an interval, or the scan: a run of ended blocks must not reach over it. */
    final void end() throws IOException {
        if (endedBlocks > 0) {
            throw input.corrupt("scan " + input.scanNumber() + " ends " + endedBlocks
                    + " more blocks than there are before a restart marker or its end; the data is damaged.");
        }
        input.endInterval();
    }

    final JpegFormatException wrongSymbol(int found, int index) {
        return found == 0
                ? BlockReader.noCode(input, blocks, index)
                : input.corrupt("scan " + input.scanNumber() + " has a coefficient beyond its band in "
                        + blocks.where(index) + "; the data is damaged.");
    }
}
