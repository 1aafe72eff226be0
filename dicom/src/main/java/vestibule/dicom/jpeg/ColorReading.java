package vestibule.dicom.jpeg;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What the components mean, why we believe it, and what a decoder needs to see to believe it too.
 *
 * <p>T.81 does not say what components are. JFIF does (T.871: one component is luminance, three are YCbCr), and so does
 * the "Adobe" APP14 segment (T.872 6.5.3: transform 0 as stored, 1 YCbCr, 2 YCCK). Where both are missing, libjpeg looks
 * at the component identifiers: 1, 2, 3 are YCbCr, the letters R, G, B are RGB, and anything else is taken for YCbCr
 * (its order of precedence, JFIF before Adobe before identifiers, is from memory).
 *
 * @param coding what the components are
 * @param evidence what says so
 * @param contradiction null, or the sentence that says which statements of the stream exclude each other
 * @param needsAdobe whether a decoder that does not see the APP14 segment would read another colour
 */
public record ColorReading(
        ColorCoding coding, Evidence evidence, @Nullable String contradiction, boolean needsAdobe) {

    /** What a reading rests on. */
    public enum Evidence {
        /** How many components there are leaves no other meaning. */
        COMPONENT_COUNT,
        /** A JFIF segment. */
        JFIF,
        /** The transform of an Adobe segment. */
        ADOBE,
        /** The component identifiers. */
        COMPONENT_IDENTIFIERS,
        /** Nothing in the stream: what decoders assume. */
        CUSTOM
    }

    static ColorReading of(Frame frame, boolean jfif, List<Adobe> adobe) {
        int[] ids = frame.components().stream().mapToInt(Component::id).toArray();
        return switch (ids.length) {
            case 1 -> new ColorReading(ColorCoding.GREY, Evidence.COMPONENT_COUNT, null, false);
            case 3 -> ofThree(spelled(ids), jfif, adobe);
            case 4 -> ofFour(adobe);
            default -> new ColorReading(ColorCoding.UNDEFINED, Evidence.COMPONENT_COUNT, null, false);
        };
    }

    private static ColorReading ofThree(ColorCoding spelled, boolean jfif, List<Adobe> adobe) {
        @Nullable String contradiction = adobeContradiction(adobe, 0, 1);
        if (jfif || !adobe.isEmpty()) {
            boolean transformed = jfif || adobe.get(adobe.size() - 1).transform() != 0;
            ColorCoding coding = transformed ? ColorCoding.YCBCR : ColorCoding.RGB;
            if (contradiction == null
                    && jfif
                    && !adobe.isEmpty()
                    && adobe.get(0).transform() == 0) {
                contradiction = "a JFIF segment says YCbCr and an Adobe segment says RGB";
            }
            if (contradiction == null && transformed && spelled == ColorCoding.RGB) {
                contradiction = "the component identifiers spell RGB and " + (jfif ? "a JFIF" : "an Adobe")
                        + " segment says YCbCr";
            }
            return new ColorReading(
                    coding,
                    jfif ? Evidence.JFIF : Evidence.ADOBE,
                    contradiction,
                    !adobe.isEmpty() && spelled != coding);
        }
        if (spelled == ColorCoding.UNDEFINED) {
            return new ColorReading(ColorCoding.YCBCR, Evidence.CUSTOM, null, false);
        }
        return new ColorReading(spelled, Evidence.COMPONENT_IDENTIFIERS, null, false);
    }

    private static ColorReading ofFour(List<Adobe> adobe) {
        if (adobe.isEmpty()) {
            return new ColorReading(ColorCoding.CMYK, Evidence.CUSTOM, null, false);
        }
        ColorCoding coding = adobe.get(adobe.size() - 1).transform() == 0 ? ColorCoding.CMYK : ColorCoding.YCCK;
        return new ColorReading(coding, Evidence.ADOBE, adobeContradiction(adobe, 0, 2), true);
    }

    private static @Nullable String adobeContradiction(List<Adobe> adobe, int first, int second) {
        for (Adobe one : adobe) {
            if (one.transform() != first && one.transform() != second) {
                return "an Adobe segment names the transform " + one.transform() + ", which does not go with the "
                        + "number of components";
            }
            if (one.transform() != adobe.get(0).transform()) {
                return "two Adobe segments name different transforms";
            }
        }
        return null;
    }

    private static ColorCoding spelled(int[] ids) {
        if (ids[0] == 'R' && ids[1] == 'G' && ids[2] == 'B') {
            return ColorCoding.RGB;
        }
        boolean counted = ids[1] == ids[0] + 1 && ids[2] == ids[0] + 2 && ids[0] <= 1;
        return counted ? ColorCoding.YCBCR : ColorCoding.UNDEFINED;
    }
}
