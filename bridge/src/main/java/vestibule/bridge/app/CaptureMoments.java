package vestibule.bridge.app;

import java.io.IOException;
import java.nio.file.NoSuchFileException;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.util.Optional;
import vestibule.bridge.intake.Originals;
import vestibule.bridge.patient.CaptureChecks;
import vestibule.bridge.patient.Reason;
import vestibule.bridge.photo.CaptureTime;
import vestibule.bridge.photo.Photo;
import vestibule.bridge.photo.PhotoException;
import vestibule.bridge.settings.Cameras;
import vestibule.bridge.settings.Settings;

/** When photographs were taken, by their cameras' clocks put right; read in our copies as they are taken in. */
final class CaptureMoments {

    /** A camera may keep what it could not send over the holidays of the practice. */
    private static final Duration LONGEST_TRANSFER = Duration.ofDays(30);

    /** A camera that is set to the time of another place may be ahead of the file's by that. */
    private static final Duration WRONG_ZONE = Duration.ofDays(1);

    private final Originals originals;
    private final Cameras cameras;
    private final ZoneId zone;
    private final Clock clock;

    CaptureMoments(Originals originals, Settings settings, Clock clock) {
        this.originals = originals;
        this.cameras = settings.cameras();
        this.zone = settings.practice().zone().orElse(clock.getZone());
        this.clock = clock;
    }

    /**
     * When a photograph was taken; empty where its camera did not say, or cannot know: photographs of all days would be near one another by
     * a clock that always begins with the same one. So it is where camera and file are weeks apart, which no transfer takes: by a clock that
     * is years slow all that was taken in since would be looked at again with each new photograph.
     *
     * @param fileTime when its file was written
     */
    Optional<Instant> of(String photo, Instant fileTime) throws IOException {
        try {
            Photo read = Photo.kept(originals.path(photo), photo);
            return FrameReader.taken(read, cameras)
                    .map(CaptureTime::local)
                    .flatMap(this::moment)
                    .filter(taken -> taken.isAfter(fileTime.minus(LONGEST_TRANSFER))
                            && taken.isBefore(fileTime.plus(WRONG_ZONE)));
        } catch (NoSuchFileException | PhotoException nothingToRead) {
            return Optional.empty();
        }
    }

    private Optional<Instant> moment(LocalDateTime taken) {
        Instant now = clock.instant();
        Optional<Reason> doubt = new CaptureChecks(zone).clock(taken, now, now);
        return doubt.filter(Reason.CLOCK_UNSET::equals).isPresent()
                ? Optional.empty()
                : Optional.of(taken.atZone(zone).toInstant());
    }
}
