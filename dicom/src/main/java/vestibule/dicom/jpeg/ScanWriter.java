package vestibule.dicom.jpeg;

import java.io.IOException;

/** Writes the entropy-coded data of one scan: DC differences anew, AC codes from the store (T.81 F.1.2). */
final class ScanWriter implements BlockVisitor {
    private final BitOutput output;
    private final Part[] parts;
    private int restarts;

    /** What is written of one component, and from where. */
    private static final class Part {
        private final short[] dc;
        private final long[] ac;
        private final byte[] store;
        private final HuffmanCoder dcCodes;

        /** The code of a block without AC coefficients. */
        private final int endOfBlock;

        private int predictor;

        Part(Blocks blocks, AcStore store, HuffmanTable dcTable, HuffmanTable acTable) {
            this.dc = blocks.dc;
            this.ac = blocks.ac;
            this.store = store.bytes();
            this.dcCodes = new HuffmanCoder(dcTable);
            this.endOfBlock = new HuffmanCoder(acTable).code(0);
        }
    }

    ScanWriter(BitOutput output, TablePlan tables, Blocks[] blocks, AcStore[] stores) {
        this.output = output;
        this.parts = new Part[blocks.length];
        for (int component = 0; component < blocks.length; component++) {
            parts[component] = new Part(
                    blocks[component],
                    stores[component],
                    ScanTables.present(tables.dc(component)),
                    ScanTables.present(tables.ac(component)));
        }
    }

    @Override
    public void visit(int component, int blockIndex) throws IOException {
        Part part = parts[component];
        int value = blockIndex < 0 ? part.predictor : part.dc[blockIndex];
        int difference = value - part.predictor;
        part.predictor = value;
        int category = BaselineWriter.category(difference);
        int code = part.dcCodes.code(category);
        int extra = (difference < 0 ? difference - 1 : difference) & ((1 << category) - 1);
        int bits = code >>> 5 | extra;
        int count = code & 0x1F;
        if (blockIndex < 0) {
            output.put(bits, count);
            output.put(part.endOfBlock >>> 5, part.endOfBlock & 0x1F);
        } else {
            long reference = part.ac[blockIndex];
            output.put(bits, count, part.store, AcStore.from(reference), AcStore.length(reference));
        }
    }

    @Override
    public void restart() {
        for (Part part : parts) {
            part.predictor = 0;
        }
    }

    @Override
    public void endInterval() throws IOException {
        output.alignWithOnes();
        output.writeShort(0xFF00 | Marker.RST0 | (restarts & 7));
        restarts++;
    }
}
