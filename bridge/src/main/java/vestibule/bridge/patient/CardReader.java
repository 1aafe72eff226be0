package vestibule.bridge.patient;

import com.google.zxing.Binarizer;
import com.google.zxing.BinaryBitmap;
import com.google.zxing.DecodeHintType;
import com.google.zxing.LuminanceSource;
import com.google.zxing.NotFoundException;
import com.google.zxing.ReaderException;
import com.google.zxing.Result;
import com.google.zxing.ResultPoint;
import com.google.zxing.common.GlobalHistogramBinarizer;
import com.google.zxing.common.HybridBinarizer;
import com.google.zxing.qrcode.QRCodeReader;
import com.google.zxing.qrcode.detector.FinderPattern;
import java.io.IOException;
import java.nio.file.Path;
import java.util.HashSet;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;

/** Looks for a patient card in a photograph: a QR code with our own text, or with nothing but a patient id. */
public final class CardReader {

    /**
     * Small first: that is quick, and a code that fills the frame is not found at all where one of its squares is wider than about ten
     * pixels (measured). Larger for a card held far away.
     */
    private static final int[] EDGES = {500, 800, 1_200, 2_000, 3_000};

    /** Between those, for a code that was found and not decoded; its squares fall otherwise on the pixels there. */
    private static final int[] BETWEEN = {640, 1_000, 1_600, 2_500};

    private static final int LARGEST = EDGES[EDGES.length - 1];
    private static final int BORDER = 24;
    private static final int LONGEST_ID = 64;

    /** More codes than anybody lays beside a card; then a person looks. */
    private static final int MOST_CODES = 8;

    /** The edge of a code is 3.5 squares from the middle of a corner mark, and four more are left white around it. */
    private static final double BEYOND = 6;

    /** Between the middles of two marks of the smallest code. */
    private static final double FEWEST = 14;

    private static final Map<DecodeHintType, Object> HINTS =
            Map.of(DecodeHintType.TRY_HARDER, true, DecodeHintType.CHARACTER_SET, "UTF-8");

    /** What is in a frame. */
    public sealed interface Reading {}

    /** No code that concerns us: a photograph. */
    public record Nothing() implements Reading {}

    /** A card of ours that is broken, of another version or not sharp enough. */
    public record Unreadable() implements Reading {}

    /**
     * A card.
     *
     * @param who whom it names
     * @param mirrored whether the frame shows it mirrored
     */
    public record Card(Identity who, boolean mirrored) implements Reading {}

    /**
     * A code with a text of no form of ours.
     *
     * @param text the text, at most 64 characters
     * @param mirrored whether the frame shows it mirrored
     */
    public record Text(String text, boolean mirrored) implements Reading {}

    /**
     * Looks at a photograph. A code that is found and cannot be decoded counts as a card that cannot be read, since taking it for a
     * photograph would file what follows under the patient before; so does one of which two corner marks are plainly there and the third is
     * not, as where a card is cropped; and so do two cards in one frame. Most photographs have no two corner marks, which is told quickly.
     *
     * @throws IOException if the file cannot be read
     */
    public Reading read(Path photograph) throws IOException {
        Optional<Luminance> picture = Luminance.read(photograph);
        return picture.isEmpty() ? new Nothing() : read(picture.get());
    }

    Reading read(Luminance picture) {
        CornerMarks marks = CornerMarks.in(quickLook(picture));
        if (!marks.maybe()) {
            return new Nothing();
        }
        Reading found = search(picture);
        return found instanceof Nothing && marks.plainly() ? new Unreadable() : found;
    }

    /**
     * Tells from a picture at half its size whether there can be a card in it.
     *
     * @param half how bright it is, eight bits for each sample, line by line; not changed
     * @return that there is nothing, or empty where {@link #read(Path)} has to look: where there may be a card, and in smaller pictures,
     *     whose half is too coarse to tell
     */
    public static Optional<Reading> glance(int width, int height, byte[] half) {
        if (2 * Math.max(width, height) < LARGEST) {
            return Optional.empty();
        }
        boolean maybe = CornerMarks.in(new Luminance(width, height, half).bordered(BORDER))
                .maybe();
        return maybe ? Optional.empty() : Optional.of(new Nothing());
    }

    /** In half its size a large picture shows marks as small as the search in its largest size can decode, in half the time. */
    static Luminance quickLook(Luminance picture) {
        return picture.longestEdge() >= LARGEST ? picture.halved().bordered(BORDER) : picture.scaled(LARGEST, BORDER);
    }

    /**
     * The search itself, in every size. A reader for one code returns whichever of several it meets first, so what was read is whitened and
     * the rest searched once more: with a second card in the frame, as where the next patient's was laid beside the last one's, nobody can
     * tell which of them the photographs are of.
     */
    static Reading search(Luminance picture) {
        Set<Reading> read = new HashSet<>();
        Search search = new Search(picture);
        Optional<Hit> hit = search.everywhere();
        boolean broken = hit.isEmpty() && search.code;
        Luminance rest = picture;
        for (int codes = 1; hit.isPresent() && !broken; codes++) {
            read.add(hit.get().reading);
            rest = hit.get().whitenedIn(rest);
            CornerMarks marks = CornerMarks.in(quickLook(rest));
            search = new Search(rest);
            hit = marks.maybe() ? search.everywhere() : Optional.empty();
            broken = codes == MOST_CODES || (hit.isEmpty() && (search.code || marks.plainly()));
        }
        read.remove(new Nothing());
        if (broken || read.size() > 1) {
            return new Unreadable();
        }
        return read.stream().findFirst().orElseGet(Nothing::new);
    }

    /**
     * A code that was read.
     *
     * @param origin the middle of its corner mark at the top left, in the picture it was read in
     * @param right that of the one at the top right
     * @param below that of the one at the bottom left
     * @param columns how wide that picture was without its border
     */
    private record Hit(Reading reading, ResultPoint origin, ResultPoint right, ResultPoint below, int columns) {

        /** The picture without this code: a little more than its own edge, which is half a corner mark from the middle of one. */
        Luminance whitenedIn(Luminance picture) {
            double across = BEYOND / squares(origin, right);
            double down = BEYOND / squares(origin, below);
            double[] xs = new double[4];
            double[] ys = new double[4];
            for (int corner = 0; corner < 4; corner++) {
                double x = corner == 1 || corner == 2 ? 1 + across : -across;
                double y = corner >= 2 ? 1 + down : -down;
                xs[corner] = place(ResultPoint::getX, x, y) * picture.width() / columns;
                ys[corner] = place(ResultPoint::getY, x, y) * picture.width() / columns;
            }
            return picture.without(xs, ys);
        }

        private double place(ToDoubleFunction<ResultPoint> axis, double x, double y) {
            double from = axis.applyAsDouble(origin);
            return from + x * (axis.applyAsDouble(right) - from) + y * (axis.applyAsDouble(below) - from) - BORDER;
        }

        /** How many squares of the code lie between two of its marks; those of the smallest code where the reader does not say. */
        private static double squares(ResultPoint one, ResultPoint other) {
            return one instanceof FinderPattern mark
                    ? Math.max(FEWEST, ResultPoint.distance(one, other) / mark.getEstimatedModuleSize())
                    : FEWEST;
        }
    }

    private static final class Search {

        private final Luminance picture;

        /** Whether a code was found, though it could not be decoded. */
        private boolean code;

        Search(Luminance picture) {
            this.picture = picture;
        }

        Optional<Hit> everywhere() {
            Optional<Hit> found = in(EDGES, HybridBinarizer::new);
            return found.isEmpty() && code
                    ? in(BETWEEN, HybridBinarizer::new).or(() -> in(EDGES, GlobalHistogramBinarizer::new))
                    : found;
        }

        private Optional<Hit> in(int[] edges, Function<LuminanceSource, Binarizer> blackAndWhite) {
            for (int edge : edges) {
                if (edge != edges[0] && edge >= 2 * picture.longestEdge()) {
                    break;
                }
                Luminance scaled = picture.scaled(edge, BORDER);
                try {
                    Result result =
                            new QRCodeReader().decode(new BinaryBitmap(blackAndWhite.apply(scaled.source())), HINTS);
                    return Optional.of(hit(result, scaled.width() - 2 * BORDER));
                } catch (ReaderException noneOrUndecodable) {
                    code |= !(noneOrUndecodable instanceof NotFoundException);
                }
            }
            return Optional.empty();
        }
    }

    private static Hit hit(Result result, int columns) {
        ResultPoint[] marks = result.getResultPoints();
        return new Hit(reading(result), marks[1], marks[2], marks[0], columns);
    }

    private static Reading reading(Result result) {
        String text = result.getText();
        boolean mirrored = mirrored(result.getResultPoints());
        if (CardText.claimsToBe(text)) {
            Optional<Identity> who = CardText.read(text);
            return who.isPresent() ? new Card(who.get(), mirrored) : new Unreadable();
        }
        return text.length() <= LONGEST_ID ? new Text(text.strip(), mirrored) : new Nothing();
    }

    /**
     * The three corner marks come as bottom left, top left, top right; the way round they go tells a code from its mirror image. The
     * reader itself reads both.
     */
    private static boolean mirrored(ResultPoint[] points) {
        float ax = points[0].getX() - points[1].getX();
        float ay = points[0].getY() - points[1].getY();
        float bx = points[2].getX() - points[1].getX();
        float by = points[2].getY() - points[1].getY();
        return ax * by - ay * bx > 0;
    }
}
