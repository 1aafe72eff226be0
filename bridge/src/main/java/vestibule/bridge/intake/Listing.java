package vestibule.bridge.intake;

import java.io.IOException;
import java.nio.file.FileVisitOption;
import java.nio.file.FileVisitResult;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.SimpleFileVisitor;
import java.nio.file.attribute.BasicFileAttributes;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;

/**
 * What lies in a source at one moment, folders and all, in the order of names.
 *
 * @param files ordinary files that are not to be left alone; links are not followed
 * @param trouble why not everything was reached
 */
public record Listing(List<Entry> files, Optional<String> trouble) {

    /** A card's folders lie three deep; more than this is a loop or no card. */
    private static final int DEEPEST = 16;

    public Listing {
        files = List.copyOf(files);
    }

    /**
     * A file.
     *
     * @param name below the source, parted by {@code /}
     * @param changed when it was changed last, as the source says
     */
    public record Entry(Path path, String name, long bytes, Instant changed) {

        /** Whether two looks at one file saw the same. */
        boolean sameAs(Entry other) {
            return bytes == other.bytes && changed.equals(other.changed);
        }
    }

    /** Lists a source. */
    public static Listing of(Path source, LeaveAlone leaveAlone) {
        List<Entry> files = new ArrayList<>();
        List<String> trouble = new ArrayList<>();
        try {
            if (!Files.isDirectory(source)) {
                throw new NoSuchFileException(source.toString(), null, "is not there, or is no folder");
            }
            Files.walkFileTree(
                    source,
                    EnumSet.noneOf(FileVisitOption.class),
                    DEEPEST,
                    new Visitor(source, leaveAlone, files, trouble));
        } catch (IOException e) {
            trouble.add(reason(e));
        }
        files.sort(Comparator.comparing(Entry::name, NameOrder::compare));
        return new Listing(files, trouble.stream().findFirst());
    }

    private static String reason(IOException e) {
        return e instanceof NoSuchFileException
                ? "it is not there"
                : "it cannot be read (%s)".formatted(SourceException.reason(e));
    }

    private static final class Visitor extends SimpleFileVisitor<Path> {
        private final Path source;
        private final LeaveAlone leaveAlone;
        private final List<Entry> files;
        private final List<String> trouble;

        Visitor(Path source, LeaveAlone leaveAlone, List<Entry> files, List<String> trouble) {
            this.source = source;
            this.leaveAlone = leaveAlone;
            this.files = files;
            this.trouble = trouble;
        }

        @Override
        public FileVisitResult preVisitDirectory(Path folder, BasicFileAttributes attributes) {
            boolean leave = !folder.equals(source) && leaveAlone.covers(folder);
            return leave ? FileVisitResult.SKIP_SUBTREE : FileVisitResult.CONTINUE;
        }

        @Override
        public FileVisitResult visitFile(Path file, BasicFileAttributes attributes) {
            if (attributes.isDirectory()) {
                trouble.add("folders lie more than %d deep".formatted(DEEPEST));
            } else if (attributes.isRegularFile() && !leaveAlone.covers(file)) {
                files.add(new Entry(
                        file,
                        name(source.relativize(file)),
                        attributes.size(),
                        attributes.lastModifiedTime().toInstant()));
            }
            return FileVisitResult.CONTINUE;
        }

        @Override
        public FileVisitResult visitFileFailed(Path file, IOException e) {
            trouble.add(reason(e));
            return FileVisitResult.CONTINUE;
        }

        @Override
        public FileVisitResult postVisitDirectory(Path folder, @org.jspecify.annotations.Nullable IOException e) {
            if (e != null) {
                trouble.add(reason(e));
            }
            return FileVisitResult.CONTINUE;
        }

        private static String name(Path relative) {
            List<String> parts = new ArrayList<>();
            relative.forEach(part -> parts.add(part.toString()));
            return String.join("/", parts);
        }
    }
}
