package vestibule.conformance.fault;

import java.io.IOException;
import java.nio.file.FileStore;
import java.nio.file.attribute.FileAttributeView;
import java.nio.file.attribute.FileStoreAttributeView;
import org.jspecify.annotations.Nullable;

/** The volume of a {@link FaultDisk}: the machine's own, with as much space left as the disk says. */
final class FaultStore extends FileStore {

    private final FaultDisk disk;
    private final FileStore real;

    FaultStore(FaultDisk disk, FileStore real) {
        this.disk = disk;
        this.real = real;
    }

    @Override
    public String name() {
        return real.name();
    }

    @Override
    public String type() {
        return real.type();
    }

    @Override
    public boolean isReadOnly() {
        return real.isReadOnly();
    }

    @Override
    public long getTotalSpace() throws IOException {
        return real.getTotalSpace();
    }

    @Override
    public long getUsableSpace() throws IOException {
        return disk.usable().isPresent() ? disk.usable().getAsLong() : real.getUsableSpace();
    }

    @Override
    public long getUnallocatedSpace() throws IOException {
        return disk.usable().isPresent() ? disk.usable().getAsLong() : real.getUnallocatedSpace();
    }

    @Override
    public boolean supportsFileAttributeView(Class<? extends FileAttributeView> type) {
        return real.supportsFileAttributeView(type);
    }

    @Override
    public boolean supportsFileAttributeView(String name) {
        return real.supportsFileAttributeView(name);
    }

    @Override
    public <V extends FileStoreAttributeView> @Nullable V getFileStoreAttributeView(Class<V> type) {
        return real.getFileStoreAttributeView(type);
    }

    @Override
    public Object getAttribute(String attribute) throws IOException {
        return real.getAttribute(attribute);
    }
}
