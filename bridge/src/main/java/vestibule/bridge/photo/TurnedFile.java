package vestibule.bridge.photo;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.channels.FileChannel;
import java.nio.channels.SeekableByteChannel;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import vestibule.dicom.data.Bulk;
import vestibule.dicom.jpeg.EdgeLoss;
import vestibule.dicom.jpeg.EdgeLossException;
import vestibule.dicom.jpeg.Frame;
import vestibule.dicom.jpeg.Jpeg;
import vestibule.dicom.jpeg.JpegFormatException;
import vestibule.dicom.jpeg.JpegLimits;
import vestibule.dicom.jpeg.Recoder;
import vestibule.dicom.jpeg.Recoding;
import vestibule.dicom.jpeg.Segment;
import vestibule.dicom.jpeg.SegmentKind;
import vestibule.dicom.jpeg.Turn;

/** A photograph turned without loss as a file of its own, with the camera's metadata as far as it is still true. */
public final class TurnedFile {

    private TurnedFile() {}

    /**
     * Writes the turned photograph; the target appears whole or not at all, and never takes the place of another file.
     *
     * @param turn how to lay the picture down
     * @param edge what to do where a partial block would come to the wrong edge
     * @param scratch where the picture in the making lies
     * @return what a person should know, a sentence without a full stop
     * @throws PhotoException if the picture is damaged, of a kind that is not decoded here, or would lose its edge
     * @throws IOException if a file cannot be read or written, or the target is there
     */
    public static Optional<String> write(Photo photo, Turn turn, Recoding.Edge edge, Scratch scratch, Path target)
            throws IOException, PhotoException {
        if (turn == Turn.NONE) {
            writeWhole(target, List.of(Bulk.of(photo.file(), 0, photo.jpeg().end())));
            return Optional.of("the picture lies that way already, so its bytes were copied");
        }
        Path file = scratch.next();
        try (SeekableByteChannel source = Files.newByteChannel(photo.file());
                OutputStream out = new BufferedOutputStream(Files.newOutputStream(file))) {
            EdgeLoss loss = Recoder.recode(
                            source, photo.jpeg(), Recoding.of(turn).with(edge), out)
                    .loss();
            out.flush();
            List<Bulk> parts = new ArrayList<>();
            Jpeg turned = Jpeg.read(file, JpegLimits.DEFAULT);
            parts.add(Bulk.of(new byte[] {(byte) 0xFF, (byte) 0xD8}));
            parts.addAll(metadata(photo, turned.frame(), turn));
            parts.addAll(picture(file, turned));
            writeWhole(target, parts);
            return loss.isNone() ? Optional.empty() : Optional.of("left off " + loss.words() + " of the picture");
        } catch (EdgeLossException e) {
            throw new PhotoException(
                    "without loss the picture cannot be turned so, for %s would have to be left off; --edge trim allows it"
                            .formatted(e.loss().words()));
        } catch (JpegFormatException damaged) {
            throw PhotoException.of(damaged);
        }
    }

    /** Thumbnails in segments of their own and indexes of further pictures show or mean the picture as it was, and stay behind. */
    private static List<Bulk> metadata(Photo photo, Frame frame, Turn turn) throws IOException {
        List<Bulk> segments = new ArrayList<>();
        for (Segment segment : photo.jpeg().segments()) {
            Bulk bytes = Bulk.of(photo.file(), segment.offset(), segment.length());
            switch (segment.kind()) {
                case EXIF ->
                    segments.add(
                            Bulk.of(TurnedMetadata.exif(bytes.bytes(1 << 16), frame.samplesPerLine(), frame.lines())));
                case XMP -> segments.add(Bulk.of(TurnedMetadata.xmp(bytes.bytes(1 << 16))));
                case JFIF -> segments.add(Bulk.of(TurnedMetadata.jfif(bytes.bytes(1 << 16), turn.exchangesAxes())));
                case JFIF_EXTENSION, MULTI_PICTURE -> {}
                default -> {
                    if (segment.kind().isMetadata()) {
                        segments.add(bytes);
                    }
                }
            }
        }
        return segments;
    }

    /** The turned picture from its first table to its end. */
    private static List<Bulk> picture(Path file, Jpeg turned) {
        List<Bulk> parts = new ArrayList<>();
        long from = 2;
        for (Segment segment : turned.segments()) {
            if (segment.kind().isMetadata()) {
                parts.add(Bulk.of(file, from, segment.offset() - from));
                from = segment.end();
            }
            if (segment.kind() == SegmentKind.END_OF_IMAGE) {
                parts.add(Bulk.of(file, from, segment.end() - from));
            }
        }
        return parts;
    }

    private static void writeWhole(Path target, List<Bulk> parts) throws IOException {
        Path folder = target.toAbsolutePath().getParent();
        Path temporary = Files.createTempFile(folder, ".vestibule-", ".part");
        try {
            try (FileChannel channel = FileChannel.open(temporary, StandardOpenOption.WRITE)) {
                Bulk.concat(parts).transferTo(channel);
                channel.force(true);
            }
            try {
                // A link, unlike a move, never takes the place of what has come there meanwhile
                Files.createLink(target, temporary);
            } catch (UnsupportedOperationException noLinks) {
                Files.move(temporary, target);
            }
        } catch (FileAlreadyExistsException there) {
            throw new java.nio.file.FileSystemException(
                    target.toString(), null, "is there already and is not written over");
        } finally {
            Files.deleteIfExists(temporary);
        }
    }
}
