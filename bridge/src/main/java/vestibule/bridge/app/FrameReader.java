package vestibule.bridge.app;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
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

/** Reads what the bytes of photographs say. What takes long is remembered, since a source is decided again whenever something is added. */
final class FrameReader {

    private final Cameras cameras;
    private final Patients patients;
    private final CardReader cards = new CardReader();
    private final Memory memory;

    FrameReader(Cameras cameras, Patients patients, Memory memory) {
        this.cameras = cameras;
        this.patients = patients;
        this.memory = memory;
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
        Map<String, String> known =
                memory.recall(candidates.stream().map(Deciding.Candidate::photo).toList());
        Map<String, String> fresh = new ConcurrentHashMap<>();
        Map<String, Content> contents = new ConcurrentHashMap<>();
        try {
            candidates.parallelStream().forEach(candidate -> {
                try {
                    contents.put(candidate.photo(), read(candidate, known, fresh));
                } catch (IOException e) {
                    throw new UncheckedIOException(e);
                }
            });
        } catch (UncheckedIOException e) {
            throw e.getCause();
        }
        memory.keep(fresh);
        return contents;
    }

    private Content read(Deciding.Candidate candidate, Map<String, String> known, Map<String, String> fresh)
            throws IOException {
        try {
            Photo photo = Photo.kept(candidate.original(), candidate.photo());
            CardReader.Reading code = code(candidate, known, fresh);
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

    /** Looking for a card decodes the whole picture, so it is done once in the life of a photograph. */
    private CardReader.Reading code(Deciding.Candidate candidate, Map<String, String> known, Map<String, String> fresh)
            throws IOException {
        Optional<CardReader.Reading> before =
                Optional.ofNullable(known.get(candidate.photo())).flatMap(ReadingText::read);
        if (before.isPresent()) {
            return before.get();
        }
        CardReader.Reading code = cards.read(candidate.original());
        fresh.put(candidate.photo(), ReadingText.write(code));
        return code;
    }
}
