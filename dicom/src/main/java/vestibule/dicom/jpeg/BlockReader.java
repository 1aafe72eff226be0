package vestibule.dicom.jpeg;

import java.io.IOException;

/** Reads the blocks of sequential scans one after the other (T.81 F.2.2); what becomes of them is the subclass's. */
abstract class BlockReader {
    /** How the AC tables have to be arranged for it. */
    HuffmanDecoder.Arrangement arrangement() {
        return HuffmanDecoder.Arrangement.ONE;
    }

    /** Reads one block; index -1 is one beyond the component's edge, which is read and forgotten. */
    abstract void read(EntropyInput in, HuffmanDecoder dc, HuffmanDecoder ac, Blocks blocks, int index)
            throws IOException;

    /** Reads the DC difference and brings the predictor up to date. */
    static void readDc(EntropyInput in, HuffmanDecoder dc, Blocks blocks, int index) throws IOException {
        in.ensure();
        in.refill();
        int entry = dc.dcEntry(in.bits);
        if (entry == 0) {
            throw noCode(in, blocks, index);
        }
        int category = HuffmanDecoder.extraBits(entry);
        int all = HuffmanDecoder.allBits(entry);
        int extra = (int) (in.bits >>> (64 - all)) & ((1 << category) - 1);
        in.bits <<= all;
        in.count -= all;
        if (blocks.predictionOverflows(HuffmanDecoder.extend(extra, category))) {
            throw in.corrupt("scan " + in.scanNumber() + " brings a DC value out of range for " + blocks.where(index)
                    + "; the data is damaged.");
        }
    }

    static JpegFormatException noCode(EntropyInput in, Blocks blocks, int index) {
        return in.corrupt("scan " + in.scanNumber() + " has bits that are no code where " + blocks.where(index)
                + " was expected; the data is damaged.");
    }

    static JpegFormatException tooManyCoefficients(EntropyInput in, Blocks blocks, int index) {
        return in.corrupt("scan " + in.scanNumber() + " has more than 64 coefficients for " + blocks.where(index)
                + "; the data is damaged.");
    }
}
