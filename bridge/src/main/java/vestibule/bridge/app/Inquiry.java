package vestibule.bridge.app;

import java.io.IOException;
import java.time.Duration;
import java.util.Optional;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.FutureTask;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;

/**
 * Something asked of a card or folder that may hang, as a share of the network does whose server is gone. Nothing wakes a thread that waits
 * for such a share, so it is one of its own, is left behind in the end, and does not keep the program from ending.
 *
 * @param <T> what is answered
 */
final class Inquiry<T> {

    /** What is asked. */
    interface Question<T> {
        T ask() throws IOException, Failure;
    }

    private final FutureTask<T> answer;

    private Inquiry(FutureTask<T> answer) {
        this.answer = answer;
    }

    /** Asks. */
    static <T> Inquiry<T> of(Question<T> question) {
        FutureTask<T> answer = new FutureTask<>(question::ask);
        Thread thread = new Thread(answer, "inquiry");
        thread.setDaemon(true);
        thread.start();
        return new Inquiry<>(answer);
    }

    /** Waits for the answer; nothing if it did not come in that time, which may be asked again. */
    Optional<T> answer(Duration patience) throws IOException, Failure {
        try {
            return Optional.of(answer.get(patience.toMillis(), TimeUnit.MILLISECONDS));
        } catch (TimeoutException e) {
            return Optional.empty();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            return Optional.empty();
        } catch (ExecutionException e) {
            if (e.getCause() instanceof IOException failed) {
                throw failed;
            }
            if (e.getCause() instanceof Failure failed) {
                throw failed;
            }
            throw new IllegalStateException("asking a source ended by a fault of ours", e.getCause());
        }
    }
}
