package vestibule.bridge.app;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import vestibule.bridge.object.PhotographicObject;
import vestibule.bridge.object.PhotographicObject.Material;
import vestibule.bridge.object.Standing;
import vestibule.bridge.object.Visit;
import vestibule.bridge.patient.Patient;
import vestibule.bridge.photo.Photo;
import vestibule.bridge.photo.PhotoCheck;
import vestibule.bridge.photo.PhotoException;
import vestibule.bridge.photo.Picture;
import vestibule.bridge.photo.PictureMaker;
import vestibule.bridge.photo.PictureMaker.Wish;
import vestibule.bridge.settings.Pictures;
import vestibule.bridge.settings.Practice;
import vestibule.bridge.view.Placement;
import vestibule.dicom.io.DicomFormatException;
import vestibule.dicom.jpeg.Turn;

/** From a photograph and what was decided about it to its object, or to two: the picture as recorded, and the corrected one. */
final class Wrapping {

    private final PictureMaker maker;
    private final Clock clock;
    private final Practice practice;
    private final Pictures pictures;

    Wrapping(PictureMaker maker, Clock clock, Practice practice, Pictures pictures) {
        this.maker = maker;
        this.clock = clock;
        this.practice = practice;
        this.pictures = pictures;
    }

    /**
     * What was decided.
     *
     * @param copy for a copy that somebody made: what of
     * @param clock what has to be added to the camera's clock
     * @param edition how often an object of it was taken back
     */
    record Decisions(
            Patient patient, Placement placement, Visit visit, Optional<Standing> copy, Duration clock, int edition) {

        /** Of a photograph of which nothing was taken back. */
        Decisions(Patient patient, Placement placement, Visit visit, Optional<Standing> copy, Duration clock) {
            this(patient, placement, visit, copy, clock, 0);
        }
    }

    /**
     * What came of it.
     *
     * @param object the object with the picture the right way round
     * @param raw the object with the picture as recorded, if it is wanted and differs
     * @param notes what a person should know, one sentence without a full stop each
     */
    record Wrapped(PhotographicObject object, Optional<PhotographicObject> raw, List<String> notes) {}

    /** When the picture as recorded is to become an object too; it never does where nothing had to be turned. */
    enum Raw {
        NEVER,
        /** Where it was turned or flipped. */
        ALWAYS,
        /** Where it was taken by mirror, or would lose its edge in the turning. */
        WHERE_IT_SAYS_MORE;

        boolean wanted(Photo photo, Turn turn, Placement placement) {
            return switch (this) {
                case NEVER -> false;
                case ALWAYS -> turn != Turn.NONE;
                case WHERE_IT_SAYS_MORE ->
                    turn != Turn.NONE
                            && (placement.capture().reversed()
                                    || !turn.edgeLoss(photo.jpeg().frame()).isNone());
            };
        }
    }

    /** @param keepRaw when the picture as recorded is to become an object too */
    Wrapped wrap(Path file, Decisions decisions, Raw keepRaw) throws Failure, IOException {
        try {
            Photo photo = Photo.read(file, pictures.keep()).withClock(decisions.clock());
            checkDates(file, photo, decisions.patient());
            Turn correction = correction(decisions);
            Turn turn = photo.upright().then(correction);
            boolean both = keepRaw.wanted(photo, turn, decisions.placement());
            Picture picture =
                    maker.make(photo, new Wish(photo.upright(), correction, pictures.edge(both), pictures.inks()));
            List<String> notes = notes(picture, decisions.placement(), turn != Turn.NONE, keepRaw != Raw.NEVER);
            if (!both) {
                Standing standing = decisions.copy().orElse(Standing.sole());
                return new Wrapped(
                        object(photo, picture, decisions, decisions.visit(), standing), Optional.empty(), notes);
            }
            PhotographicObject raw = object(
                    photo,
                    maker.make(photo, Wish.asRecorded(pictures.inks())),
                    decisions,
                    decisions.visit().unnumbered(),
                    new Standing.Recorded());
            Standing corrected = new Standing.Corrected(raw.sopInstance());
            return new Wrapped(
                    object(photo, picture, decisions, decisions.visit(), corrected), Optional.of(raw), notes);
        } catch (PhotoException | DicomFormatException e) {
            throw new Failure(Exit.BAD_DATA, "%s: %s.".formatted(file, e.getMessage()));
        }
    }

    /**
     * How a photograph came out, for a person: one sentence without a full stop each. It takes as long as a look at every code of the
     * picture, so only what prints it asks.
     */
    List<String> look(Path file, Decisions decisions) throws Failure, IOException {
        if (decisions.copy().isPresent()) {
            return List.of();
        }
        try {
            return PhotoCheck.of(Photo.read(file, pictures.keep()))
                    .map(check ->
                            check.notes(PhotoLook.usual(decisions.placement().view()), correction(decisions)))
                    .orElse(List.of());
        } catch (PhotoException e) {
            throw new Failure(Exit.BAD_DATA, "%s: %s.".formatted(file, e.getMessage()));
        }
    }

    /** A copy was made from a picture that had been put right already. */
    private static Turn correction(Decisions decisions) {
        return decisions.copy().isPresent() ? Turn.NONE : decisions.placement().putRight();
    }

    private PhotographicObject object(Photo photo, Picture picture, Decisions decisions, Visit visit, Standing standing)
            throws IOException {
        return PhotographicObject.of(new Material(
                photo,
                picture,
                decisions.patient(),
                decisions.placement(),
                visit,
                practice,
                standing,
                decisions.edition()));
    }

    private List<String> notes(Picture picture, Placement placement, boolean turned, boolean keepRaw) {
        List<String> notes = new ArrayList<>(picture.colors().notes());
        if (keepRaw && !turned) {
            notes.add("the picture goes in as recorded, so there is no second object for --raw-out");
        }
        if (!keepRaw && turned && placement.capture().reversed() && pictures.keepRaw()) {
            notes.add("the raw mirror picture is not kept beside the corrected one; --raw-out FILE keeps it");
        }
        return notes;
    }

    /** A photograph older than its patient, or from the future, says that the patient or the clock is wrong. */
    private void checkDates(Path file, Photo photo, Patient patient) throws Failure {
        Optional<LocalDate> taken =
                photo.camera().captured().map(time -> time.local().toLocalDate());
        if (taken.isPresent()
                && patient.birthDate().isPresent()
                && taken.get().isBefore(patient.birthDate().get())) {
            throw new Failure(
                    Exit.FINDINGS,
                    "%s: the camera says %s, before the patient was born; the patient or the camera clock is wrong."
                            .formatted(file, taken.get()));
        }
        LocalDate tomorrow = LocalDate.now(clock).plusDays(1);
        if (taken.isPresent() && taken.get().isAfter(tomorrow)) {
            throw new Failure(
                    Exit.FINDINGS,
                    "%s: the camera says %s, which is still to come; its clock is wrong.".formatted(file, taken.get()));
        }
    }
}
