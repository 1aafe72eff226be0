package vestibule.bridge.photo;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.channels.SeekableByteChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import vestibule.bridge.color.Colors;
import vestibule.dicom.data.Bulk;
import vestibule.dicom.jpeg.ColorCoding;
import vestibule.dicom.jpeg.EdgeLoss;
import vestibule.dicom.jpeg.EdgeLossException;
import vestibule.dicom.jpeg.EntropyCheck;
import vestibule.dicom.jpeg.Essential;
import vestibule.dicom.jpeg.Fitness;
import vestibule.dicom.jpeg.Frame;
import vestibule.dicom.jpeg.Hindrance;
import vestibule.dicom.jpeg.Jpeg;
import vestibule.dicom.jpeg.JpegFormatException;
import vestibule.dicom.jpeg.JpegLimits;
import vestibule.dicom.jpeg.Recoded;
import vestibule.dicom.jpeg.Recoder;
import vestibule.dicom.jpeg.Recoding;
import vestibule.dicom.jpeg.Turn;

/**
 * Brings the picture of a photograph into the form an object carries: upright, the right way round, baseline, without metadata, and
 * with the camera's coefficients. Where nothing has to be done the camera's own bytes are named and none is copied.
 */
public final class PictureMaker {

    private final Scratch scratch;

    /** The file of the photograph that was coded again last, and so decoded; what that showed holds for its raw picture too. */
    private @Nullable Path decoded;

    private long surplusOfDecoded;

    /** @param scratch where pictures lie that had to be made anew */
    public PictureMaker(Scratch scratch) {
        this.scratch = scratch;
    }

    /**
     * What is wanted of the picture.
     *
     * @param upright how to turn it because the camera was turned
     * @param correction how to mirror it because it was taken by mirror, or to turn it because it lies otherwise to the patient
     * @param edge what to do where a partial block would come to the wrong edge
     * @param inks what to do with a picture of four inks
     */
    public record Wish(Turn upright, Turn correction, Recoding.Edge edge, Inks inks) {

        /** The picture as the camera recorded it. */
        public static Wish asRecorded(Inks inks) {
            return new Wish(Turn.NONE, Turn.NONE, Recoding.Edge.KEEP, inks);
        }

        Turn turn() {
            return upright.then(correction);
        }
    }

    /**
     * Makes the picture.
     *
     * @throws PhotoException if it cannot be had without loss, or is of a kind that no object holds
     * @throws IOException if a file cannot be read or written
     */
    public Picture make(Photo photo, Wish wish) throws IOException, PhotoException {
        Jpeg jpeg = photo.jpeg();
        Colors colors = Colors.of(jpeg, photo.camera().colorSpace());
        ColorCoding coding = jpeg.color().coding();
        boolean inks = coding == ColorCoding.CMYK || coding == ColorCoding.YCCK;
        checkFitness(jpeg.fitness(), inks ? wish.inks() : Inks.REFUSE);
        try {
            if (inks || coding == ColorCoding.RGB) {
                return new SampleUnpacking(photo, scratch).picture(wish, inks ? Colors.UNSAID : colors);
            }
            // Decoded in any case: what is damaged, or holds bytes of something else, must not be kept for ever
            boolean asItIs = wish.turn() == Turn.NONE
                    && jpeg.fitness().fits()
                    && jpeg.scans().size() == 1
                    && surplusBytes(photo) == 0;
            return asItIs ? asItIs(photo, wish, colors) : recoded(photo, wish, colors);
        } catch (JpegFormatException damaged) {
            throw PhotoException.of(damaged);
        }
    }

    private long surplusBytes(Photo photo) throws IOException {
        return photo.file().equals(decoded)
                ? surplusOfDecoded
                : EntropyCheck.surplusBytes(photo.file(), JpegLimits.DEFAULT);
    }

    /** What coding again cures, or unpacking, stands in nobody's way. */
    private static void checkFitness(Fitness fitness, Inks inks) throws PhotoException {
        List<Hindrance> remaining = fitness.hindrances().stream()
                .filter(hindrance -> !hindrance.reason().curedByRecoding())
                .filter(hindrance -> !curedByUnpacking(hindrance.reason(), inks))
                .toList();
        if (!remaining.isEmpty()) {
            throw new PhotoException(remaining.stream().map(Hindrance::sentence).collect(Collectors.joining("; "))
                    + "; this photograph cannot become an object without loss");
        }
    }

    private static boolean curedByUnpacking(Hindrance.Reason reason, Inks inks) {
        return switch (reason) {
            case RGB_CODED -> true;
            case CMYK, YCCK -> inks == Inks.CONVERT;
            default -> false;
        };
    }

    private static Picture asItIs(Photo photo, Wish wish, Colors colors) {
        return jpeg(
                photo.file(),
                photo.jpeg(),
                new Changes(wish.upright(), wish.correction(), new EdgeLoss(0, 0), Changes.Coding.KEPT),
                colors);
    }

    private Picture recoded(Photo photo, Wish wish, Colors colors) throws IOException, PhotoException {
        Path file = scratch.next();
        Recoded recoded;
        try (SeekableByteChannel source = Files.newByteChannel(photo.file());
                OutputStream target = new BufferedOutputStream(Files.newOutputStream(file))) {
            recoded = Recoder.recode(
                    source, photo.jpeg(), Recoding.of(wish.turn()).with(wish.edge()), target);
        } catch (EdgeLossException loss) {
            throw new PhotoException(
                    "without loss the picture cannot be laid the right way round, for %s would have to be left off; keep the raw picture beside it, or allow trimming"
                            .formatted(loss.loss().words()));
        }
        decoded = photo.file();
        surplusOfDecoded = recoded.surplusBytes();
        Changes changes = new Changes(wish.upright(), wish.correction(), recoded.loss(), Changes.Coding.RECODED);
        return jpeg(file, Jpeg.read(file, JpegLimits.DEFAULT), changes, colors);
    }

    /** The profile is in the object, or in neither (PS3.5 8.2.1: both would have to be the same). */
    private static Picture jpeg(Path file, Jpeg jpeg, Changes changes, Colors colors) {
        Essential essential = jpeg.essentialWithoutProfile();
        Bulk stream = Bulk.concat(essential.ranges().stream()
                .map(range -> Bulk.of(file, range.offset(), range.length()))
                .toList());
        Frame frame = jpeg.frame();
        boolean grey = jpeg.color().coding() == ColorCoding.GREY;
        return new Picture(
                grey ? Picture.Form.JPEG_GREY : Picture.Form.JPEG_COLOR,
                frame.lines(),
                frame.samplesPerLine(),
                stream,
                stream.length(),
                changes,
                colors);
    }
}
