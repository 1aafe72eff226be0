package vestibule.conformance.fault;

import java.io.IOException;
import java.nio.file.DirectoryStream;
import java.nio.file.Path;
import java.util.Iterator;

/** The names in a folder of a {@link FaultDisk}. */
final class FaultFolder implements DirectoryStream<Path> {

    private final FaultFileSystem fileSystem;
    private final DirectoryStream<Path> names;

    /** Takes over names of the machine's own file system, and closes them when it is closed. */
    FaultFolder(FaultFileSystem fileSystem, DirectoryStream<Path> names) {
        this.fileSystem = fileSystem;
        this.names = names;
    }

    @Override
    public Iterator<Path> iterator() {
        Iterator<Path> each = names.iterator();
        return new Iterator<>() {
            @Override
            public boolean hasNext() {
                return each.hasNext();
            }

            @Override
            public Path next() {
                return fileSystem.wrap(each.next());
            }
        };
    }

    @Override
    public void close() throws IOException {
        names.close();
    }
}
