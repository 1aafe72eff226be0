package vestibule.dicom.jpeg;

import java.io.IOException;
import java.util.Arrays;
import java.util.List;

/** Writes a baseline sequential picture (T.81 B.2.1, F.1) from blocks whose AC codes are in a store. */
final class BaselineWriter {
    private final Frame frame;
    private final Layout layout;
    private final TablePlan tables;
    private final QuantizationPlan quantization;
    private final int restartInterval;

    BaselineWriter(Frame frame, Layout layout, TablePlan tables, QuantizationPlan quantization, int restartInterval) {
        this.frame = frame;
        this.layout = layout;
        this.tables = tables;
        this.quantization = quantization;
        this.restartInterval = restartInterval;
    }

    /** Counts the categories of DC differences for each table slot, in the order they will be written in. */
    int[][] countDc(Blocks[] blocks) throws IOException {
        int[][] counts = new int[2][256];
        for (int[] scan : layout.scans()) {
            layout.visit(scan, restartInterval, new BlockVisitor() {
                private final int[] predictors = new int[blocks.length];

                @Override
                public void visit(int component, int blockIndex) {
                    int dc = blockIndex < 0 ? predictors[component] : blocks[component].dc[blockIndex];
                    int difference = dc - predictors[component];
                    counts[tables.slot(component)][category(difference)]++;
                    predictors[component] = dc;
                }

                @Override
                public void restart() {
                    Arrays.fill(predictors, 0);
                }
            });
        }
        return counts;
    }

    static int category(int difference) {
        return 32 - Integer.numberOfLeadingZeros(Math.abs(difference));
    }

    /** Writes everything from SOI to EOI; {@code metadata} are whole segments that go right after SOI. */
    void write(BitOutput output, List<byte[]> metadata, Blocks[] blocks, AcStore[] stores) throws IOException {
        output.writeShort(0xFF00 | Marker.SOI);
        for (byte[] segment : metadata) {
            output.write(segment);
        }
        writeQuantizationTables(output);
        writeFrameHeader(output);
        writeHuffmanTables(output);
        if (restartInterval > 0) {
            header(output, Marker.DRI, 2);
            output.writeShort(restartInterval);
        }
        for (int[] scan : layout.scans()) {
            writeScanHeader(output, scan);
            ScanWriter writer = new ScanWriter(output, tables, blocks, stores);
            layout.visit(scan, restartInterval, writer);
            output.alignWithOnes();
        }
        output.writeShort(0xFF00 | Marker.EOI);
    }

    private static void header(BitOutput output, int marker, int payloadLength) throws IOException {
        output.writeShort(0xFF00 | marker);
        output.writeShort(payloadLength + 2);
    }

    private void writeQuantizationTables(BitOutput output) throws IOException {
        boolean[] written = new boolean[4];
        for (Component component : frame.components()) {
            int slot = component.quantizationTable();
            if (!written[slot]) {
                written[slot] = true;
                QuantizationTable table = ScanTables.present(quantization.table(slot));
                header(output, Marker.DQT, 65);
                output.writeByte(slot);
                for (int index = 0; index < 64; index++) {
                    output.writeByte(table.element(index));
                }
            }
        }
    }

    private void writeFrameHeader(BitOutput output) throws IOException {
        header(output, Marker.SOF0, 6 + 3 * frame.components().size());
        output.writeByte(frame.precision());
        output.writeShort(frame.lines());
        output.writeShort(frame.samplesPerLine());
        output.writeByte(frame.components().size());
        for (Component component : frame.components()) {
            output.writeByte(component.id());
            output.writeByte(component.horizontal() << 4 | component.vertical());
            output.writeByte(component.quantizationTable());
        }
    }

    private void writeHuffmanTables(BitOutput output) throws IOException {
        boolean[] written = new boolean[2];
        for (int component = 0; component < frame.components().size(); component++) {
            int slot = tables.slot(component);
            if (!written[slot]) {
                written[slot] = true;
                writeHuffmanTable(output, slot, ScanTables.present(tables.dc(component)));
                writeHuffmanTable(output, 0x10 | slot, ScanTables.present(tables.ac(component)));
            }
        }
    }

    private static void writeHuffmanTable(BitOutput output, int classAndSlot, HuffmanTable table) throws IOException {
        header(output, Marker.DHT, 1 + HuffmanTable.LONGEST_CODE + table.size());
        output.writeByte(classAndSlot);
        for (int length = 1; length <= HuffmanTable.LONGEST_CODE; length++) {
            output.writeByte(table.count(length));
        }
        for (int index = 0; index < table.size(); index++) {
            output.writeByte(table.symbol(index));
        }
    }

    private void writeScanHeader(BitOutput output, int[] scan) throws IOException {
        header(output, Marker.SOS, 4 + 2 * scan.length);
        output.writeByte(scan.length);
        for (int component : scan) {
            output.writeByte(frame.components().get(component).id());
            output.writeByte(tables.slot(component) << 4 | tables.slot(component));
        }
        output.writeByte(0);
        output.writeByte(63);
        output.writeByte(0);
    }
}
