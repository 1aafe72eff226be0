package vestibule.conformance.fault;

import java.nio.ByteBuffer;
import java.nio.file.Path;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * Something that changes a disk, before it is done.
 *
 * @param number how many came before it
 * @param kind what it is
 * @param path what it is done to, below the root of the disk
 * @param data for a write: what is to be written
 */
public record DiskOperation(int number, Kind kind, Path path, Optional<Written> data) {

    /** The ways to change a disk. */
    public enum Kind {
        CREATE,
        WRITE,
        TRUNCATE,
        FORCE,
        FORCE_FOLDER,
        MOVE,
        DELETE,
        CREATE_FOLDER,
        ATTRIBUTE
    }

    /**
     * Bytes on their way.
     *
     * @param position where in the file they go
     * @param bytes a view of them
     */
    public record Written(long position, ByteBuffer bytes) {}

    static DiskOperation of(int number, Kind kind, Path path, @Nullable Written data) {
        return new DiskOperation(number, kind, path, Optional.ofNullable(data));
    }

    @Override
    public String toString() {
        return "%d %s %s".formatted(number, kind, path);
    }
}
