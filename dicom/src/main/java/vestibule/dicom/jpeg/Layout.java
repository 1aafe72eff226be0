package vestibule.dicom.jpeg;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;

/** Which block of the source stands where in the outcome of a turn, in the order the outcome is written in. */
final class Layout {
    private static final int MOST_BLOCKS_IN_UNIT = 10;

    /** The sampling factors of a component that is alone mean nothing (T.81 A.2.2), and 1x1 says so. */
    private static final Component ALONE = new Component(0, 1, 1, 0);

    private final Frame target;
    private final Plane[] planes;
    private final int[] base;
    private final int[] columnStep;
    private final int[] rowStep;

    Layout(Plane[] source, Frame target, Turn turn) {
        this.target = target;
        int count = source.length;
        planes = new Plane[count];
        base = new int[count];
        columnStep = new int[count];
        rowStep = new int[count];
        for (int component = 0; component < count; component++) {
            Plane plane = Plane.of(target, target.components().get(component));
            planes[component] = plane;
            int acrossSource = source[component].blocksWide();
            int column = turn.exchangesAxes() ? acrossSource : 1;
            int row = turn.exchangesAxes() ? 1 : acrossSource;
            columnStep[component] = turn.reversesColumns() ? -column : column;
            rowStep[component] = turn.reversesRows() ? -row : row;
            base[component] = (turn.reversesColumns() ? (plane.blocksWide() - 1) * column : 0)
                    + (turn.reversesRows() ? (plane.blocksHigh() - 1) * row : 0);
        }
    }

    /** The frame that a turn makes of another one, without what is lost at the edges. */
    static Frame turned(Frame source, Turn turn, EdgeLoss loss, int[] quantizationSelectors) {
        int columns = source.samplesPerLine() - loss.columns();
        int rows = source.lines() - loss.rows();
        boolean exchange = turn.exchangesAxes();
        List<Component> components = new ArrayList<>();
        boolean alone = source.components().size() == 1;
        for (int index = 0; index < source.components().size(); index++) {
            Component component = alone ? ALONE : source.components().get(index);
            components.add(new Component(
                    source.components().get(index).id(),
                    exchange ? component.vertical() : component.horizontal(),
                    exchange ? component.horizontal() : component.vertical(),
                    quantizationSelectors[index]));
        }
        return new Frame(FrameType.BASELINE, 8, exchange ? columns : rows, exchange ? rows : columns, components);
    }

    /** The components of each scan: all in one, unless an MCU would have more than ten blocks (T.81 B.2.3). */
    List<int[]> scans() {
        int count = planes.length;
        int blocks = 0;
        int[] all = new int[count];
        List<int[]> single = new ArrayList<>();
        for (int component = 0; component < count; component++) {
            blocks += planes[component].horizontal() * planes[component].vertical();
            all[component] = component;
            single.add(new int[] {component});
        }
        return blocks <= MOST_BLOCKS_IN_UNIT || count == 1 ? List.of(all) : single;
    }

    /** Has the blocks of the source forgotten that a turn leaves off. */
    void keepOnlyUsed(Blocks[] source, boolean exchangesAxes) {
        for (int component = 0; component < planes.length; component++) {
            Plane plane = planes[component];
            source[component].keepOnly(
                    exchangesAxes ? plane.blocksHigh() : plane.blocksWide(),
                    exchangesAxes ? plane.blocksWide() : plane.blocksHigh());
        }
    }

    /** How many blocks of a component are only there to make up whole units. */
    int paddingBlocks(int component) {
        if (scans().get(0).length == 1) {
            return 0;
        }
        Plane plane = planes[component];
        int unitsWide = Frame.ceilingOf(target.samplesPerLine(), 8 * target.maxHorizontal());
        int unitsHigh = Frame.ceilingOf(target.lines(), 8 * target.maxVertical());
        return unitsWide * unitsHigh * plane.horizontal() * plane.vertical() - plane.blocks();
    }

    /** Visits the blocks of one scan by component of the frame and block of the source, -1 beyond the edge. */
    void visit(int[] scan, int restartInterval, BlockVisitor visitor) throws IOException {
        if (scan.length == 1) {
            visitBlocks(scan[0], restartInterval, visitor);
            return;
        }
        int unitsWide = Frame.ceilingOf(target.samplesPerLine(), 8 * target.maxHorizontal());
        int unitsHigh = Frame.ceilingOf(target.lines(), 8 * target.maxVertical());
        int unitsLeft = restartInterval;
        visitor.restart();
        for (int row = 0; row < unitsHigh; row++) {
            for (int column = 0; column < unitsWide; column++) {
                if (restartInterval > 0 && unitsLeft-- == 0) {
                    visitor.endInterval();
                    visitor.restart();
                    unitsLeft = restartInterval - 1;
                }
                for (int component : scan) {
                    visitUnit(component, column, row, visitor);
                }
            }
        }
    }

    private void visitUnit(int component, int unitColumn, int unitRow, BlockVisitor visitor) throws IOException {
        Plane plane = planes[component];
        int firstColumn = unitColumn * plane.horizontal();
        int firstRow = unitRow * plane.vertical();
        int wide = Math.min(plane.horizontal(), plane.blocksWide() - firstColumn);
        int high = Math.min(plane.vertical(), plane.blocksHigh() - firstRow);
        int first = source(component, firstColumn, firstRow);
        for (int row = 0; row < plane.vertical(); row++) {
            for (int column = 0; column < plane.horizontal(); column++) {
                boolean inside = column < wide && row < high;
                visitor.visit(
                        component, inside ? first + column * columnStep[component] + row * rowStep[component] : -1);
            }
        }
    }

    private void visitBlocks(int component, int restartInterval, BlockVisitor visitor) throws IOException {
        Plane plane = planes[component];
        int unitsLeft = restartInterval;
        visitor.restart();
        for (int row = 0; row < plane.blocksHigh(); row++) {
            for (int column = 0; column < plane.blocksWide(); column++) {
                if (restartInterval > 0 && unitsLeft-- == 0) {
                    visitor.endInterval();
                    visitor.restart();
                    unitsLeft = restartInterval - 1;
                }
                visitor.visit(component, source(component, column, row));
            }
        }
    }

    private int source(int component, int column, int row) {
        return base[component] + column * columnStep[component] + row * rowStep[component];
    }
}
