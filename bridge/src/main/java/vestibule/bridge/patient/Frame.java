package vestibule.bridge.patient;

import java.time.LocalDateTime;
import java.util.Optional;

/**
 * One file of a source, as far as it matters for telling sittings apart.
 *
 * @param key its hash
 * @param name its name in the source
 * @param camera which camera took it
 * @param medium on which of the memory cards it is that lay in the source one after another
 * @param taken when, by a clock put right
 * @param mark what it says about the frames after it, if it is a card or may be one
 */
public record Frame(
        String key, String name, String camera, int medium, Optional<LocalDateTime> taken, Optional<Mark> mark) {

    /** A frame that begins something. */
    public sealed interface Mark {}

    /** A card that can be read: what follows is that person. */
    public record Start(Evidence card) implements Mark {}

    /** A card, or what may be one, that does not say who follows. */
    public record Broken(Reason reason) implements Mark {}
}
