package vestibule.bridge.photo;

import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import vestibule.dicom.jpeg.Turn;

/**
 * Whether a copy shows the picture that it is said to be made of, and the same way round. The bounds are common practice of this house, no
 * source: a copy that was greyed, made smaller, coded again and written on is alike to some nine tenths, one that lost a twentieth at each
 * edge to a half and more.
 */
public sealed interface Resemblance {

    /** Below this, the pictures have little more in common than being photographs. */
    double LEAST = 0.4;

    /** What is more alike than this to itself when it is laid down otherwise tells nothing of how it lies. */
    double SYMMETRICAL = 0.997;

    /** Of what the picture differs from itself laid down otherwise, the copy has to have this part to lie as it does. */
    double AS_IT_LIES = 0.3;

    /** And this part the other way to lie otherwise; what was drawn into a copy may come to a little of that by chance. */
    double OTHERWISE = -0.5;

    /** Fields that are fewer levels apart tell nothing. */
    double FLAT = 6;

    /** It is that picture, lying as it lies. */
    record Same() implements Resemblance {}

    /**
     * It is that picture, lying otherwise.
     *
     * @param putRight what lays the copy as the picture lies
     */
    record Otherwise(Turn putRight) implements Resemblance {}

    /** It is another picture. */
    record Another() implements Resemblance {}

    /**
     * Nobody can tell by the brightness.
     *
     * @param why in words, without a full stop
     */
    record Unsaid(String why) implements Resemblance {}

    /**
     * Compares a copy with its picture.
     *
     * @param picture empty where it cannot be decoded here
     * @param copy empty where it cannot be decoded here
     */
    static Resemblance of(Optional<SmallPicture> picture, Optional<SmallPicture> copy) {
        if (picture.isEmpty() || copy.isEmpty()) {
            return new Unsaid("one of the two pictures cannot be compared here");
        }
        if (picture.get().isFlat(FLAT)) {
            return new Unsaid("the picture has too little drawing for that");
        }
        if (copy.get().isFlat(FLAT)) {
            return new Another();
        }
        return of(picture.get(), copy.get());
    }

    private static Resemblance of(SmallPicture picture, SmallPicture copy) {
        double most = Arrays.stream(Turn.values())
                .mapToDouble(turn -> picture.likeness(copy.turned(turn)))
                .max()
                .orElseThrow();
        if (most < LEAST) {
            return new Another();
        }
        List<Turn> others =
                Arrays.stream(Turn.values()).filter(turn -> turn != Turn.NONE).toList();
        Optional<Turn> otherwise = others.stream()
                .filter(turn -> leaning(picture, copy, turn) < OTHERWISE)
                .max(Comparator.comparingDouble(turn -> picture.likeness(copy.turned(turn))));
        if (otherwise.isPresent()) {
            return new Otherwise(otherwise.get());
        }
        return others.stream().allMatch(turn -> leaning(picture, copy, turn) > AS_IT_LIES)
                ? new Same()
                : new Unsaid("the picture is too much the same when it is turned or mirrored");
    }

    /**
     * How much better the copy fits as it lies than turned, in parts of how much better the picture itself does: about 1 if it lies as the
     * picture, about -1 if it lies turned so, 0 where nobody can tell. However alike the two sides of a face or an arch are, what they differ
     * in decides.
     */
    private static double leaning(SmallPicture picture, SmallPicture copy, Turn turn) {
        double itself = picture.likeness(picture.turned(turn));
        return itself > SYMMETRICAL ? 0 : (picture.likeness(copy) - picture.likeness(copy.turned(turn))) / (1 - itself);
    }
}
