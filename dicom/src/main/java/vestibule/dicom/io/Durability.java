package vestibule.dicom.io;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;

/** What it takes for a file to outlast a power cut, beyond forcing its own bytes. */
public final class Durability {

    private Durability() {}

    /**
     * Forces a folder to the disk, and with it the names of files that were made in it or moved into it. Windows does not open folders;
     * there the file system keeps names by itself (common practice, no source).
     */
    public static void forceFolder(Path folder) throws IOException {
        if (!System.getProperty("os.name", "").startsWith("Windows")) {
            try (FileChannel channel = FileChannel.open(folder, StandardOpenOption.READ)) {
                channel.force(true);
            }
        }
    }
}
