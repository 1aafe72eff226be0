package vestibule.bridge.photo;

import java.io.Closeable;
import java.io.IOException;
import java.io.InterruptedIOException;
import java.nio.file.DirectoryNotEmptyException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;

/**
 * A folder of our own for pictures in the making, which only this user may read. Nothing of it is left once it is closed, nor when the
 * program is told to end.
 */
public final class Scratch implements Closeable {

    /** Pictures that are just being begun may still appear while the folder is cleared; there are never more of them at once. */
    private static final int MOST_BEGUN = 64;

    private final Path folder;
    private final Thread atTheEnd;
    private int count;

    private Scratch(Path folder) {
        this.folder = folder;
        this.atTheEnd = new Thread(this::clear);
    }

    /**
     * Makes the folder inside another one.
     *
     * @throws IOException if it cannot be made, or the program is ending and nothing new is begun
     */
    public static Scratch in(Path parent) throws IOException {
        Scratch scratch = new Scratch(Files.createTempDirectory(parent, "vestibule-"));
        try {
            Runtime.getRuntime().addShutdownHook(scratch.atTheEnd);
        } catch (IllegalStateException endingAlready) {
            scratch.delete();
            throw new InterruptedIOException("the program is ending");
        }
        return scratch;
    }

    /** A new name in the folder. */
    Path next() {
        return folder.resolve(Integer.toString(count++));
    }

    private void clear() {
        try {
            delete();
        } catch (IOException stays) {
            // The program is ending, and there is nobody left to tell; the folder is this user's only.
            return;
        }
    }

    /** Once the folder is gone, whoever still wants to write there is told that it does not exist. */
    private void delete() throws IOException {
        for (int left = MOST_BEGUN; ; left--) {
            try {
                deleteOnce();
                return;
            } catch (DirectoryNotEmptyException begunMeanwhile) {
                if (left == 0) {
                    throw begunMeanwhile;
                }
            }
        }
    }

    private void deleteOnce() throws IOException {
        try (DirectoryStream<Path> files = Files.newDirectoryStream(folder)) {
            for (Path file : files) {
                Files.deleteIfExists(file);
            }
        } catch (NoSuchFileException goneAlready) {
            return;
        }
        Files.deleteIfExists(folder);
    }

    @Override
    public void close() throws IOException {
        try {
            Runtime.getRuntime().removeShutdownHook(atTheEnd);
        } catch (IllegalStateException endingAlready) {
            return;
        }
        delete();
    }
}
