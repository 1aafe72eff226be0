package vestibule.dicom.jpeg;

import java.util.List;
import java.util.stream.Collectors;

/**
 * A frame header (T.81 B.2.2).
 *
 * @param type the coding process
 * @param precision bits of a sample
 * @param lines number of lines Y, above zero
 * @param samplesPerLine number of samples per line X, above zero
 * @param components in the order of the header
 */
public record Frame(FrameType type, int precision, int lines, int samplesPerLine, List<Component> components) {
    /** Keeps its own copy of the list. */
    public Frame {
        components = List.copyOf(components);
    }

    /** The largest horizontal sampling factor of the components. */
    public int maxHorizontal() {
        return components.stream().mapToInt(Component::horizontal).max().orElse(1);
    }

    /** The largest vertical sampling factor of the components. */
    public int maxVertical() {
        return components.stream().mapToInt(Component::vertical).max().orElse(1);
    }

    /** Lines times samples per line. */
    public long pixels() {
        return (long) lines * samplesPerLine;
    }

    /** Samples per line of one component, {@code ceil(X * H / Hmax)} (T.81 A.1.1). */
    int columnsOf(Component component) {
        return ceilingOf((long) samplesPerLine * component.horizontal(), maxHorizontal());
    }

    /** Lines of one component, {@code ceil(Y * V / Vmax)} (T.81 A.1.1). */
    int linesOf(Component component) {
        return ceilingOf((long) lines * component.vertical(), maxVertical());
    }

    static int ceilingOf(long dividend, int divisor) {
        return Math.toIntExact((dividend + divisor - 1) / divisor);
    }

    /**
     * The sampling in the usual short form ({@code 4:2:0}), {@code grey HxV} for one component, or all factors
     * ({@code 2x2,2x1,1x2}) where there is no short form.
     */
    public String sampling() {
        String factors = components.stream()
                .map(component -> component.horizontal() + "x" + component.vertical())
                .collect(Collectors.joining(","));
        if (components.size() == 1) {
            return "grey " + factors;
        }
        return switch (factors) {
            case "1x1,1x1,1x1" -> "4:4:4";
            case "2x1,1x1,1x1" -> "4:2:2";
            case "2x2,1x1,1x1" -> "4:2:0";
            case "1x2,1x1,1x1" -> "4:4:0";
            case "4x1,1x1,1x1" -> "4:1:1";
            case "4x2,1x1,1x1" -> "4:1:0";
            default -> factors;
        };
    }
}
