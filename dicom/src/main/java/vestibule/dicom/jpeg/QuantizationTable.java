package vestibule.dicom.jpeg;

import java.util.Arrays;

/** A quantization table in zigzag order (T.81 B.2.4.1). */
final class QuantizationTable {
    private final int[] elements;
    private final boolean sixteenBit;

    QuantizationTable(int[] elements, boolean sixteenBit) {
        this.elements = elements;
        this.sixteenBit = sixteenBit;
    }

    int element(int zigzagIndex) {
        return elements[zigzagIndex];
    }

    /** Pq: whether the stream wrote its elements in two bytes each. */
    boolean sixteenBit() {
        return sixteenBit;
    }

    boolean fitsEightBits() {
        return Arrays.stream(elements).allMatch(element -> element <= 255);
    }

    /** The table for blocks whose rows and columns have changed places. */
    QuantizationTable transposed() {
        int[] turned = new int[64];
        for (int index = 0; index < 64; index++) {
            turned[Zigzag.transposed(index)] = elements[index];
        }
        return new QuantizationTable(turned, sixteenBit);
    }

    boolean sameElements(QuantizationTable other) {
        return Arrays.equals(elements, other.elements);
    }
}
