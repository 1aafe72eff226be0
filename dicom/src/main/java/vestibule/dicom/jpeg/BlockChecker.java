package vestibule.dicom.jpeg;

import java.io.IOException;

/** Decodes every code of a block and keeps nothing but the DC prediction: whether the data is whole. */
final class BlockChecker extends BlockReader {
    @Override
    HuffmanDecoder.Arrangement arrangement() {
        return HuffmanDecoder.Arrangement.SEVERAL;
    }

    @Override
    void read(EntropyInput in, HuffmanDecoder dcDecoder, HuffmanDecoder acDecoder, Blocks blocks, int index)
            throws IOException {
        readDc(in, dcDecoder, blocks, index);
        readRest(in, acDecoder, blocks, index, 1);
    }

    /** Looks through what a block has from a zigzag index on; beyond the last there is nothing more. */
    static void readRest(EntropyInput in, HuffmanDecoder acDecoder, Blocks blocks, int index, int from)
            throws JpegFormatException {
        byte[] clean = in.clean;
        long bits = in.bits;
        int count = in.count;
        int position = in.position;
        int next = from;
        while (next < 64) {
            bits |= (long) EntropyInput.WORD.get(clean, position) >>> count;
            position += (63 - count) >>> 3;
            count |= 56;
            int entry = acDecoder.severalEntry(bits);
            int last = next + (entry >> 5);
            if (entry == 0 || (last > 64 && (last < HuffmanDecoder.END_OF_BLOCK || last > HuffmanDecoder.LATEST_END))) {
                entry = acDecoder.oneEntry(bits);
                last = next + (entry >> 5);
                if (entry == 0) {
                    throw noCode(in, blocks, index);
                }
            }
            bits <<= entry & 0x1F;
            count -= entry & 0x1F;
            next = last;
        }
        if (next > 64 && next < HuffmanDecoder.END_OF_BLOCK) {
            throw tooManyCoefficients(in, blocks, index);
        }
        in.bits = bits;
        in.count = count;
        in.position = position;
    }
}
