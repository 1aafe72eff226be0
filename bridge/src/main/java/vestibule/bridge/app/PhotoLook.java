package vestibule.bridge.app;

import java.io.IOException;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import vestibule.bridge.photo.FrameShape;
import vestibule.bridge.photo.Photo;
import vestibule.bridge.photo.PhotoCheck;
import vestibule.bridge.photo.PhotoException;
import vestibule.bridge.view.PictureCheck;
import vestibule.bridge.view.Shot;
import vestibule.bridge.view.View;
import vestibule.dicom.jpeg.Turn;

/**
 * A look at the photographs of a sitting whose order may decide. A picture agrees with a view if its frame lies as that view's frames do and
 * it came out well; a soft, dark or burnt-out picture, or one whose frame lies otherwise, says nothing, and then a person looks. It never
 * contradicts: what a picture shows is not recognised here.
 */
final class PhotoLook implements PictureCheck {

    private final Map<String, PhotoCheck> checks;

    private PhotoLook(Map<String, PhotoCheck> checks) {
        this.checks = checks;
    }

    /** Looks at every photograph of a sitting that is not filed yet. */
    static PhotoLook of(Sitting sitting) throws IOException {
        Map<String, PhotoCheck> checks = new HashMap<>();
        for (Sitting.Shot shot : sitting.shots()) {
            if (!shot.candidate().filed()) {
                check(shot.candidate())
                        .ifPresent(check -> checks.put(shot.candidate().photo(), check));
            }
        }
        return new PhotoLook(checks);
    }

    private static Optional<PhotoCheck> check(Deciding.Candidate candidate) throws IOException {
        try {
            return PhotoCheck.of(Photo.kept(candidate.original(), candidate.photo()));
        } catch (PhotoException noPicture) {
            return Optional.empty();
        }
    }

    /** How the frame of the view usually lies. */
    static Set<FrameShape> usual(View view) {
        return view.frames().stream()
                .map(frame -> FrameShape.valueOf(frame.name()))
                .collect(Collectors.toSet());
    }

    @Override
    public Opinion of(Shot shot, View view) {
        PhotoCheck check = checks.get(shot.photo());
        if (check == null) {
            return Opinion.SILENT;
        }
        Set<FrameShape> usual = usual(view);
        boolean lies = usual.isEmpty() || usual.contains(check.shape());
        List<String> trouble = check.notes(usual, Turn.NONE);
        return lies && trouble.isEmpty() ? Opinion.AGREES : Opinion.SILENT;
    }
}
