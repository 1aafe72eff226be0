package vestibule.bridge.app;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;
import org.apache.commons.cli.Options;
import vestibule.bridge.photo.Photo;
import vestibule.bridge.photo.PhotoException;
import vestibule.bridge.photo.Scratch;
import vestibule.bridge.photo.TurnedFile;
import vestibule.bridge.settings.Pictures;
import vestibule.dicom.jpeg.Recoding;
import vestibule.dicom.jpeg.Turn;

/** A JPEG photograph turned or mirrored without loss, as another JPEG. */
final class TurnCommand implements Command {

    private static final String TURNS =
            "upright, flip-horizontal, flip-vertical, rotate-90, rotate-180, rotate-270, transpose or transverse";

    private final Path scratchParent;

    /** @param scratchParent where the picture in the making may lie for a moment */
    TurnCommand(Path scratchParent) {
        this.scratchParent = scratchParent;
    }

    @Override
    public String name() {
        return "turn";
    }

    @Override
    public String syntax() {
        return "PHOTO OUT --by TURN [options]";
    }

    @Override
    public String summary() {
        return "turns or mirrors a JPEG without loss";
    }

    @Override
    public Options options() {
        return Given.all(
                Given.value(
                        "by",
                        "TURN",
                        TURNS
                                + "; of the picture as it is seen: what the camera noted of its own turn (Exif Orientation) is applied first"),
                Given.value(
                        "edge",
                        "trim|keep",
                        "where a partial block would come to the wrong edge: trim leaves it off, keep (the default) refuses"));
    }

    @Override
    public Exit run(Arguments arguments, Terminal terminal) throws Failure, IOException {
        if (arguments.words().size() != 2) {
            throw new Failure(
                    Exit.USAGE,
                    "expected a photograph and the file to make, found %s; see --help."
                            .formatted(Counted.of(arguments.words().size(), "word")));
        }
        Path file = Arguments.path("PHOTO", arguments.words().get(0));
        Path out = Arguments.path("OUT", arguments.words().get(1));
        arguments.required("by");
        Turn wanted = arguments.formed("by", TurnCommand::turn, TURNS).orElseThrow();
        Recoding.Edge edge =
                arguments.formed("edge", Pictures::edge, "trim or keep").orElse(Recoding.Edge.KEEP);
        checkTarget(out);
        try (Scratch scratch = Scratch.in(scratchParent)) {
            Photo photo = Photo.read(file);
            Optional<String> doubt = photo.camera().doubt();
            if (doubt.isPresent() && wanted == Turn.NONE) {
                throw new Failure(
                        Exit.BAD_DATA,
                        "%s: %s, so that nobody can tell which turn is upright; look at the picture as it was recorded, and name the turn."
                                .formatted(file, doubt.get()));
            }
            TurnedFile.write(photo, photo.upright().then(wanted), edge, scratch, out)
                    .ifPresent(note -> terminal.err().println("vestibule turn: %s: %s.".formatted(file, note)));
        } catch (PhotoException e) {
            throw new Failure(Exit.BAD_DATA, "%s: %s.".formatted(file, e.getMessage()));
        }
        terminal.out().println(out);
        return Exit.FINE;
    }

    /** Upright is what is left once the camera's own note was followed. */
    private static Optional<Turn> turn(String word) {
        if (word.equals("upright")) {
            return Optional.of(Turn.NONE);
        }
        return Arrays.stream(Turn.values())
                .filter(turn -> turn != Turn.NONE)
                .filter(turn -> word(turn).equals(word))
                .findFirst();
    }

    /** The word that commands use. */
    static String word(Turn turn) {
        return turn.name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    private static void checkTarget(Path out) throws Failure {
        Path folder = out.toAbsolutePath().getParent();
        if (folder == null || !Files.isDirectory(folder)) {
            throw new Failure(Exit.INPUT_OUTPUT, "%s: its folder is not there; make it first.".formatted(out));
        }
        if (Files.exists(out)) {
            throw new Failure(
                    Exit.INPUT_OUTPUT, "%s: is there already and is not written over; name another.".formatted(out));
        }
    }
}
