package vestibule.dicom.jpeg;

import java.io.IOException;

/** Goes through the units of one scan of a source: MCUs when interleaved, else single blocks (T.81 A.2). */
final class ScanUnits {
    private final Frame frame;
    private final int restartInterval;
    private final EntropyInput input;
    private final Blocks[] blocks;
    private final BlockVisitor visitor;
    private int unitsLeft;

    ScanUnits(Frame frame, int restartInterval, EntropyInput input, Blocks[] blocks, BlockVisitor visitor) {
        this.frame = frame;
        this.restartInterval = restartInterval;
        this.input = input;
        this.blocks = blocks;
        this.visitor = visitor;
    }

    void read() throws IOException {
        unitsLeft = restartInterval;
        visitor.restart();
        if (blocks.length == 1) {
            readBlocks();
        } else {
            readUnits();
        }
        visitor.endInterval();
        input.endInterval();
    }

    private void readBlocks() throws IOException {
        Blocks only = blocks[0];
        for (int row = 0; row < only.plane.blocksHigh(); row++) {
            for (int column = 0; column < only.plane.blocksWide(); column++) {
                beginUnit();
                visitor.visit(0, only.index(column, row));
            }
        }
    }

    private void readUnits() throws IOException {
        int unitsWide = Frame.ceilingOf(frame.samplesPerLine(), 8 * frame.maxHorizontal());
        int unitsHigh = Frame.ceilingOf(frame.lines(), 8 * frame.maxVertical());
        for (int row = 0; row < unitsHigh; row++) {
            for (int column = 0; column < unitsWide; column++) {
                beginUnit();
                for (int component = 0; component < blocks.length; component++) {
                    readUnit(component, column, row);
                }
            }
        }
    }

    private void readUnit(int component, int unitColumn, int unitRow) throws IOException {
        Blocks of = blocks[component];
        Plane plane = of.plane;
        for (int row = unitRow * plane.vertical(); row < (unitRow + 1) * plane.vertical(); row++) {
            int first = unitColumn * plane.horizontal();
            for (int column = first; column < first + plane.horizontal(); column++) {
                visitor.visit(component, of.index(column, row));
            }
        }
    }

    private void beginUnit() throws IOException {
        if (restartInterval == 0) {
            return;
        }
        if (unitsLeft == 0) {
            beginInterval();
            unitsLeft = restartInterval;
        }
        unitsLeft--;
    }

    private void beginInterval() throws IOException {
        visitor.endInterval();
        input.endInterval();
        input.nextInterval();
        visitor.restart();
    }
}
