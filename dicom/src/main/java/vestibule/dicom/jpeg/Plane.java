package vestibule.dicom.jpeg;

/** The blocks of one component: how many, and how they sit in an MCU (T.81 A.1.1, A.2). */
record Plane(int blocksWide, int blocksHigh, int horizontal, int vertical) {
    static Plane of(Frame frame, Component component) {
        return new Plane(
                Frame.ceilingOf(frame.columnsOf(component), 8),
                Frame.ceilingOf(frame.linesOf(component), 8),
                component.horizontal(),
                component.vertical());
    }

    int blocks() {
        return Math.multiplyExact(blocksWide, blocksHigh);
    }
}
