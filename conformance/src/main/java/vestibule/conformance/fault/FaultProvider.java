package vestibule.conformance.fault;

import static vestibule.conformance.fault.FaultFileSystem.unwrap;

import java.io.IOException;
import java.net.URI;
import java.nio.channels.FileChannel;
import java.nio.channels.SeekableByteChannel;
import java.nio.file.AccessMode;
import java.nio.file.CopyOption;
import java.nio.file.DirectoryStream;
import java.nio.file.FileStore;
import java.nio.file.FileSystem;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.OpenOption;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.BasicFileAttributes;
import java.nio.file.attribute.FileAttribute;
import java.nio.file.attribute.FileAttributeView;
import java.nio.file.spi.FileSystemProvider;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import vestibule.conformance.fault.DiskOperation.Kind;

/** The operations of a {@link FaultDisk}: each is announced, then done on the machine's own file system, then known to the model. */
final class FaultProvider extends FileSystemProvider {

    private final FaultDisk disk;

    FaultProvider(FaultDisk disk) {
        this.disk = disk;
    }

    @Override
    public String getScheme() {
        return "fault";
    }

    @Override
    public FileSystem newFileSystem(URI uri, Map<String, ?> environment) {
        throw new UnsupportedOperationException("a fault disk is made over a folder");
    }

    @Override
    public FileSystem getFileSystem(URI uri) {
        return disk.fileSystem();
    }

    @Override
    public Path getPath(URI uri) {
        return disk.fileSystem().wrap(Path.of(uri));
    }

    @Override
    public SeekableByteChannel newByteChannel(
            Path path, Set<? extends OpenOption> options, FileAttribute<?>... attributes) throws IOException {
        return newFileChannel(path, options, attributes);
    }

    @Override
    public FileChannel newFileChannel(Path path, Set<? extends OpenOption> options, FileAttribute<?>... attributes)
            throws IOException {
        Path real = unwrap(path);
        disk.stillThere(real);
        boolean writes = options.contains(StandardOpenOption.WRITE) || options.contains(StandardOpenOption.APPEND);
        boolean makes = writes
                && (options.contains(StandardOpenOption.CREATE) || options.contains(StandardOpenOption.CREATE_NEW))
                && Files.notExists(real);
        if (makes) {
            disk.before(Kind.CREATE, real, null);
        } else if (writes && options.contains(StandardOpenOption.TRUNCATE_EXISTING)) {
            disk.before(Kind.TRUNCATE, real, null);
        }
        FileChannel channel = FileChannel.open(real, options, attributes);
        if (makes) {
            disk.model().created(real, false);
        }
        return new FaultChannel(disk, real, channel, options.contains(StandardOpenOption.APPEND));
    }

    @Override
    public DirectoryStream<Path> newDirectoryStream(Path folder, DirectoryStream.Filter<? super Path> filter)
            throws IOException {
        disk.stillThere(unwrap(folder));
        FaultFileSystem fileSystem = disk.fileSystem();
        Path real = unwrap(folder);
        return new FaultFolder(
                fileSystem,
                real.getFileSystem().provider().newDirectoryStream(real, name -> filter.accept(fileSystem.wrap(name))));
    }

    @Override
    public void createDirectory(Path folder, FileAttribute<?>... attributes) throws IOException {
        Path real = unwrap(folder);
        if (Files.notExists(real)) {
            disk.before(Kind.CREATE_FOLDER, real, null);
        }
        Files.createDirectory(real, attributes);
        disk.model().created(real, true);
    }

    @Override
    public void createLink(Path link, Path existing) throws IOException {
        disk.before(Kind.CREATE, unwrap(link), null);
        Files.createLink(unwrap(link), unwrap(existing));
        disk.model().linked(unwrap(link), unwrap(existing));
    }

    @Override
    public void delete(Path path) throws IOException {
        Path real = unwrap(path);
        if (Files.exists(real, LinkOption.NOFOLLOW_LINKS)) {
            disk.before(Kind.DELETE, real, null);
            disk.model().leaving(real);
        }
        Files.delete(real);
    }

    /** Announced as what it is: a new file and the writing of it. */
    @Override
    public void copy(Path source, Path target, CopyOption... options) throws IOException {
        Path from = unwrap(source);
        Path to = unwrap(target);
        disk.stillThere(from);
        disk.before(Kind.CREATE, to, null);
        Files.copy(from, to, options);
        disk.model().created(to, false);
    }

    @Override
    public void move(Path source, Path target, CopyOption... options) throws IOException {
        Path from = unwrap(source);
        Path to = unwrap(target);
        disk.before(Kind.MOVE, from, null);
        disk.model().moving(from, to);
        Files.move(from, to, options);
    }

    @Override
    public boolean isSameFile(Path one, Path other) throws IOException {
        return Files.isSameFile(unwrap(one), unwrap(other));
    }

    @Override
    public boolean isHidden(Path path) throws IOException {
        return Files.isHidden(unwrap(path));
    }

    @Override
    public FileStore getFileStore(Path path) throws IOException {
        disk.stillThere(unwrap(path));
        return new FaultStore(disk, Files.getFileStore(unwrap(path)));
    }

    @Override
    public void checkAccess(Path path, AccessMode... modes) throws IOException {
        Path real = unwrap(path);
        disk.stillThere(real);
        real.getFileSystem().provider().checkAccess(real, modes);
    }

    @Override
    public <V extends FileAttributeView> @Nullable V getFileAttributeView(
            Path path, Class<V> type, LinkOption... options) {
        return Files.getFileAttributeView(unwrap(path), type, options);
    }

    @Override
    public <A extends BasicFileAttributes> A readAttributes(Path path, Class<A> type, LinkOption... options)
            throws IOException {
        disk.stillThere(unwrap(path));
        return Files.readAttributes(unwrap(path), type, options);
    }

    @Override
    public Map<String, Object> readAttributes(Path path, String attributes, LinkOption... options) throws IOException {
        disk.stillThere(unwrap(path));
        return Files.readAttributes(unwrap(path), attributes, options);
    }

    @Override
    public void setAttribute(Path path, String attribute, Object value, LinkOption... options) throws IOException {
        disk.before(Kind.ATTRIBUTE, unwrap(path), null);
        Files.setAttribute(unwrap(path), attribute, value, options);
    }
}
