package vestibule.dicom.jpeg;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Whether a stream may go, coefficient for coefficient, into a DICOM object of the transfer syntax JPEG Baseline
 * (PS3.5 8.2.1, A.4.1; PS3.3 C.8.12.1.1.1 for colour): an empty list of hindrances says yes.
 *
 * @param hindrances every reason against, the coding process first
 */
public record Fitness(List<Hindrance> hindrances) {
    /** Keeps its own copy of the list. */
    public Fitness {
        hindrances = List.copyOf(hindrances);
    }

    /** Whether nothing stands against it. */
    public boolean fits() {
        return hindrances.isEmpty();
    }

    /** Whether nothing stands against it once the coefficients are coded again as baseline. */
    public boolean fitsOnceRecoded() {
        return hindrances.stream().allMatch(hindrance -> hindrance.reason().curedByRecoding());
    }

    /** Whether this reason is among the hindrances. */
    public boolean hinderedBy(Hindrance.Reason reason) {
        return hindrances.stream().anyMatch(hindrance -> hindrance.reason() == reason);
    }

    static Fitness of(Jpeg jpeg) {
        List<Hindrance> found = new ArrayList<>();
        addProcess(found, jpeg);
        addColor(found, jpeg.color());
        addTables(found, jpeg);
        if (!jpeg.conformingScans()) {
            found.add(new Hindrance(
                    Hindrance.Reason.NONCONFORMING_SCAN,
                    "a scan header has values of Ss, Se, Ah, Al or table selectors that T.81 B.2.3 does not allow for "
                            + "this process"));
        }
        return new Fitness(found);
    }

    private static void addProcess(List<Hindrance> found, Jpeg jpeg) {
        Frame frame = jpeg.frame();
        String named = "the picture is " + frame.type().words() + " (SOF"
                + frame.type().number() + ")";
        String expected = ", JPEG Baseline takes SOF0 only (PS3.5 A.4.1)";
        if (jpeg.hierarchical()) {
            found.add(new Hindrance(
                    Hindrance.Reason.HIERARCHICAL,
                    "the picture is hierarchical, with " + jpeg.frameCount() + " frames" + expected));
        }
        if (frame.type().isArithmetic()) {
            found.add(new Hindrance(Hindrance.Reason.ARITHMETIC, named + expected));
        }
        if (frame.type().isLossless()) {
            found.add(new Hindrance(Hindrance.Reason.LOSSLESS, named + expected));
        } else if (frame.precision() != 8) {
            found.add(new Hindrance(
                    Hindrance.Reason.TWELVE_BIT,
                    "the picture has " + frame.precision() + " bits a sample, JPEG Baseline takes 8 (PS3.5 8.2.1)"));
        }
        if (frame.type() == FrameType.PROGRESSIVE) {
            found.add(new Hindrance(Hindrance.Reason.PROGRESSIVE, named + expected));
        }
        if (frame.type() == FrameType.EXTENDED) {
            found.add(new Hindrance(Hindrance.Reason.EXTENDED, named + expected));
        }
    }

    private static void addColor(List<Hindrance> found, ColorReading color) {
        @Nullable String contradiction = color.contradiction();
        if (contradiction != null) {
            found.add(new Hindrance(
                    Hindrance.Reason.COLOR_CONTRADICTION, contradiction + ", so its colours cannot be vouched for"));
        }
        String expected = ", one grey or three YCbCr components were expected (PS3.3 C.8.12.1.1.1, PS3.5 8.2.1)";
        switch (color.coding()) {
            case RGB ->
                found.add(new Hindrance(
                        Hindrance.Reason.RGB_CODED, "the components are RGB without a transform" + expected));
            case CMYK -> found.add(new Hindrance(Hindrance.Reason.CMYK, "the four components are CMYK" + expected));
            case YCCK -> found.add(new Hindrance(Hindrance.Reason.YCCK, "the four components are YCCK" + expected));
            case UNDEFINED ->
                found.add(new Hindrance(
                        Hindrance.Reason.COMPONENT_COUNT, "no rule says what the frame's components mean" + expected));
            case GREY, YCBCR -> {}
        }
    }

    private static void addTables(List<Hindrance> found, Jpeg jpeg) {
        @Nullable String missing = ScanTables.missing(jpeg);
        if (missing != null) {
            found.add(new Hindrance(
                    Hindrance.Reason.MISSING_TABLES,
                    missing + "; a stream that carries its own tables was expected (interchange format, PS3.5 A.4.1)"));
        }
        if (jpeg.frame().type() == FrameType.BASELINE && ScanTables.wideQuantization(jpeg)) {
            found.add(new Hindrance(
                    Hindrance.Reason.SIXTEEN_BIT_QUANTIZATION,
                    "a quantization table has 16-bit elements, a baseline picture takes 8-bit ones (T.81 B.2.4.1)"));
        }
    }
}
