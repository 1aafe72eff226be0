package vestibule.dicom.io;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;

/** What it takes for a file to outlast a power cut, beyond forcing its own bytes. */
public final class Durability {

    private Durability() {}

    /**
     * Makes a folder and those above it that are not there, and forces the name of each new one to the disk: a file forced into a folder
     * whose own name was not is gone with it.
     */
    public static void makeFolders(Path folder) throws IOException {
        Path parent = folder.toAbsolutePath().getParent();
        if (Files.isDirectory(folder) || parent == null) {
            return;
        }
        makeFolders(parent);
        Files.createDirectories(folder);
        forceFolder(parent);
    }

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
