package vestibule.conformance.fault;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.stream.Stream;

/**
 * The photographs of a card or folder as they were before anything touched them: what the {@link Oracle} compares the end with.
 */
public final class SourcePhotos {

    /**
     * One photograph, whatever its names.
     *
     * @param photo SHA-256 of its bytes
     * @param scan its {@link ScanHash}
     * @param patientId whose it is
     * @param objects how many objects it becomes: 2 where the picture as recorded is kept beside the corrected one
     */
    public record SourcePhoto(String photo, String scan, String patientId, int objects) {}

    private record Looks(long size, FileTime modified, String hash) {}

    private final Path folder;
    private final Map<Path, Looks> files;
    private final Map<String, SourcePhoto> photos;

    private SourcePhotos(Path folder, Map<Path, Looks> files, Map<String, SourcePhoto> photos) {
        this.folder = folder;
        this.files = Map.copyOf(files);
        this.photos = Collections.unmodifiableMap(photos);
    }

    /**
     * Looks at a folder.
     *
     * @param patientOf whose photograph a file is
     * @param objectsOf how many objects a file becomes
     */
    public static SourcePhotos in(Path folder, Function<Path, String> patientOf, Function<Path, Integer> objectsOf)
            throws IOException {
        Map<Path, Looks> files = look(folder);
        Map<String, SourcePhoto> photos = new LinkedHashMap<>();
        for (Map.Entry<Path, Looks> file : new TreeMap<>(files).entrySet()) {
            Path path = folder.resolve(file.getKey());
            ScanHash.of(Files.readAllBytes(path))
                    .ifPresent(scan -> photos.put(
                            file.getValue().hash(),
                            new SourcePhoto(
                                    file.getValue().hash(), scan, patientOf.apply(path), objectsOf.apply(path))));
        }
        return new SourcePhotos(folder, files, photos);
    }

    /** Looks at a folder whose photographs all are of one patient and become one object each. */
    public static SourcePhotos in(Path folder, String patientId) throws IOException {
        return in(folder, path -> patientId, path -> 1);
    }

    /** Each photograph once, by the hash of its bytes. */
    public Map<String, SourcePhoto> photos() {
        return photos;
    }

    /** What differs in the folder now; nothing may. */
    public List<String> touched() throws IOException {
        Map<Path, Looks> now = look(folder);
        List<String> touched = new ArrayList<>();
        files.forEach((path, before) -> {
            if (!before.equals(now.get(path))) {
                touched.add(path + " is not as it was");
            }
        });
        now.keySet().stream().filter(path -> !files.containsKey(path)).forEach(path -> touched.add(path + " is new"));
        return touched;
    }

    private static Map<Path, Looks> look(Path folder) throws IOException {
        Map<Path, Looks> files = new LinkedHashMap<>();
        try (Stream<Path> all = Files.walk(folder)) {
            for (Path path : all.filter(Files::isRegularFile).toList()) {
                files.put(
                        folder.relativize(path),
                        new Looks(
                                Files.size(path),
                                Files.getLastModifiedTime(path),
                                ScanHash.sha256(Files.readAllBytes(path))));
            }
        }
        return files;
    }
}
