package vestibule.dicom.jpeg;

import java.io.IOException;
import java.nio.channels.SeekableByteChannel;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** Walks a stream from SOI to EOI (T.81 B.2.1) and gathers what {@link Jpeg} tells. */
final class SegmentWalk {
    private static final int MOST_NOTES = 20;
    /** How many bytes at the end are looked through for EOI when the coded data is not. */
    static final int TAIL = 64;

    private final JpegLimits limits;
    private final StreamReader reader;
    private final ApplicationSegments applications;
    private final TableState tables = new TableState();
    private final List<Segment> segments = new ArrayList<>();
    private final List<Scan> scans = new ArrayList<>();
    private final List<TableState> scanTables = new ArrayList<>();
    private final List<String> notes = new ArrayList<>();
    private @Nullable Frame frame;
    private @Nullable ScanCoverage coverage;
    private int restartInterval;
    private int frames;
    private boolean hierarchical;
    private boolean conformingScans = true;
    private int fillBytes;

    private SegmentWalk(SeekableByteChannel channel, JpegLimits limits) throws IOException {
        this.limits = limits;
        this.reader = new StreamReader(channel);
        this.applications = new ApplicationSegments(reader);
    }

    static Jpeg walk(SeekableByteChannel channel, JpegLimits limits) throws IOException {
        return new SegmentWalk(channel, limits).walk();
    }

    static Optional<Jpeg> headers(SeekableByteChannel channel, JpegLimits limits) throws IOException {
        SegmentWalk walk = new SegmentWalk(channel, limits);
        int code = walk.start();
        while (code != Marker.EOI && code != Marker.SOS) {
            walk.segment(code);
            code = walk.nextMarker();
        }
        if (code == Marker.SOS) {
            walk.onlyScanHeader();
            if (!walk.seekEnd()) {
                return Optional.empty();
            }
        }
        return Optional.of(walk.finish());
    }

    private void onlyScanHeader() throws IOException {
        long offset = reader.offset() - 2;
        ByteRange payload = payload(Marker.SOS, offset);
        Frame inForce = frame(payload);
        ScanHeader header = ScanHeader.read(inForce, bytes(payload), payload.offset());
        conformingScans = header.conforming();
        segments.add(new Segment(Marker.SOS, offset, payload.end() - offset, fillBytes, SegmentKind.SCAN_HEADER));
        long end = Math.max(payload.end(), reader.length() - 2);
        addScan(header, new ByteRange(payload.end(), end - payload.end()), 0);
        // the scans after it are not seen, so nothing can be said of what they bring
        coverage = null;
        reader.seek(payload.end());
    }

    /** Moves behind the last EOI, if one is near the end. */
    private boolean seekEnd() throws IOException {
        long from = Math.max(reader.offset(), reader.length() - TAIL);
        byte[] tail = reader.bytes(from, (int) (reader.length() - from));
        for (int i = tail.length - 2; i >= 0; i--) {
            if (tail[i] == (byte) 0xFF && (tail[i + 1] & 0xFF) == Marker.EOI) {
                reader.seek(from + i + 2);
                fillBytes = 0;
                return true;
            }
        }
        return false;
    }

    private Jpeg walk() throws IOException {
        int code = start();
        while (code != Marker.EOI) {
            segment(code);
            code = nextMarker();
        }
        return finish();
    }

    private int start() throws IOException {
        if (reader.length() > limits.maxFileBytes()) {
            throw new JpegFormatException(
                    0, "begin " + reader.length() + " bytes, more than the limit of " + limits.maxFileBytes() + ".");
        }
        if (reader.read() != 0xFF || reader.read() != Marker.SOI) {
            throw new JpegFormatException(0, "there is no SOI marker (FFD8); this is not a JPEG picture.");
        }
        segments.add(new Segment(Marker.SOI, 0, 2, 0, SegmentKind.START_OF_IMAGE));
        return nextMarker();
    }

    private Jpeg finish() throws IOException {
        long end = reader.offset();
        segments.add(new Segment(Marker.EOI, end - 2, 2, fillBytes, SegmentKind.END_OF_IMAGE));
        Frame found = frame;
        if (found == null || scans.isEmpty()) {
            throw new JpegFormatException(
                    end - 2, "the picture ends (EOI) before it had a " + (found == null ? "frame." : "scan."));
        }
        if (coverage != null) {
            coverage.finish(end - 2);
        }
        if (reader.length() > end) {
            note((reader.length() - end) + " bytes follow the end of the picture and stay behind");
        }
        ProfileCondition condition = applications.profile().assemble(reader, limits.maxProfileBytes());
        noteProfile(condition);
        return new Jpeg(
                new Jpeg.Contents(
                        segments,
                        found,
                        frames,
                        hierarchical,
                        scans,
                        scanTables,
                        conformingScans,
                        applications.adobe(),
                        condition,
                        notes),
                limits,
                reader.length(),
                applications.exif(),
                applications.profile().profile());
    }

    private void noteProfile(ProfileCondition condition) {
        if (condition != ProfileCondition.NONE && condition != ProfileCondition.COMPLETE) {
            note(condition.words() + " (" + applications.profile().count() + " chunks)");
        } else if (applications.profile().outOfOrder()) {
            note("the chunks of the ICC profile are not in their order");
        }
    }

    /** The next marker's code, with the reader just after it; bytes that belong to no segment are noted. */
    private int nextMarker() throws IOException {
        while (true) {
            long start = reader.offset();
            if (!reader.seekMarkerPrefix()) {
                throw endedEarly();
            }
            long prefix = reader.offset();
            int code = 0xFF;
            while (code == 0xFF) {
                code = reader.read();
            }
            if (code < 0) {
                throw endedEarly();
            }
            fillBytes = Math.toIntExact(reader.offset() - prefix - 2);
            boolean alone = code == 0 || code == Marker.TEM || Marker.isRestart(code);
            if (prefix > start || alone) {
                long end = alone ? reader.offset() : prefix;
                note((end - start) + " bytes at byte " + start + " belong to no segment and stay behind");
            }
            if (!alone) {
                return code;
            }
        }
    }

    private JpegFormatException endedEarly() {
        return new JpegFormatException(
                reader.length(), "the file ends without an end-of-image marker (EOI); the picture is cut short.");
    }

    private void segment(int code) throws IOException {
        long offset = reader.offset() - 2;
        boolean known = Marker.isFrameHeader(code)
                || Marker.isApplication(code)
                || code == Marker.COM
                || code == Marker.DHT
                || code == Marker.DAC
                || (code >= Marker.SOS && code <= Marker.EXP);
        if (!known) {
            throw new JpegFormatException(
                    offset,
                    "there is a " + Marker.name(code) + ", where a segment of a T.81 picture or EOI was expected.");
        }
        if (segments.size() >= limits.maxSegments()) {
            throw new JpegFormatException(
                    offset, "begins a segment beyond the limit of " + limits.maxSegments() + " segments.");
        }
        ByteRange payload = payload(code, offset);
        int fill = fillBytes;
        SegmentKind kind = read(code, payload);
        segments.add(new Segment(code, offset, payload.end() - offset, fill, kind));
        reader.seek(payload.end());
        if (code == Marker.SOS) {
            scan(payload);
        }
    }

    private ByteRange payload(int code, long offset) throws IOException {
        int high = reader.read();
        int low = reader.read();
        int declared = low < 0 ? 0 : high << 8 | low;
        if (declared < 2) {
            throw new JpegFormatException(
                    offset,
                    "the segment " + Marker.name(code) + " declares a length of " + declared
                            + ", where 2 or more was expected.");
        }
        long left = reader.length() - offset - 2;
        if (declared > left) {
            throw new JpegFormatException(
                    offset,
                    "the segment " + Marker.name(code) + " declares " + declared + " bytes, but only " + left
                            + " are left in the file.");
        }
        return new ByteRange(offset + 4, declared - 2L);
    }

    private SegmentKind read(int code, ByteRange payload) throws IOException {
        if (Marker.isApplication(code)) {
            return application(code, payload);
        }
        if (Marker.isFrameHeader(code)) {
            frameHeader(code, payload);
            return SegmentKind.FRAME_HEADER;
        }
        return switch (code) {
            case Marker.COM -> SegmentKind.COMMENT;
            case Marker.DQT -> {
                tables.defineQuantization(bytes(payload), payload.offset());
                yield SegmentKind.QUANTIZATION_TABLES;
            }
            case Marker.DHT -> {
                tables.defineHuffman(bytes(payload), payload.offset());
                yield SegmentKind.HUFFMAN_TABLES;
            }
            case Marker.DRI -> {
                restartInterval = number(payload, "DRI");
                yield SegmentKind.RESTART_INTERVAL;
            }
            case Marker.DNL -> {
                numberOfLines(payload);
                yield SegmentKind.NUMBER_OF_LINES;
            }
            case Marker.DHP -> {
                hierarchical = true;
                yield SegmentKind.HIERARCHICAL_PROGRESSION;
            }
            case Marker.DAC -> SegmentKind.ARITHMETIC_CONDITIONING;
            case Marker.EXP -> SegmentKind.EXPAND_REFERENCE;
            default -> SegmentKind.SCAN_HEADER;
        };
    }

    private SegmentKind application(int code, ByteRange payload) throws IOException {
        return applications.identify(code, payload).orElseGet(() -> {
            note("the segment " + Marker.name(code) + " at byte " + (payload.offset() - 4)
                    + " is too short for what it says it is and is not used");
            return SegmentKind.OTHER_APPLICATION;
        });
    }

    private void frameHeader(int code, ByteRange payload) throws IOException {
        FrameType type = FrameType.ofMarker(code)
                .orElseThrow(() -> new IllegalStateException("not a frame header: " + Marker.name(code)));
        hierarchical |= type.isDifferential();
        if (frames > 0 && !hierarchical) {
            throw new JpegFormatException(
                    payload.offset() - 4, "begins a second frame, where one frame was expected (T.81 B.2.1).");
        }
        Frame read = FrameHeader.read(type, bytes(payload), payload.offset(), limits);
        frames++;
        if (frame == null) {
            frame = read;
            coverage = hierarchical ? null : new ScanCoverage(read);
        } else {
            coverage = null;
        }
    }

    private void numberOfLines(ByteRange payload) throws IOException {
        int lines = number(payload, "DNL");
        if (frame != null && frame.lines() != lines && !hierarchical) {
            throw new JpegFormatException(
                    payload.offset(),
                    "a DNL segment gives " + lines + " lines, where the frame header gave " + frame.lines() + ".");
        }
    }

    private int number(ByteRange payload, String segment) throws IOException {
        if (payload.length() != 2) {
            throw new JpegFormatException(
                    payload.offset(),
                    "the segment " + segment + " has " + payload.length() + " bytes, where 2 were expected.");
        }
        reader.seek(payload.offset());
        return reader.read() << 8 | reader.read();
    }

    private byte[] bytes(ByteRange payload) throws IOException {
        return reader.bytes(payload.offset(), (int) payload.length());
    }

    private void scan(ByteRange headerPayload) throws IOException {
        Frame inForce = frame(headerPayload);
        if (scans.size() >= limits.maxScans()) {
            throw new JpegFormatException(
                    headerPayload.offset() - 4, "begins a scan beyond the limit of " + limits.maxScans() + " scans.");
        }
        ScanHeader header = ScanHeader.read(inForce, bytes(headerPayload), headerPayload.offset());
        conformingScans &= header.conforming();
        if (coverage != null) {
            coverage.add(header, headerPayload.offset());
        }
        long start = headerPayload.end();
        reader.seek(start);
        EntropyWalk data = new EntropyWalk(reader, scans.size() + 1);
        long end = data.walk();
        if (!hierarchical) {
            data.checkAgainst(inForce, header, restartInterval, start);
        }
        if (data.endsWithRestart()) {
            note("scan " + (scans.size() + 1) + " ends with a restart marker that nothing follows");
        }
        addScan(header, new ByteRange(start, end - start), data.restarts());
    }

    private Frame frame(ByteRange headerPayload) throws JpegFormatException {
        Frame inForce = frame;
        if (inForce == null) {
            throw new JpegFormatException(
                    headerPayload.offset() - 4, "begins a scan, where a frame header was expected first.");
        }
        return inForce;
    }

    private void addScan(ScanHeader header, ByteRange data, int restarts) {
        scans.add(new Scan(
                header.components(),
                header.spectralStart(),
                header.spectralEnd(),
                header.approximationHigh(),
                header.approximationLow(),
                restartInterval,
                restarts,
                data));
        scanTables.add(tables.copy());
    }

    private void note(String sentence) {
        if (notes.size() < MOST_NOTES) {
            notes.add(sentence);
        } else if (notes.size() == MOST_NOTES) {
            notes.add("there is more of this kind");
        }
    }
}
