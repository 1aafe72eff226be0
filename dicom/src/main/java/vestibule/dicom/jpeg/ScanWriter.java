package vestibule.dicom.jpeg;

import java.io.IOException;
import java.util.Arrays;

/** Writes the entropy-coded data of one scan: DC differences anew, AC codes from the store (T.81 F.1.2). */
final class ScanWriter implements BlockVisitor {
    private final BitOutput output;
    private final Blocks[] blocks;
    private final AcStore[] stores;
    private final int[] predictors;
    private final HuffmanCoder[] dc;

    /** For each component the code of a block without AC coefficients. */
    private final int[] endOfBlock;

    private int restarts;

    ScanWriter(BitOutput output, TablePlan tables, Blocks[] blocks, AcStore[] stores) {
        this.output = output;
        this.blocks = blocks;
        this.stores = stores;
        this.predictors = new int[blocks.length];
        this.dc = new HuffmanCoder[blocks.length];
        this.endOfBlock = new int[blocks.length];
        for (int component = 0; component < blocks.length; component++) {
            dc[component] = new HuffmanCoder(ScanTables.present(tables.dc(component)));
            endOfBlock[component] = new HuffmanCoder(ScanTables.present(tables.ac(component))).code(0);
        }
    }

    @Override
    public void visit(int component, int blockIndex) throws IOException {
        if (blockIndex < 0) {
            writeDc(component, 0);
            output.put(endOfBlock[component] >>> 5, endOfBlock[component] & 0x1F);
            return;
        }
        Blocks of = blocks[component];
        int value = of.dc[blockIndex];
        writeDc(component, value - predictors[component]);
        predictors[component] = value;
        stores[component].copy(of.ac[blockIndex], output);
    }

    private void writeDc(int component, int difference) throws IOException {
        int category = BaselineWriter.category(difference);
        int code = dc[component].code(category);
        int extra = (difference < 0 ? difference - 1 : difference) & ((1 << category) - 1);
        output.put((long) (code >>> 5) << category | extra, (code & 0x1F) + category);
    }

    @Override
    public void restart() {
        Arrays.fill(predictors, 0);
    }

    @Override
    public void endInterval() throws IOException {
        output.alignWithOnes();
        output.writeShort(0xFF00 | Marker.RST0 | (restarts & 7));
        restarts++;
    }
}
