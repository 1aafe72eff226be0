package vestibule.conformance.fault;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * What of a folder's content a power cut would leave: for each name whether its folder was forced since, for each file the bytes that were
 * forced. Stricter than most file systems are: forcing a file does not keep its name, and forcing one folder does not keep another's.
 * Files that were changed behind its back, such as those of a database, are taken to be as they lie.
 */
final class DiskModel {

    /** A file or folder, whatever its name is at the moment. */
    private static final class Node {
        private final boolean folder;
        /** Whether it was there before, or is changed by others: then it counts as it lies. */
        private final boolean asItLies;

        private byte[] forced = {};
        /** Its bytes when its last name went. */
        private byte @Nullable [] last;

        Node(boolean folder, boolean asItLies) {
            this.folder = folder;
            this.asItLies = asItLies;
        }
    }

    private final Path root;
    private final Map<Path, Node> names = new TreeMap<>();
    private final Map<Path, Node> forcedNames = new TreeMap<>();
    private final Set<Path> gone = new HashSet<>();

    /** A model of a folder; what is there now is taken to be safe. */
    DiskModel(Path root) throws IOException {
        this.root = root;
        try (Stream<Path> all = Files.walk(root)) {
            for (Path path : all.toList()) {
                names.put(relative(path), new Node(Files.isDirectory(path), true));
            }
        }
        forcedNames.putAll(names);
    }

    private Path relative(Path real) {
        return root.relativize(real);
    }

    synchronized void created(Path real, boolean folder) {
        names.put(relative(real), new Node(folder, false));
        gone.remove(relative(real));
    }

    /** Another name of the same file. */
    synchronized void linked(Path link, Path existing) {
        Node node = names.get(relative(existing));
        if (node != null) {
            names.put(relative(link), node);
            gone.remove(relative(link));
        }
    }

    synchronized void forced(Path real) throws IOException {
        Node node = names.get(relative(real));
        if (node != null && !node.asItLies) {
            node.forced = Files.readAllBytes(real);
        }
    }

    synchronized void forcedFolder(Path real) {
        Path folder = relative(real);
        forcedNames.keySet().removeIf(name -> isIn(name, folder) && !names.containsKey(name));
        names.forEach((name, node) -> {
            if (isIn(name, folder)) {
                forcedNames.put(name, node);
            }
        });
    }

    /** The root's own relative name is empty, as is the parent of a name in it, which Java gives as none. */
    private static boolean isIn(Path name, Path folder) {
        if (name.toString().isEmpty()) {
            return false;
        }
        Path parent = name.getParent();
        return parent == null ? folder.toString().isEmpty() : parent.equals(folder);
    }

    /** To be called before it happens, so that the bytes can still be read. */
    synchronized void moving(Path from, Path to) throws IOException {
        leaving(to);
        Path source = relative(from);
        Path target = relative(to);
        for (Path name : List.copyOf(names.keySet())) {
            if (name.startsWith(source) && !source.toString().isEmpty()) {
                Node node = names.remove(name);
                gone.add(name);
                Path moved = name.equals(source) ? target : target.resolve(source.relativize(name));
                if (node != null) {
                    names.put(moved, node);
                    gone.remove(moved);
                }
            }
        }
    }

    /** To be called before a name goes. */
    synchronized void leaving(Path real) throws IOException {
        Node node = names.remove(relative(real));
        if (node != null && !node.folder && Files.isRegularFile(real)) {
            node.last = Files.readAllBytes(real);
        }
        if (node != null) {
            gone.add(relative(real));
        }
    }

    /**
     * Lays out what a power cut now would leave.
     *
     * @param target an empty folder elsewhere
     * @param cut what it does
     * @param under the write under way, if that is what is cut
     */
    synchronized void layOut(Path target, Cut cut, @Nullable DiskOperation under) throws IOException {
        Map<Path, Node> kept = cut.dropsNames() ? forcedNames : names;
        for (Map.Entry<Path, Node> entry : kept.entrySet()) {
            Path to = target.resolve(entry.getKey());
            boolean reachable = entry.getKey().toString().isEmpty() || Files.isDirectory(parent(to));
            if (!reachable) {
                continue;
            }
            if (entry.getValue().folder) {
                Files.createDirectories(to);
            } else {
                Files.write(to, content(entry.getValue(), cut.dropsData()));
            }
        }
        copyOthers(target);
        if (cut.tears() && under != null && under.data().isPresent()) {
            tear(target.resolve(under.path()), under.data().get());
        }
    }

    private static Path parent(Path path) {
        Path parent = path.getParent();
        return parent == null ? path : parent;
    }

    private byte[] content(Node node, boolean dropsData) throws IOException {
        if (dropsData && !node.asItLies) {
            return node.forced;
        }
        for (Map.Entry<Path, Node> entry : names.entrySet()) {
            if (entry.getValue() == node) {
                Path real = root.resolve(entry.getKey());
                // What others change may be gone: then there was nothing to keep
                return Files.exists(real) ? Files.readAllBytes(real) : node.forced;
            }
        }
        return node.last == null ? node.forced : node.last;
    }

    /** What others made, such as a database beside its journal. */
    private void copyOthers(Path target) throws IOException {
        try (Stream<Path> all = Files.walk(root)) {
            for (Path path : all.toList()) {
                Path name = relative(path);
                if (!names.containsKey(name) && !gone.contains(name) && Files.isRegularFile(path)) {
                    Files.createDirectories(parent(target.resolve(name)));
                    Files.copy(path, target.resolve(name));
                }
            }
        }
    }

    private static void tear(Path file, DiskOperation.Written written) throws IOException {
        ByteBuffer half = written.bytes().duplicate();
        half.limit(half.position() + half.remaining() / 2);
        byte[] bytes = new byte[half.remaining()];
        half.get(bytes);
        byte[] before = Files.exists(file) ? Files.readAllBytes(file) : new byte[0];
        byte[] after =
                java.util.Arrays.copyOf(before, (int) Math.max(before.length, written.position() + bytes.length));
        System.arraycopy(bytes, 0, after, (int) written.position(), bytes.length);
        Files.write(file, after);
    }
}
