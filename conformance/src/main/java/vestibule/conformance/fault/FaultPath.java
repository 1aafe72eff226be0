package vestibule.conformance.fault;

import static vestibule.conformance.fault.FaultFileSystem.unwrap;

import java.io.File;
import java.io.IOException;
import java.net.URI;
import java.nio.file.FileSystem;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.WatchEvent;
import java.nio.file.WatchKey;
import java.nio.file.WatchService;
import org.jspecify.annotations.Nullable;

/** A path of the machine's own file system, seen through a {@link FaultDisk}. */
final class FaultPath implements Path {

    private final FaultFileSystem fileSystem;
    private final Path real;

    FaultPath(FaultFileSystem fileSystem, Path real) {
        this.fileSystem = fileSystem;
        this.real = real;
    }

    Path real() {
        return real;
    }

    private @Nullable Path wrapOrNull(@Nullable Path path) {
        return path == null ? null : fileSystem.wrap(path);
    }

    @Override
    public FileSystem getFileSystem() {
        return fileSystem;
    }

    @Override
    public boolean isAbsolute() {
        return real.isAbsolute();
    }

    @Override
    public @Nullable Path getRoot() {
        return wrapOrNull(real.getRoot());
    }

    @Override
    public @Nullable Path getFileName() {
        return wrapOrNull(real.getFileName());
    }

    @Override
    public @Nullable Path getParent() {
        return wrapOrNull(real.getParent());
    }

    @Override
    public int getNameCount() {
        return real.getNameCount();
    }

    @Override
    public Path getName(int index) {
        return fileSystem.wrap(real.getName(index));
    }

    @Override
    public Path subpath(int beginIndex, int endIndex) {
        return fileSystem.wrap(real.subpath(beginIndex, endIndex));
    }

    @Override
    public boolean startsWith(Path other) {
        return real.startsWith(unwrap(other));
    }

    @Override
    public boolean endsWith(Path other) {
        return real.endsWith(unwrap(other));
    }

    @Override
    public Path normalize() {
        return fileSystem.wrap(real.normalize());
    }

    @Override
    public Path resolve(Path other) {
        return fileSystem.wrap(real.resolve(unwrap(other)));
    }

    @Override
    public Path relativize(Path other) {
        return fileSystem.wrap(real.relativize(unwrap(other)));
    }

    @Override
    public URI toUri() {
        return real.toUri();
    }

    @Override
    public Path toAbsolutePath() {
        return fileSystem.wrap(real.toAbsolutePath());
    }

    @Override
    public Path toRealPath(LinkOption... options) throws IOException {
        fileSystem.disk().stillThere(real);
        return fileSystem.wrap(real.toRealPath(options));
    }

    /** The file itself, beyond the reach of any fault; for libraries that know no paths. */
    @Override
    public File toFile() {
        return real.toFile();
    }

    @Override
    public WatchKey register(WatchService watcher, WatchEvent.Kind<?>[] events, WatchEvent.Modifier... modifiers)
            throws IOException {
        return real.register(watcher, events, modifiers);
    }

    @Override
    public int compareTo(Path other) {
        return real.compareTo(unwrap(other));
    }

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof FaultPath path && path.fileSystem == fileSystem && path.real.equals(real);
    }

    @Override
    public int hashCode() {
        return real.hashCode();
    }

    @Override
    public String toString() {
        return real.toString();
    }
}
