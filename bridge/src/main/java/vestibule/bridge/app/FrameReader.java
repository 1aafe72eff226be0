package vestibule.bridge.app;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.time.Duration;
import java.time.LocalDateTime;
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
import vestibule.dicom.jpeg.Turn;

/** Reads what the bytes of photographs say. What takes long is remembered, since a source is decided again whenever something is added. */
final class FrameReader {

    /** Few enough that, decoded whole, they take no longer than a round may be silent. */
    private static final int AT_ONCE = 100;

    /** The folder of originals is there, and the file is not in it: the others go on. */
    private static final String LOST = "our copy of the original is gone; take the photograph in again";

    private final Cameras cameras;
    private final Patients patients;
    private final CardReader cards = new CardReader();
    private final Memory memory;

    FrameReader(Cameras cameras, Patients patients, Memory memory) {
        this.cameras = cameras;
        this.patients = patients;
        this.memory = memory;
    }

    /** What a file says in brief, as far as it bears on the files around it. */
    sealed interface Glance {}

    /**
     * A photograph.
     *
     * @param camera which camera took it
     * @param taken when it was taken, by a clock put right
     * @param clockSaid whether the practice said anything of that clock
     * @param code the code in it
     * @param text the text of the camera that may name the patient
     */
    record Noted(
            String camera,
            Optional<LocalDateTime> taken,
            boolean clockSaid,
            CardReader.Reading code,
            Optional<String> text)
            implements Glance {}

    /** What a file says. */
    sealed interface Content {}

    /**
     * A photograph, without the blocks of metadata in it: a thousand may be held at a time.
     *
     * @param header how its picture is coded
     * @param upright how the picture has to be turned to stand upright, by what the camera noted
     * @param noteDoubt why nobody can tell what was noted of that, as words without a full stop
     * @param cameras what its camera is called, the most telling first
     * @param noted when it was taken, by the camera's clock
     * @param clock what has to be added to that clock
     */
    record Frame(
            vestibule.dicom.jpeg.Frame header,
            Turn upright,
            Optional<String> noteDoubt,
            List<String> cameras,
            Optional<CaptureTime> noted,
            Duration clock)
            implements Content {

        Frame {
            cameras = List.copyOf(cameras);
        }

        /** When it was taken, by a clock put right. */
        Optional<CaptureTime> taken() {
            return noted.map(time -> time.plus(clock));
        }
    }

    /**
     * No photograph that can be used.
     *
     * @param problem why, without a full stop
     * @param code the code that was found in it while it could be read, if anybody looked
     */
    record Unusable(String problem, Optional<CardReader.Reading> code) implements Content, Glance {

        /** Where nobody looks for cards. */
        Unusable(String problem) {
            this(problem, Optional.empty());
        }
    }

    /** What each file says in brief, by its hash; files are read side by side, and what is in them is let go at once. */
    Map<String, Glance> glances(Deciding.Photographs source, List<Deciding.Photograph> photographs) throws IOException {
        Map<String, Glance> glances = new ConcurrentHashMap<>();
        Map<String, String> names = new ConcurrentHashMap<>();
        for (List<Deciding.Photograph> some : Portions.of(photographs, AT_ONCE)) {
            source.goOn();
            List<String> hashes = some.stream().map(Deciding.Photograph::photo).toList();
            Map<String, String> known = memory.recall(hashes);
            Map<String, String> fresh = new ConcurrentHashMap<>();
            try {
                hashes.parallelStream().forEach(photo -> {
                    try {
                        Glance glance = glance(photo, source.original(photo), known, fresh, names);
                        glances.put(photo, glance);
                    } catch (IOException e) {
                        throw new UncheckedIOException(e);
                    }
                });
            } catch (UncheckedIOException e) {
                throw e.getCause();
            }
            memory.keep(fresh);
        }
        return glances;
    }

    /** @param called every camera's name once, since many photographs share it */
    private Glance glance(
            String photo,
            Path original,
            Map<String, String> known,
            Map<String, String> fresh,
            Map<String, String> called)
            throws IOException {
        try {
            Photo read = Photo.kept(original, photo);
            List<String> names = names(read);
            String camera = String.join(" ", names);
            return new Noted(
                    called.computeIfAbsent(camera, name -> name),
                    taken(read, cameras).map(CaptureTime::local),
                    cameras.isClockSaid(names),
                    code(photo, original, known, fresh),
                    patients.cameraField().flatMap(field -> field.of(read)));
        } catch (NoSuchFileException e) {
            return new Unusable(LOST, remembered(photo, known));
        } catch (PhotoException e) {
            return new Unusable(String.valueOf(e.getMessage()), remembered(photo, known));
        }
    }

    private static Optional<CardReader.Reading> remembered(String photo, Map<String, String> known) {
        return Optional.ofNullable(known.get(photo)).flatMap(ReadingText::read);
    }

    /** All that a file says. */
    Content read(Deciding.Candidate candidate) throws IOException {
        try {
            Photo photo = Photo.kept(candidate.original(), candidate.photo());
            List<String> names = names(photo);
            return new Frame(
                    photo.jpeg().frame(),
                    photo.upright(),
                    photo.camera().doubt(),
                    names,
                    photo.camera().captured(),
                    cameras.clock(names));
        } catch (NoSuchFileException e) {
            return new Unusable(LOST);
        } catch (PhotoException e) {
            return new Unusable(String.valueOf(e.getMessage()));
        }
    }

    /** What the camera of a photograph is called, the most telling first. */
    static List<String> names(Photo photo) {
        List<String> names = new ArrayList<>();
        CameraField.BODY_SERIAL.of(photo).ifPresent(names::add);
        photo.camera().model().ifPresent(names::add);
        return names;
    }

    /** When a photograph was taken, by a clock put right. */
    static Optional<CaptureTime> taken(Photo photo, Cameras cameras) {
        return photo.camera().captured().map(time -> time.plus(cameras.clock(names(photo))));
    }

    /** Looking for a card decodes the whole picture, so it is done once in the life of a photograph. */
    private CardReader.Reading code(String photo, Path original, Map<String, String> known, Map<String, String> fresh)
            throws IOException {
        Optional<CardReader.Reading> before = remembered(photo, known);
        if (before.isPresent()) {
            return before.get();
        }
        CardReader.Reading code = cards.read(original);
        fresh.put(photo, ReadingText.write(code));
        return code;
    }
}
