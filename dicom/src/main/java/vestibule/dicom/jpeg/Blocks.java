package vestibule.dicom.jpeg;

/** What is kept of one component while a picture is laid down anew: DC values, and where the AC codes lie. */
final class Blocks {
    /**
     * DC is eight times the mean of samples from -128 to 127, before quantization (T.81 A.3.3). Two values within this
     * range differ by at most 11 bits, which is what a baseline picture can write (T.81 Table F.1).
     */
    private static final int LEAST_DC = -1024;

    private static final int LARGEST_DC = 1023;

    final Plane plane;
    final short[] dc;
    final long[] ac;

    /** The DC value of the block before (T.81 F.1.1.5.1). */
    int predictor;

    private final int component;
    private int keptWide;
    private int keptHigh;

    Blocks(Plane plane, int component, boolean keeps) {
        this.plane = plane;
        this.component = component;
        this.keptWide = plane.blocksWide();
        this.keptHigh = plane.blocksHigh();
        this.dc = new short[keeps ? plane.blocks() : 0];
        this.ac = new long[keeps ? plane.blocks() : 0];
    }

    /** From now on the blocks right of and below these are read and forgotten. */
    void keepOnly(int wide, int high) {
        keptWide = wide;
        keptHigh = high;
    }

    /** Index of a block in raster order, or -1 where it is not kept or not part of the component at all. */
    int index(int column, int row) {
        return column < keptWide && row < keptHigh ? row * plane.blocksWide() + column : -1;
    }

    /** Whether adding this difference leaves the range that 8-bit samples can reach. */
    boolean predictionOverflows(int difference) {
        predictor += difference;
        return isOutOfRange(predictor);
    }

    static boolean isOutOfRange(int dc) {
        return dc > LARGEST_DC || dc < LEAST_DC;
    }

    /** Index of the component in the frame. */
    int component() {
        return component;
    }

    /** Names a block for a person. */
    String where(int index) {
        if (index < 0) {
            return "a block beyond the edge of component " + (component + 1);
        }
        return "the block in row " + (index / plane.blocksWide() + 1) + " and column "
                + (index % plane.blocksWide() + 1) + " of component " + (component + 1);
    }
}
