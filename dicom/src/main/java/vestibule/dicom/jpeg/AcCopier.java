package vestibule.dicom.jpeg;

import java.io.IOException;

/**
 * Copies the AC codes of blocks as they are, but for signs.
 *
 * <p>A mirror image changes the sign of every coefficient of odd frequency along one axis and nothing else (T.81 A.3.3:
 * the cosine of an odd frequency is odd about the middle). A changed sign is the complement of the magnitude bits
 * (T.81 Table F.1), the Huffman code stays.
 */
final class AcCopier extends BlockReader {
    /** How far to shift a one to get {@link HuffmanDecoder#END_OF_BLOCK}. */
    private static final int END_SHIFT = 7;

    /** An end of block may come after 62 AC coefficients at most; after 63 there is none. */
    private static final int LATEST_END = HuffmanDecoder.END_OF_BLOCK + 63;

    private final AcStore store;
    private final long signChanges;

    AcCopier(AcStore store, long signChanges) {
        this.store = store;
        this.signChanges = signChanges;
    }

    @Override
    void read(EntropyInput in, HuffmanDecoder dcDecoder, HuffmanDecoder acDecoder, Blocks blocks, int index)
            throws IOException {
        readDc(in, dcDecoder, blocks, index);
        store.ensure();
        byte[] clean = in.clean;
        long bits = in.bits;
        int count = in.count;
        int position = in.position;
        byte[] target = store.bytes();
        long out = store.bits();
        int outCount = store.count();
        int outNext = store.next();
        long signs = signChanges;
        int next = 1;
        while (next < 64) {
            bits |= (long) EntropyInput.WORD.get(clean, position) >>> count;
            position += (63 - count) >>> 3;
            count |= 56;
            int entry = acDecoder.pairEntry(bits);
            int first = next + (entry >> 5 & 0x1F);
            int last = first + (entry >> 10 & 0x1F) + (entry >>> 31 << END_SHIFT);
            if (entry == 0 || (last > 64 && (last < HuffmanDecoder.END_OF_BLOCK || last > LATEST_END))) {
                entry = acDecoder.singleEntry(bits);
                if (entry == 0) {
                    throw noCode(in, blocks, index);
                }
                first = next + (entry >> 5 & 0x1F);
                last = first + (entry >>> 31 << END_SHIFT);
            }
            next = last;
            int all = entry & 0x1F;
            long changes = (((1L << (entry >> 20 & 0xF)) - 1) & -(signs >>> (first - 1) & 1)) << (entry >> 15 & 0x1F);
            changes |= ((1L << (entry >> 24 & 0xF)) - 1) & -(signs >>> (last - 1) & 1);
            out = out << all | ((bits >>> -all) ^ changes);
            bits <<= all;
            count -= all;
            outCount += all;
            EntropyInput.WORD.set(target, outNext, out << -outCount);
            outNext += outCount >>> 3;
            outCount &= 7;
        }
        if (next > 64 && next < HuffmanDecoder.END_OF_BLOCK) {
            throw tooManyCoefficients(in, blocks, index);
        }
        in.bits = bits;
        in.count = count;
        in.position = position;
        if (index >= 0) {
            long from = store.bitPosition();
            store.resume(outNext, out, outCount);
            blocks.dc[index] = (short) blocks.predictor;
            blocks.ac[index] = AcStore.reference(from, store.bitPosition());
        }
    }
}
