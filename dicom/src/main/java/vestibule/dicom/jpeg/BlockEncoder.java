package vestibule.dicom.jpeg;

import java.io.IOException;

/**
 * Takes the AC coefficients of one block at a time, and either counts the symbols they need or puts their codes into a
 * store (T.81 F.1.2.2).
 */
final class BlockEncoder {
    private static final int END_OF_BLOCK = 0x00;
    private static final int SIXTEEN_ZEROS = 0xF0;

    /** Which zigzag indices are not zero; never bit 0. */
    long present;

    /** For each index that is present the category in the upper 16 bits, and the bits that follow its code. */
    final int[] values = new int[64];

    private final AcStore store;
    private boolean codeMissing;

    BlockEncoder(AcStore store) {
        this.store = store;
    }

    /** Whether a block needed a symbol its table has no code for; what is in the store is of no use then. */
    boolean codeMissing() {
        return codeMissing;
    }

    /** Adds the symbols of the block to the counts. */
    void count(int[] counts) {
        int previous = 0;
        for (long rest = present; rest != 0; rest &= rest - 1) {
            int index = Long.numberOfTrailingZeros(rest);
            int run = index - previous - 1;
            previous = index;
            counts[SIXTEEN_ZEROS] += run >> 4;
            counts[(run & 15) << 4 | (values[index] >>> 16)]++;
        }
        if (previous != 63) {
            counts[END_OF_BLOCK]++;
        }
    }

    /**
     * Appends the codes of a block to the store that is given by magnitudes and signs in its order; returns the reference
     * to them.
     */
    long encode(HuffmanCoder coder, int[] magnitudes, long coefficients, long negative) throws IOException {
        int[] target = values;
        for (long rest = coefficients; rest != 0; rest &= rest - 1) {
            int index = Long.numberOfTrailingZeros(rest);
            int magnitude = magnitudes[index & (magnitudes.length - 1)];
            int category = 32 - Integer.numberOfLeadingZeros(magnitude);
            target[index & (target.length - 1)] =
                    category << 16 | (magnitude ^ (((1 << category) - 1) & -(int) (negative >>> index & 1)));
        }
        present = coefficients;
        return encode(coder);
    }

    /** Appends the codes of the block to the store; returns the reference to them. */
    long encode(HuffmanCoder coder) throws IOException {
        store.ensure();
        byte[] target = store.bytes();
        int[] following = values;
        long[] codes = coder.runs;
        long out = store.bits();
        long at = store.length();
        int previous = 0;
        long rest = present;
        while (rest != 0) {
            int index = Long.numberOfTrailingZeros(rest);
            rest &= rest - 1;
            int value = following[index & (following.length - 1)];
            long code = codes[((index - previous - 1) << 4 | value >>> 16) & (codes.length - 1)];
            previous = index;
            if (code == 0) {
                return encodeStepByStep(coder);
            }
            out = out << code | code >>> 6 | (value & 0xFFFF);
            long whole = at & -8;
            at += code & 0x3F;
            EntropyInput.WORD.set(target, (int) (whole >>> 3), out << (whole - at));
        }
        if (previous != 63) {
            long end = codes[END_OF_BLOCK];
            codeMissing |= end == 0;
            out = out << end | end >>> 6;
            long whole = at & -8;
            at += end & 0x3F;
            EntropyInput.WORD.set(target, (int) (whole >>> 3), out << (whole - at));
        }
        long from = store.length();
        store.resume(out, at);
        return AcStore.reference(from, at);
    }

    /** Does the same for a block with runs of zeros whose codes are too long to be put down at once, or that have none. */
    private long encodeStepByStep(HuffmanCoder coder) {
        long from = store.length();
        int previous = 0;
        for (long rest = present; rest != 0; rest &= rest - 1) {
            int index = Long.numberOfTrailingZeros(rest);
            int run = index - previous - 1;
            previous = index;
            for (; run > 15; run -= 16) {
                put(coder, SIXTEEN_ZEROS, 0);
            }
            put(coder, run << 4 | values[index] >>> 16, values[index] & 0xFFFF);
        }
        if (previous != 63) {
            put(coder, END_OF_BLOCK, 0);
        }
        return AcStore.reference(from, store.length());
    }

    private void put(HuffmanCoder coder, int symbol, int following) {
        int code = coder.code(symbol);
        codeMissing |= code == 0;
        long out = store.bits() << (code & 0x1F) | code >>> 5 | following;
        long whole = store.length() & -8;
        long at = store.length() + (code & 0x1F);
        EntropyInput.WORD.set(store.bytes(), (int) (whole >>> 3), out << (whole - at));
        store.resume(out, at);
    }
}
