package vestibule.bridge.color;

import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import vestibule.dicom.jpeg.ColorCoding;
import vestibule.dicom.jpeg.Jpeg;
import vestibule.dicom.jpeg.ProfileCondition;

/**
 * What is known of a photograph's colours. Nothing is assumed: a photograph that says nothing of them gets no profile.
 *
 * @param profile an ICC profile of the input class, the value of ICC Profile (0028,2000); empty where nothing is known
 * @param colorSpace Color Space (0028,2002): SRGB or ADOBERGB; empty for any other
 * @param notes what was wrong with the photograph's own profile, one sentence without a full stop each
 */
public record Colors(Optional<byte[]> profile, Optional<String> colorSpace, List<String> notes) {

    /** No statement on colour. */
    public static final Colors UNSAID = new Colors(Optional.empty(), Optional.empty(), List.of());

    public Colors {
        notes = List.copyOf(notes);
    }

    /**
     * Reads what a photograph says of its colours. Its own profile decides, if it is whole and can be carried; else the colour space
     * that the camera noted.
     *
     * @param jpeg the photograph's stream
     * @param noted the colour space that the camera noted: SRGB, ADOBERGB or nothing
     */
    public static Colors of(Jpeg jpeg, Optional<String> noted) {
        ProfileCondition condition = jpeg.profileCondition();
        boolean colour =
                jpeg.color().coding() == ColorCoding.YCBCR || jpeg.color().coding() == ColorCoding.RGB;
        if (!colour) {
            return UNSAID;
        }
        if (condition == ProfileCondition.NONE) {
            return noted(noted, List.of());
        }
        if (condition != ProfileCondition.COMPLETE) {
            return noted(noted, List.of(condition.words() + ", so it is not used"));
        }
        SourceProfile source = SourceProfile.read(jpeg.iccProfile().orElseThrow());
        @Nullable MatrixProfile matrix = source.matrix();
        if (matrix != null) {
            return new Colors(Optional.of(matrix.inputProfile("Camera RGB")), matrix.knownSpace(), List.of());
        }
        List<String> notes = List.of("the ICC profile " + source.problem() + ", so it is not used");
        return source.elsewhere() ? noted(noted, notes) : new Colors(Optional.empty(), Optional.empty(), notes);
    }

    private static Colors noted(Optional<String> space, List<String> notes) {
        Optional<byte[]> profile = space.flatMap(MatrixProfile::ofSpace)
                .map(known -> known.inputProfile(space.get().equals("SRGB") ? "sRGB" : "Adobe RGB (1998)"));
        return new Colors(profile, profile.isPresent() ? space : Optional.empty(), notes);
    }
}
