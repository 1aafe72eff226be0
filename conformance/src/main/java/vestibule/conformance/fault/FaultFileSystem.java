package vestibule.conformance.fault;

import java.io.IOException;
import java.nio.file.FileStore;
import java.nio.file.FileSystem;
import java.nio.file.FileSystems;
import java.nio.file.Path;
import java.nio.file.PathMatcher;
import java.nio.file.WatchService;
import java.nio.file.attribute.UserPrincipalLookupService;
import java.nio.file.spi.FileSystemProvider;
import java.util.List;
import java.util.Set;

/** The file system of a {@link FaultDisk}: the machine's own, with every path wrapped. */
final class FaultFileSystem extends FileSystem {

    private final FaultDisk disk;
    private final FaultProvider provider;
    private final FileSystem real = FileSystems.getDefault();

    FaultFileSystem(FaultDisk disk) {
        this.disk = disk;
        this.provider = new FaultProvider(disk);
    }

    FaultDisk disk() {
        return disk;
    }

    FaultPath wrap(Path path) {
        return path instanceof FaultPath wrapped ? wrapped : new FaultPath(this, path);
    }

    static Path unwrap(Path path) {
        return path instanceof FaultPath wrapped ? wrapped.real() : path;
    }

    @Override
    public FileSystemProvider provider() {
        return provider;
    }

    @Override
    public void close() {
        throw new UnsupportedOperationException("it ends with its folder");
    }

    @Override
    public boolean isOpen() {
        return true;
    }

    @Override
    public boolean isReadOnly() {
        return false;
    }

    @Override
    public String getSeparator() {
        return real.getSeparator();
    }

    @Override
    public Iterable<Path> getRootDirectories() {
        return List.of(disk.root());
    }

    @Override
    public Iterable<FileStore> getFileStores() {
        return real.getFileStores();
    }

    @Override
    public Set<String> supportedFileAttributeViews() {
        return real.supportedFileAttributeViews();
    }

    @Override
    public Path getPath(String first, String... more) {
        return wrap(real.getPath(first, more));
    }

    @Override
    public PathMatcher getPathMatcher(String syntaxAndPattern) {
        PathMatcher matcher = real.getPathMatcher(syntaxAndPattern);
        return path -> matcher.matches(unwrap(path));
    }

    @Override
    public UserPrincipalLookupService getUserPrincipalLookupService() {
        return real.getUserPrincipalLookupService();
    }

    @Override
    public WatchService newWatchService() throws IOException {
        return real.newWatchService();
    }
}
