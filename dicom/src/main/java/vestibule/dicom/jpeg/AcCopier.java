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
    private static final long FIRST_BITS = (1L << (HuffmanDecoder.SECOND_EXTRA - HuffmanDecoder.FIRST_EXTRA)) - 1;

    private final AcStore store;
    private final long signChanges;

    AcCopier(AcStore store, long signChanges) {
        this.store = store;
        this.signChanges = signChanges;
    }

    @Override
    HuffmanDecoder.Arrangement arrangement() {
        return HuffmanDecoder.Arrangement.MASKED;
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
        long at = store.length();
        int next = 1;
        do {
            long whole = at & -8;
            // Two look-ups take up to 52 bits, so one fetch does for both, and one store
            bits |= (long) EntropyInput.WORD.get(clean, position) >>> count;
            position += (63 - count) >>> 3;
            count |= 56;
            long entry = acDecoder.maskedEntry(bits);
            int last = next + moved(entry);
            if (entry == 0 || HuffmanDecoder.passes(last)) {
                entry = single(in, acDecoder, bits, blocks, index);
                last = next + moved(entry);
            }
            int all = (int) entry & 0x1F;
            long changes = changes(entry, next + ((int) entry >> 5 & 0x1F), last);
            out = out << all | ((bits >>> -all) ^ changes);
            bits <<= all;
            count -= all;
            at += all;
            next = last;
            if (next < 64) {
                entry = acDecoder.maskedEntry(bits);
                last = next + moved(entry);
                if (entry == 0 || HuffmanDecoder.passes(last)) {
                    entry = single(in, acDecoder, bits, blocks, index);
                    last = next + moved(entry);
                }
                all = (int) entry & 0x1F;
                changes = changes(entry, next + ((int) entry >> 5 & 0x1F), last);
                out = out << all | ((bits >>> -all) ^ changes);
                bits <<= all;
                count -= all;
                at += all;
                next = last;
            }
            EntropyInput.WORD.set(target, (int) (whole >>> 3), out << (whole - at));
        } while (next < 64);
        if (next > 64 && next < HuffmanDecoder.END_OF_BLOCK) {
            throw tooManyCoefficients(in, blocks, index);
        }
        in.bits = bits;
        in.count = count;
        in.position = position;
        if (index >= 0) {
            blocks.dc[index] = (short) blocks.predictor;
            blocks.ac[index] = AcStore.reference(store.length(), at);
            store.resume(out, at);
        }
    }

    private static int moved(long entry) {
        return (int) entry >> 10 & 0xFF;
    }

    private static long single(EntropyInput in, HuffmanDecoder decoder, long bits, Blocks blocks, int index)
            throws JpegFormatException {
        long entry = decoder.singleMaskedEntry(bits);
        if (entry == 0) {
            throw noCode(in, blocks, index);
        }
        return entry;
    }

    /** The extra bits of the symbols that get another sign; the coefficients stand before {@code first} and {@code last}. */
    private long changes(long entry, int first, int last) {
        long ofFirst = (entry >>> HuffmanDecoder.FIRST_EXTRA) & FIRST_BITS & ((signChanges << -first) >> 63);
        long ofSecond = (entry >>> HuffmanDecoder.SECOND_EXTRA) & ((signChanges << -last) >> 63);
        return ofFirst | ofSecond;
    }
}
