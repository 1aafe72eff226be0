package vestibule.validator;

import java.io.IOException;
import java.nio.file.DirectoryIteratorException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Deque;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/**
 * The files below some paths, by name within each folder, ZIP files opened. Symbolic links are followed, but no folder is entered twice, so that links in a
 * circle end.
 */
final class FileTree {

    private final Batch batch;
    private final Set<Path> entered = new HashSet<>();

    FileTree(Batch batch) {
        this.batch = batch;
    }

    void walk(Path start) throws IOException {
        Deque<Path> waiting = new ArrayDeque<>();
        waiting.push(start);
        while (!waiting.isEmpty()) {
            Path path = waiting.pop();
            if (Files.isDirectory(path)) {
                List<Path> inside = inside(path);
                Collections.reverse(inside);
                inside.forEach(waiting::push);
            } else if (Files.isRegularFile(path)) {
                file(path);
            } else if (Files.isSymbolicLink(path)) {
                batch.unreadable(
                        Named.of(path), "a symbolic link that leads nowhere; remove it or restore what it points to");
            } else if (Files.exists(path)) {
                batch.unreadable(Named.of(path), "neither a file nor a folder; it was not opened");
            } else {
                batch.unreadable(Named.of(path), "there is no such file or folder; check the path");
            }
        }
    }

    private void file(Path path) throws IOException {
        if (ZipContents.isZip(path)) {
            new ZipContents(path, batch).take();
        } else {
            batch.take(path, Named.of(path), false);
        }
    }

    private List<Path> inside(Path folder) throws IOException {
        List<Path> inside = new ArrayList<>();
        try {
            if (!entered.add(folder.toRealPath())) {
                return inside;
            }
            try (DirectoryStream<Path> stream = Files.newDirectoryStream(folder)) {
                stream.forEach(inside::add);
            }
        } catch (IOException | DirectoryIteratorException e) {
            inside.clear();
            batch.unreadable(Named.of(folder), "the folder cannot be opened; check who may read it");
        }
        Collections.sort(inside);
        return inside;
    }
}
