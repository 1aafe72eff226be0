package vestibule.bridge.app;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import vestibule.bridge.patient.CardReader;
import vestibule.bridge.photo.CameraField;
import vestibule.bridge.photo.CaptureTime;
import vestibule.bridge.photo.Photo;
import vestibule.bridge.photo.PhotoException;
import vestibule.bridge.settings.Cameras;
import vestibule.bridge.settings.Patients;

/** Reads what the bytes of photographs say. It remembers what it has read, since a source is decided again whenever something is added. */
final class FrameReader {

    /** Photographs never change, and a day has some hundreds. */
    private static final int REMEMBERED = 4_000;

    private final Cameras cameras;
    private final Patients patients;
    private final CardReader cards = new CardReader();
    private final Map<String, CardReader.Reading> read =
            Collections.synchronizedMap(new LinkedHashMap<>(16, 0.75f, true) {
                private static final long serialVersionUID = 1L;

                @Override
                protected boolean removeEldestEntry(Map.Entry<String, CardReader.Reading> eldest) {
                    return size() > REMEMBERED;
                }
            });

    FrameReader(Cameras cameras, Patients patients) {
        this.cameras = cameras;
        this.patients = patients;
    }

    /** What a file says. */
    sealed interface Content {}

    /**
     * A photograph.
     *
     * @param photo what its bytes say
     * @param camera which camera took it
     * @param clock what has to be added to that camera's clock
     * @param taken when it was taken, by a clock put right
     * @param code the code in it
     * @param text the text of the camera that may name the patient
     */
    record Frame(
            Photo photo,
            String camera,
            java.time.Duration clock,
            Optional<CaptureTime> taken,
            CardReader.Reading code,
            Optional<String> text)
            implements Content {}

    /**
     * No photograph that can be used.
     *
     * @param problem why, without a full stop
     */
    record Unusable(String problem) implements Content {}

    /** What each file says, by its hash; files are read side by side. */
    Map<String, Content> read(List<Deciding.Candidate> candidates) throws IOException {
        Map<String, Content> contents = new ConcurrentHashMap<>();
        try {
            candidates.parallelStream().forEach(candidate -> {
                try {
                    contents.put(candidate.photo(), read(candidate));
                } catch (IOException e) {
                    throw new UncheckedIOException(e);
                }
            });
        } catch (UncheckedIOException e) {
            throw e.getCause();
        }
        return contents;
    }

    private Content read(Deciding.Candidate candidate) throws IOException {
        try {
            Photo photo = Photo.read(candidate.original());
            CardReader.Reading code = read.get(candidate.photo());
            if (code == null) {
                code = cards.read(candidate.original());
                read.put(candidate.photo(), code);
            }
            List<String> names = new ArrayList<>();
            CameraField.BODY_SERIAL.of(photo).ifPresent(names::add);
            photo.camera().model().ifPresent(names::add);
            java.time.Duration clock = cameras.clock(names);
            return new Frame(
                    photo,
                    String.join(" ", names),
                    clock,
                    photo.camera().captured().map(time -> time.plus(clock)),
                    code,
                    patients.cameraField().flatMap(field -> field.of(photo)));
        } catch (PhotoException e) {
            return new Unusable(String.valueOf(e.getMessage()));
        }
    }
}
