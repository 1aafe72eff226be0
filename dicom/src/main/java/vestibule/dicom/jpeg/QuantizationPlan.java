package vestibule.dicom.jpeg;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * The quantization tables of the outcome: each component's as it was when its first scan began, its rows and columns
 * exchanged with the picture's, all in 8 bits, which is what a baseline picture may have (T.81 B.2.4.1).
 */
final class QuantizationPlan {
    private final List<@Nullable QuantizationTable> slots = new ArrayList<>();
    private final int[] selectors;

    QuantizationPlan(Jpeg jpeg, boolean exchangesAxes) throws JpegFormatException {
        int count = jpeg.frame().components().size();
        selectors = new int[count];
        for (int slot = 0; slot < 4; slot++) {
            slots.add(null);
        }
        for (int component = 0; component < count; component++) {
            int selector = jpeg.frame().components().get(component).quantizationTable();
            QuantizationTable table = tableAtFirstScan(jpeg, component, selector);
            if (!table.fitsEightBits()) {
                throw new JpegFormatException(
                        Decodable.frameOffset(jpeg),
                        "begins a picture with a quantization element above 255, which a baseline picture cannot have"
                                + " (T.81 B.2.4.1); it cannot be coded again without loss.");
            }
            selectors[component] = place(exchangesAxes ? table.transposed() : table, selector);
        }
    }

    static QuantizationTable tableAtFirstScan(Jpeg jpeg, int component, int selector) {
        for (int number = 0; number < jpeg.scans().size(); number++) {
            for (ScanComponent one : jpeg.scans().get(number).components()) {
                if (one.index() == component) {
                    return ScanTables.present(jpeg.tables(number).quantization(selector));
                }
            }
        }
        throw new IllegalStateException("every component has a scan, the walk has seen to it");
    }

    /** At most four components, so there is always a free slot among four. */
    private int place(QuantizationTable table, int preferred) {
        QuantizationTable held = slots.get(preferred);
        if (held == null || held.sameElements(table)) {
            slots.set(preferred, table);
            return preferred;
        }
        for (int slot = 0; slot < 4; slot++) {
            QuantizationTable other = slots.get(slot);
            if (other == null || other.sameElements(table)) {
                slots.set(slot, table);
                return slot;
            }
        }
        throw new IllegalStateException("more than four components, the limits have seen to it");
    }

    int[] selectors() {
        return selectors.clone();
    }

    @Nullable QuantizationTable table(int slot) {
        return slots.get(slot);
    }
}
