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
            if (count < 32) {
                bits |= (long) EntropyInput.WORD.get(clean, position) >>> count;
                position += (63 - count) >>> 3;
                count |= 56;
            }
            int entry = acDecoder.shortEntry(bits);
            if (entry == 0) {
                entry = acDecoder.longAcEntry(bits);
                if (entry == 0) {
                    throw noCode(in, blocks, index);
                }
            }
            int all = entry >> 9 & 0x1F;
            next += entry >> 14;
            long chunk = bits >>> -all;
            long magnitude = (1L << (entry >> 5 & 0xF)) - 1;
            bits <<= all;
            count -= all;
            out = out << all | (chunk ^ (magnitude & -(signs >>> (next - 1) & 1)));
            outCount += all;
            if (outCount >= 32) {
                outCount -= 32;
                AcStore.HALF.set(target, outNext, (int) (out >>> outCount));
                outNext += 4;
            }
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
