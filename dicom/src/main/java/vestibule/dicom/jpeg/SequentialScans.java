package vestibule.dicom.jpeg;

import java.io.IOException;
import java.nio.channels.SeekableByteChannel;

/** Hands every block of the scans of a sequential picture to a reader, in the order of the stream (T.81 A.2, F.2.1). */
final class SequentialScans {
    private final SeekableByteChannel channel;
    private final Jpeg jpeg;
    private long surplusBytes;

    SequentialScans(SeekableByteChannel channel, Jpeg jpeg) {
        this.channel = channel;
        this.jpeg = jpeg;
    }

    /** Reads all scans; there must be blocks for every component, and all tables. */
    void read(Blocks[] components, BlockReader reader) throws IOException {
        surplusBytes = 0;
        for (int number = 0; number < jpeg.scans().size(); number++) {
            Scan scan = jpeg.scans().get(number);
            EntropyInput input = new EntropyInput(channel, scan.data(), number + 1);
            ScanUnits units = units(scan, jpeg.tables(number), components, input, reader);
            units.read();
            surplusBytes += input.surplusBytes();
        }
    }

    /** Whole bytes after the last unit of a scan or an interval, in the last reading. */
    long surplusBytes() {
        return surplusBytes;
    }

    private ScanUnits units(Scan scan, TableState tables, Blocks[] components, EntropyInput input, BlockReader reader) {
        int count = scan.components().size();
        HuffmanDecoder[] dc = new HuffmanDecoder[count];
        HuffmanDecoder[] ac = new HuffmanDecoder[count];
        Blocks[] blocks = new Blocks[count];
        for (int index = 0; index < count; index++) {
            ScanComponent component = scan.components().get(index);
            blocks[index] = components[component.index()];
            dc[index] = HuffmanDecoder.dc(ScanTables.present(tables.dc(component.dcTable())));
            ac[index] = HuffmanDecoder.ac(ScanTables.present(tables.ac(component.acTable())), reader.arrangement());
        }
        return new ScanUnits(jpeg.frame(), scan.restartInterval(), input, blocks, new BlockVisitor() {
            @Override
            public void visit(int component, int blockIndex) throws IOException {
                reader.read(input, dc[component], ac[component], blocks[component], blockIndex);
            }

            @Override
            public void restart() {
                for (Blocks component : blocks) {
                    component.predictor = 0;
                }
            }
        });
    }
}
