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
        store.ensure();
        byte[] target = store.bytes();
        long out = store.bits();
        int outCount = store.count();
        int outNext = store.next();
        long from = store.bitPosition();
        int previous = 0;
        for (long rest = coefficients; rest != 0; rest &= rest - 1) {
            int index = Long.numberOfTrailingZeros(rest);
            int run = index - previous - 1;
            previous = index;
            while (run > 15) {
                run -= 16;
                int zeros = code(coder, SIXTEEN_ZEROS);
                out = out << (zeros & 0x1F) | zeros >>> 5;
                outCount += zeros & 0x1F;
                EntropyInput.WORD.set(target, outNext, out << -outCount);
                outNext += outCount >>> 3;
                outCount &= 7;
            }
            int magnitude = magnitudes[index];
            int category = 32 - Integer.numberOfLeadingZeros(magnitude);
            int value = magnitude ^ ((1 << category) - 1 & -(int) (negative >>> index & 1));
            int code = code(coder, run << 4 | category);
            int all = (code & 0x1F) + category;
            out = out << all | (long) (code >>> 5) << category | value;
            outCount += all;
            EntropyInput.WORD.set(target, outNext, out << -outCount);
            outNext += outCount >>> 3;
            outCount &= 7;
        }
        if (previous != 63) {
            int end = code(coder, END_OF_BLOCK);
            out = out << (end & 0x1F) | end >>> 5;
            outCount += end & 0x1F;
        }
        EntropyInput.WORD.set(target, outNext, out << -outCount);
        outNext += outCount >>> 3;
        outCount &= 7;
        store.resume(outNext, out, outCount);
        return AcStore.reference(from, store.bitPosition());
    }

    /** Appends the codes of the block to the store; returns the reference to them. */
    long encode(HuffmanCoder coder) throws IOException {
        store.ensure();
        byte[] target = store.bytes();
        long out = store.bits();
        int outCount = store.count();
        int outNext = store.next();
        long from = store.bitPosition();
        int previous = 0;
        for (long rest = present; rest != 0; rest &= rest - 1) {
            int index = Long.numberOfTrailingZeros(rest);
            int run = index - previous - 1;
            previous = index;
            while (run > 15) {
                run -= 16;
                int zeros = code(coder, SIXTEEN_ZEROS);
                out = out << (zeros & 0x1F) | zeros >>> 5;
                outCount += zeros & 0x1F;
                EntropyInput.WORD.set(target, outNext, out << -outCount);
                outNext += outCount >>> 3;
                outCount &= 7;
            }
            int value = values[index];
            int category = value >>> 16;
            int code = code(coder, run << 4 | category);
            int all = (code & 0x1F) + category;
            out = out << all | (long) (code >>> 5) << category | (value & 0xFFFF);
            outCount += all;
            EntropyInput.WORD.set(target, outNext, out << -outCount);
            outNext += outCount >>> 3;
            outCount &= 7;
        }
        if (previous != 63) {
            int end = code(coder, END_OF_BLOCK);
            out = out << (end & 0x1F) | end >>> 5;
            outCount += end & 0x1F;
        }
        EntropyInput.WORD.set(target, outNext, out << -outCount);
        outNext += outCount >>> 3;
        outCount &= 7;
        store.resume(outNext, out, outCount);
        return AcStore.reference(from, store.bitPosition());
    }

    private int code(HuffmanCoder coder, int symbol) {
        int code = coder.code(symbol);
        codeMissing |= code == 0;
        return code;
    }
}
