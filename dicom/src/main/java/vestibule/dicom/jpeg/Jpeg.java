package vestibule.dicom.jpeg;

import java.io.IOException;
import java.nio.channels.SeekableByteChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * What one JPEG stream is made of (T.81 Annex B): its segments, frame and scans, where they lie, what the components
 * mean, and what of it an object should carry.
 *
 * <p>Reading walks the whole stream from SOI to EOI through a small window and checks its structure: lengths, tables,
 * headers, the order of scans and restart markers, and that the data can be long enough for the size declared. It does
 * not decode; that the entropy-coded data is whole is another question. What decoders forgive (bytes between segments,
 * bytes after EOI, a broken profile) is in {@link #notes()}; everything else that is wrong is a
 * {@link JpegFormatException}.
 */
public final class Jpeg {
    private final Contents contents;
    private final JpegLimits limits;
    private final long length;
    private final List<byte[]> exif;
    private final byte @Nullable [] profile;
    private final ColorReading color;

    /** What the walk gathered, apart from bytes. */
    record Contents(
            List<Segment> segments,
            Frame frame,
            int frames,
            boolean hierarchical,
            List<Scan> scans,
            List<TableState> tables,
            boolean conformingScans,
            List<Adobe> adobe,
            ProfileCondition profileCondition,
            List<String> notes) {
        Contents {
            segments = List.copyOf(segments);
            scans = List.copyOf(scans);
            tables = List.copyOf(tables);
            adobe = List.copyOf(adobe);
            notes = List.copyOf(notes);
        }
    }

    Jpeg(Contents contents, JpegLimits limits, long length, List<byte[]> exif, byte @Nullable [] profile) {
        this.contents = contents;
        this.limits = limits;
        this.length = length;
        this.exif = List.copyOf(exif);
        this.profile = profile;
        this.color = ColorReading.of(contents.frame(), has(SegmentKind.JFIF), contents.adobe());
    }

    /** Walks the file; the memory it takes does not depend on the file's length. */
    public static Jpeg read(Path file, JpegLimits limits) throws IOException {
        try (SeekableByteChannel channel = Files.newByteChannel(file)) {
            return read(channel, limits);
        }
    }

    /** Walks a channel from its position 0 to its size, and leaves it open. */
    public static Jpeg read(SeekableByteChannel channel, JpegLimits limits) throws IOException {
        return SegmentWalk.walk(channel, limits);
    }

    /**
     * Reads the segments before the first coded data, and looks whether the stream ends with EOI; what lies between is not
     * looked at, so that its scans are one and of whatever length is left.
     *
     * @return empty if EOI is not at the end, give or take {@value SegmentWalk#TAIL} bytes: such a stream must be walked
     */
    public static Optional<Jpeg> readHeaders(SeekableByteChannel channel, JpegLimits limits) throws IOException {
        return SegmentWalk.headers(channel, limits);
    }

    /** Walks a stream that is in memory already. */
    public static Jpeg read(byte[] stream, JpegLimits limits) throws JpegFormatException {
        try (ByteArrayChannel channel = new ByteArrayChannel(stream)) {
            return SegmentWalk.walk(channel, limits);
        } catch (JpegFormatException wrong) {
            throw wrong;
        } catch (IOException impossible) {
            throw new AssertionError("bytes in memory can always be read", impossible);
        }
    }

    /** Length of the source in bytes, with whatever follows the picture. */
    public long length() {
        return length;
    }

    /** Every marker segment from SOI to EOI, in the order of the stream. */
    public List<Segment> segments() {
        return contents.segments();
    }

    /** The frame header; of a hierarchical picture the first. */
    public Frame frame() {
        return contents.frame();
    }

    /** How many frames there are: one, except in a hierarchical picture. */
    public int frameCount() {
        return contents.frames();
    }

    /** Whether the frames build on each other (T.81 Annex J). */
    public boolean hierarchical() {
        return contents.hierarchical();
    }

    /** Every scan, in the order of the stream. */
    public List<Scan> scans() {
        return contents.scans();
    }

    /** MCUs between the restart markers of the first scan, 0 for none. */
    public int restartInterval() {
        return scans().get(0).restartInterval();
    }

    /** Offset of the first byte after EOI. */
    public long end() {
        return segments().get(segments().size() - 1).end();
    }

    /** How many bytes of the source follow EOI. */
    public long trailingBytes() {
        return length - end();
    }

    /** What was found and forgiven, one sentence without a full stop each. */
    public List<String> notes() {
        return contents.notes();
    }

    /** What the components mean. */
    public ColorReading color() {
        return color;
    }

    /** The last Adobe segment, which is the one that decoders go by. */
    public Optional<Adobe> adobe() {
        List<Adobe> all = contents.adobe();
        return all.isEmpty() ? Optional.empty() : Optional.of(all.get(all.size() - 1));
    }

    /** Whether a segment of this kind is there. */
    public boolean has(SegmentKind kind) {
        return count(kind) > 0;
    }

    /** How many segments of this kind there are. */
    public int count(SegmentKind kind) {
        return (int)
                segments().stream().filter(segment -> segment.kind() == kind).count();
    }

    /**
     * The payload of the first Exif segment: the six bytes {@code Exif 00 00}, then a TIFF stream; at most 65,533
     * bytes, of which nothing but the identifier has been looked at.
     */
    public Optional<byte[]> exifBlock() {
        return exif.stream().findFirst().map(byte[]::clone);
    }

    /**
     * The payloads of the Exif segments before the first scan, which is as far as readers look for them; of more than four the first
     * four.
     */
    public List<byte[]> exifBlocks() {
        return exif.stream().limit(exifCount()).map(byte[]::clone).toList();
    }

    /** How many Exif segments there are before the first scan. */
    public long exifCount() {
        return segments().stream()
                .takeWhile(segment -> segment.kind() != SegmentKind.SCAN_HEADER)
                .filter(segment -> segment.kind() == SegmentKind.EXIF)
                .count();
    }

    /** How the ICC profile fares. */
    public ProfileCondition profileCondition() {
        return contents.profileCondition();
    }

    /** The ICC profile put together from its chunks; there when {@link ProfileCondition#COMPLETE}. */
    public Optional<byte[]> iccProfile() {
        return Optional.ofNullable(profile).map(byte[]::clone);
    }

    /** Whether the stream may go into a JPEG Baseline object as it is, and if not, every reason. */
    public Fitness fitness() {
        return Fitness.of(this);
    }

    /** The bytes an object should carry, with a complete ICC profile. */
    public Essential essential() {
        return Essential.of(this, true);
    }

    /** The bytes an object should carry when the profile is to stay out of the stream. */
    public Essential essentialWithoutProfile() {
        return Essential.of(this, false);
    }

    JpegLimits limits() {
        return limits;
    }

    TableState tables(int scan) {
        return contents.tables().get(scan);
    }

    boolean conformingScans() {
        return contents.conformingScans();
    }
}
