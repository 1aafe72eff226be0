package vestibule.dicom.jpeg;

import java.io.IOException;

/** Reads blocks of sequential scans into the coefficients of a picture. */
final class CoefficientReader extends BlockReader {
    private final Coefficients coefficients;

    CoefficientReader(Coefficients coefficients) {
        this.coefficients = coefficients;
    }

    @Override
    void read(EntropyInput in, HuffmanDecoder dcDecoder, HuffmanDecoder acDecoder, Blocks blocks, int index)
            throws IOException {
        readDc(in, dcDecoder, blocks, index);
        short[] values = coefficients.values(blocks.component());
        int next = 1;
        while (next < 64) {
            in.refill();
            int shortEntry = acDecoder.shortEntry(in.bits);
            int entry = shortEntry != 0 ? shortEntry : acDecoder.longAcEntry(in.bits);
            if (entry == 0) {
                throw noCode(in, blocks, index);
            }
            int category = HuffmanDecoder.extraBits(entry);
            int all = HuffmanDecoder.allBits(entry);
            int extra = (int) (in.bits >>> -all) & ((1 << category) - 1);
            in.bits <<= all;
            in.count -= all;
            next += HuffmanDecoder.advance(entry);
            if (category != 0 && next <= 64 && index >= 0) {
                values[64 * index + next - 1] = (short) HuffmanDecoder.extend(extra, category);
            }
        }
        if (next > 64 && next < HuffmanDecoder.END_OF_BLOCK) {
            throw tooManyCoefficients(in, blocks, index);
        }
        if (index >= 0) {
            values[64 * index] = (short) blocks.predictor;
        }
    }
}
