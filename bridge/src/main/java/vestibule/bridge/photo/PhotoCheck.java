package vestibule.bridge.photo;

import java.io.IOException;
import java.nio.channels.SeekableByteChannel;
import java.nio.file.Files;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import vestibule.dicom.jpeg.BlockLuminance;
import vestibule.dicom.jpeg.ColorCoding;
import vestibule.dicom.jpeg.Jpeg;
import vestibule.dicom.jpeg.JpegFormatException;
import vestibule.dicom.jpeg.Turn;

/**
 * A look at how a photograph came out, as somebody would look at it on the back of the camera: soft, burnt out, dark, or the frame held
 * the other way than usual. Only hints to a person who may take it again while the patient is there; nothing is refused for them, and
 * nothing is said of what the picture shows. The bounds are common practice of this house, no source.
 *
 * @param sharpness how much of the contrast of the strongest edges is finer than half a wave in eight pixels, 0 to 1
 * @param burntOut share of the picture that is white without drawing, 0 to 1
 * @param nearlyBlack share of the picture that is nearly black, 0 to 1
 * @param brightest how bright the lightest hundredth of the picture is at least, 0 to 255
 * @param shape how the frame lies once the picture is upright
 */
public record PhotoCheck(double sharpness, double burntOut, double nearlyBlack, int brightest, FrameShape shape) {

    /** An edge blurred by more than about three pixels on either side has less than this. */
    private static final double SOFT = 0.012;

    /** Less contrast than this in a block is grain, not an edge: the square of samples, summed over a block. */
    private static final double LEAST_EDGE = 64 * 15 * 15;

    /** Of the blocks, the share with the most contrast that is looked at. */
    private static final double EDGES = 0.02;

    private static final int FEWEST_EDGES = 12;
    private static final int WHITE = 252;
    private static final double WITHOUT_DRAWING = 64 * 2 * 2;
    private static final int BLACK = 10;
    private static final double MUCH_WHITE = 0.15;
    private static final double MOSTLY_BLACK = 0.85;
    private static final int DIM = 90;

    /**
     * Looks at a photograph.
     *
     * @return empty where its coefficients cannot be read here, or its components are inks
     * @throws IOException if the file cannot be read
     */
    public static Optional<PhotoCheck> of(Photo photo) throws IOException {
        Jpeg jpeg = photo.jpeg();
        ColorCoding coding = jpeg.color().coding();
        if (coding != ColorCoding.GREY && coding != ColorCoding.YCBCR && coding != ColorCoding.RGB) {
            return Optional.empty();
        }
        try (SeekableByteChannel channel = Files.newByteChannel(photo.file())) {
            return Optional.of(of(BlockLuminance.read(channel, jpeg), shape(photo)));
        } catch (JpegFormatException damagedOrOfAnotherKind) {
            // Whether it becomes an object is decided elsewhere, and said there
            return Optional.empty();
        }
    }

    /** How the frame lies once the picture is upright. */
    public static FrameShape shape(Photo photo) {
        int columns = photo.jpeg().frame().samplesPerLine();
        int rows = photo.jpeg().frame().lines();
        Turn upright = photo.upright();
        return upright.exchangesAxes() ? FrameShape.of(rows, columns) : FrameShape.of(columns, rows);
    }

    private static PhotoCheck of(BlockLuminance picture, FrameShape shape) {
        int[] histogram = new int[256];
        int white = 0;
        for (int row = 0; row < picture.rows(); row++) {
            for (int column = 0; column < picture.columns(); column++) {
                int mean = picture.mean(column, row);
                histogram[mean]++;
                boolean drawn = picture.coarse(column, row) + picture.fine(column, row) > WITHOUT_DRAWING;
                white += mean >= WHITE && !drawn ? 1 : 0;
            }
        }
        double blocks = (double) picture.rows() * picture.columns();
        int black = Arrays.stream(histogram, 0, BLACK + 1).sum();
        return new PhotoCheck(sharpness(picture), white / blocks, black / blocks, brightest(histogram, blocks), shape);
    }

    private static int brightest(int[] histogram, double blocks) {
        int above = 0;
        int level = 255;
        while (level > 0 && above + histogram[level] < blocks / 100) {
            above += histogram[level--];
        }
        return level;
    }

    /** The median of the edges, so that neither grain nor one sharp hair decides; 1 where there are too few edges to tell. */
    private static double sharpness(BlockLuminance picture) {
        List<double[]> edges = new ArrayList<>();
        for (int row = 0; row < picture.rows(); row++) {
            for (int column = 0; column < picture.columns(); column++) {
                double energy = picture.coarse(column, row) + picture.fine(column, row);
                if (energy > LEAST_EDGE) {
                    edges.add(new double[] {energy, picture.fine(column, row) / energy});
                }
            }
        }
        edges.sort((one, other) -> Double.compare(other[0], one[0]));
        int looked = (int) Math.min(edges.size(), Math.ceil(EDGES * picture.rows() * picture.columns()));
        if (looked < FEWEST_EDGES) {
            return 1;
        }
        double[] shares = edges.subList(0, looked).stream()
                .mapToDouble(edge -> edge[1])
                .sorted()
                .toArray();
        return shares[looked / 2];
    }

    /**
     * What a person may want to look at again.
     *
     * @param usual how the frame lies in pictures of this view; none where any way is right
     * @param putRight how the upright picture is turned or mirrored further
     * @return one sentence without a full stop each, most often none
     */
    public List<String> notes(Set<FrameShape> usual, Turn putRight) {
        List<String> notes = new ArrayList<>();
        if (sharpness < SOFT) {
            notes.add("the picture looks soft even where it has the strongest edges; look whether it is in focus");
        }
        if (burntOut > MUCH_WHITE) {
            notes.add("%d %% of the picture is white without any drawing; look whether it is too light"
                    .formatted(Math.round(100 * burntOut)));
        }
        if (brightest < DIM) {
            notes.add("hardly anything in the picture is lighter than %d of 255; look whether it is too dark"
                    .formatted(brightest));
        } else if (nearlyBlack > MOSTLY_BLACK) {
            notes.add("%d %% of the picture is nearly black; look whether the flash lit it"
                    .formatted(Math.round(100 * nearlyBlack)));
        }
        FrameShape finished = putRight.exchangesAxes() ? shape.rolled() : shape;
        if (!usual.isEmpty() && finished != FrameShape.SQUARE && !usual.contains(finished)) {
            String words = usual.stream().sorted().map(FrameShape::word).collect(Collectors.joining(" or "));
            notes.add("the frame is %s, where %s is usual for this view; look whether the picture lies the right way"
                    .formatted(finished.word(), words));
        }
        return notes;
    }
}
