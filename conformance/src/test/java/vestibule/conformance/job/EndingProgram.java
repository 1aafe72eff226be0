package vestibule.conformance.job;

import java.io.IOException;
import java.nio.file.Path;
import vestibule.bridge.photo.Scratch;

/** A program of its own that begins a picture while it ends, as one does that is told to end in the middle of its work. */
final class EndingProgram {

    private EndingProgram() {}

    public static void main(String[] arguments) {
        Path parent = Path.of(arguments[0]);
        Runtime.getRuntime().addShutdownHook(new Thread(() -> {
            try {
                Scratch.in(parent).close();
                System.out.println("begun");
            } catch (IOException refused) {
                System.out.println("refused: " + refused.getMessage());
            }
        }));
    }
}
