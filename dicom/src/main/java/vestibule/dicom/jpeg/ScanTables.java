package vestibule.dicom.jpeg;

import org.jspecify.annotations.Nullable;

/** Looks whether the scans of a stream find the tables they ask for. */
final class ScanTables {
    private ScanTables() {}

    /** A table that {@link #missing} has found to be there. */
    static <T> T present(@Nullable T table) {
        if (table == null) {
            throw new IllegalStateException("tables are looked for before they are used");
        }
        return table;
    }

    /** Null, or which scan lacks which table. */
    static @Nullable String missing(Jpeg jpeg) {
        for (int number = 0; number < jpeg.scans().size(); number++) {
            Scan scan = jpeg.scans().get(number);
            TableState tables = jpeg.tables(number);
            for (ScanComponent component : scan.components()) {
                @Nullable String missing = missing(jpeg, scan, component, tables);
                if (missing != null) {
                    return "scan " + (number + 1) + " has no " + missing;
                }
            }
        }
        return null;
    }

    private static @Nullable String missing(Jpeg jpeg, Scan scan, ScanComponent component, TableState tables) {
        Frame frame = jpeg.frame();
        int quantization = frame.components().get(component.index()).quantizationTable();
        if (!frame.type().isLossless() && tables.quantization(quantization) == null) {
            return "quantization table " + quantization;
        }
        if (frame.type().isArithmetic()) {
            return null;
        }
        // A sequential scan brings all coefficients, whatever band its header names.
        boolean progressive = frame.type().isProgressive();
        boolean dc = !progressive || (scan.spectralStart() == 0 && scan.approximationHigh() == 0);
        boolean ac = progressive ? scan.spectralStart() > 0 : !frame.type().isLossless();
        if (dc && tables.dc(component.dcTable()) == null) {
            return "DC Huffman table " + component.dcTable();
        }
        return ac && tables.ac(component.acTable()) == null ? "AC Huffman table " + component.acTable() : null;
    }

    /** Whether a table that a component uses was written with 16-bit elements. */
    static boolean wideQuantization(Jpeg jpeg) {
        for (int number = 0; number < jpeg.scans().size(); number++) {
            for (ScanComponent component : jpeg.scans().get(number).components()) {
                int selector = jpeg.frame().components().get(component.index()).quantizationTable();
                @Nullable QuantizationTable table = jpeg.tables(number).quantization(selector);
                if (table != null && table.sixteenBit()) {
                    return true;
                }
            }
        }
        return false;
    }
}
