package vestibule.dicom.jpeg;

/** What the two kinds of AC scans of a progressive picture share (T.81 G.1.2.2, G.1.2.3). */
final class ProgressiveBand {
    private final EntropyInput input;
    private final HuffmanDecoder decoder;
    private final Blocks blocks;
    private final short[] values;
    private final long[] present;
    private final long indices;
    private final int first;
    private final int last;
    private final int low;

    ProgressiveBand(
            Scan scan, EntropyInput input, HuffmanDecoder decoder, Blocks blocks, short[] values, long[] present) {
        this.input = input;
        this.decoder = decoder;
        this.blocks = blocks;
        this.values = values;
        this.present = present;
        this.first = scan.spectralStart();
        this.last = scan.spectralEnd();
        this.low = scan.approximationLow();
        this.indices = (-1L << first) & (-1L >>> (63 - last));
    }

    Blocks blocks() {
        return blocks;
    }

    EntropyInput input() {
        return input;
    }

    HuffmanDecoder decoder() {
        return decoder;
    }

    /** The zigzag indices of the band as bits. */
    long indices() {
        return indices;
    }

    /** The component's coefficients. */
    short[] values() {
        return values;
    }

    /** Which of them are not zero. */
    long[] present() {
        return present;
    }

    int first() {
        return first;
    }

    int last() {
        return last;
    }

    int low() {
        return low;
    }

    /** The next symbol: run times 16 plus category. */
    int symbol(int blockIndex) throws JpegFormatException {
        input.refill();
        int found = decoder.symbolAndLength(input.bits);
        if (found == 0) {
            throw BlockReader.noCode(input, blocks, blockIndex);
        }
        input.skip(found & 0x1F);
        return found >> 5;
    }

    /** How many blocks, this one included, end where they are (Table G.1). */
    int endOfBandRun(int exponent) {
        return (1 << exponent) + (exponent == 0 ? 0 : input.take(exponent));
    }

    JpegFormatException outOfBand(int blockIndex) {
        return input.corrupt("scan " + input.scanNumber() + " has a coefficient beyond its band in "
                + blocks.where(blockIndex) + "; the data is damaged.");
    }

    /** A run of ended blocks must not reach over the end of its interval. */
    void checkRunEnded(int left) throws JpegFormatException {
        if (left > 0) {
            throw input.corrupt("scan " + input.scanNumber() + " ends " + left
                    + " more blocks than there are before a restart marker or its end; the data is damaged.");
        }
    }
}
