package vestibule.bridge.view;

import java.util.List;
import java.util.Optional;
import vestibule.dicom.jpeg.Turn;

/**
 * A photograph of a sitting, as far as the question which view it shows is concerned.
 *
 * @param photo what the caller knows it by
 * @param names the names that its bytes lie under, in one source or several, folders and all, parted by {@code /}
 * @param frame how its frame lies once turned upright; empty if nobody could tell
 * @param noted the turn that the camera noted of itself, which has been followed
 * @param noteDoubt why nobody can tell what was noted of its turn, as words without a full stop
 * @param cameras what its camera and room are called, the most telling first: serial number, model, folders
 * @param copies the same for each place where a copy of it lies
 * @param said what people said about it, oldest first
 * @param before what was decided before and still stands; then it only bears witness for the others, unless a person spoke of it since
 * @param heard how it was laid by the last decision; empty where a person said a flip since, or nothing was decided
 */
public record Shot(
        String photo,
        List<String> names,
        Optional<Frame> frame,
        Turn noted,
        Optional<String> noteDoubt,
        List<String> cameras,
        List<List<String>> copies,
        List<Said> said,
        Optional<Before> before,
        Optional<Laid> heard) {

    public Shot {
        names = List.copyOf(names);
        cameras = List.copyOf(cameras);
        copies = List.copyOf(copies);
        said = List.copyOf(said);
    }

    /** One whose notes can be read, that lies in one place, and of whose flip nothing was decided yet. */
    public Shot(
            String photo,
            List<String> names,
            Optional<Frame> frame,
            Turn noted,
            List<String> cameras,
            List<Said> said,
            Optional<Before> before) {
        this(photo, names, frame, noted, Optional.empty(), cameras, List.of(), said, before, Optional.empty());
    }

    /** Whether it is to be ruled on. */
    boolean isOpen() {
        return before.map(Before::spoken).orElse(true);
    }

    /**
     * What was decided before.
     *
     * @param view the view's id
     * @param stage the stage of treatment
     * @param number the Instance Number it has
     * @param capture how it was taken
     * @param laid how it was laid
     * @param viewByPerson whether a person said the view, whom no name contradicts
     * @param captureByPerson whether a person said the capture
     * @param spoken whether a person said something of it since that does not touch how it was taken: then it is ruled on as well
     */
    public record Before(
            String view,
            Optional<String> stage,
            Optional<Integer> number,
            Optional<Capture> capture,
            Laid laid,
            boolean viewByPerson,
            boolean captureByPerson,
            boolean spoken) {}
}
