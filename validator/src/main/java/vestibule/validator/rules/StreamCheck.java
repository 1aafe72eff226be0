package vestibule.validator.rules;

import java.io.IOException;
import java.nio.channels.SeekableByteChannel;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import vestibule.dicom.data.Bulk;
import vestibule.dicom.data.Value;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.jpeg.EntropyCheck;
import vestibule.dicom.jpeg.FrameType;
import vestibule.dicom.jpeg.Jpeg;
import vestibule.dicom.jpeg.JpegFormatException;
import vestibule.dicom.jpeg.JpegLimits;
import vestibule.validator.Check;
import vestibule.validator.Findings;
import vestibule.validator.Location;
import vestibule.validator.Rule;
import vestibule.validator.Severity;
import vestibule.validator.StreamDepth;
import vestibule.validator.Subject;

/**
 * Reads the JPEG stream of a single frame once, and asks what it is, whether the attributes say the same, and what of the camera is still
 * in it (PS3.5 8.2.1, A.4.1).
 */
final class StreamCheck implements Check {

    private static final List<String> JPEG = List.of(
            "1.2.840.10008.1.2.4.50", "1.2.840.10008.1.2.4.51", "1.2.840.10008.1.2.4.57", "1.2.840.10008.1.2.4.70");
    /** Longer streams are not walked, so that no file holds a batch up; no camera of today writes one. */
    private static final long LONGEST = JpegLimits.DEFAULT.maxFileBytes();

    private static final Rule UNREADABLE = Rule.of(
                    "JPG-010",
                    Severity.ERROR,
                    "PS3.5 8.2.1",
                    "The stream is a whole JPEG picture in interchange format.",
                    "the stream in PixelData cannot be read as JPEG: {reason}",
                    "Build the object again from its photograph; if that is damaged too, take it from the camera again.")
            .within(
                    "Coded data is decoded with --streams codes only, and by audit; else what is missing or damaged in it is not"
                            + " found, and every report says so.");
    private static final Rule TOO_LONG = Rule.of(
            "JPG-011",
            Severity.NOTE,
            "PS3.5 8.2.1",
            "The stream agrees with the attributes.",
            "not checked: the stream has {length} bytes, and at most {most} are read",
            "Check the object with another tool.");

    private static final Rule NOT_DECODED = Rule.of(
            "JPG-035",
            Severity.NOTE,
            "PS3.5 8.2.1",
            "The coded data of the stream can be decoded.",
            "not decoded: the coding is {kind}, {bits} bits a sample; baseline and extended sequential pictures of 8 bits are decoded",
            "Check the object with another tool.");
    private static final Rule SURPLUS = Rule.of(
            "JPG-036",
            Severity.WARNING,
            "PS3.5 8.2.1",
            "Nothing but the picture stands in the coded data of the stream.",
            "{count} bytes stand in the coded data where no part of the picture belongs, and viewers pass over them",
            "Find out where they come from; build the object again from its photograph, which leaves them out.");

    @Override
    public List<Rule> rules() {
        return Stream.of(List.of(UNREADABLE, TOO_LONG, NOT_DECODED, SURPLUS), StreamRules.all(), PrivacyRules.all())
                .flatMap(List::stream)
                .toList();
    }

    @Override
    public void run(Subject subject, Findings findings) throws IOException {
        Optional<Bulk> stream = stream(subject);
        if (stream.isEmpty() || stream.get().length() == 0) {
            return;
        }
        Location where = Location.of(Attributes.PIXEL_DATA);
        if (stream.get().length() > LONGEST) {
            findings.report(
                    TOO_LONG, where, "length", Long.toString(stream.get().length()), "most", Long.toString(LONGEST));
            return;
        }
        try (OpenStream open = new OpenStream(stream.get())) {
            Jpeg jpeg = read(open.channel(), subject.depth());
            new StreamRules(subject, jpeg, open, findings).check();
            new PrivacyRules(jpeg, open, findings).check();
            if (subject.depth() == StreamDepth.CODES) {
                decode(open.channel(), jpeg, findings);
            }
        } catch (JpegFormatException e) {
            String reason = String.valueOf(e.getMessage());
            findings.report(
                    UNREADABLE,
                    where,
                    "reason",
                    reason.endsWith(".") ? reason.substring(0, reason.length() - 1) : reason);
        }
    }

    /** A stream that does not end with EOI is walked after all, for only then can be said what follows its end. */
    private static Jpeg read(SeekableByteChannel channel, StreamDepth depth) throws IOException {
        if (depth == StreamDepth.HEADERS) {
            Optional<Jpeg> headers = Jpeg.readHeaders(channel, JpegLimits.DEFAULT);
            if (headers.isPresent()) {
                return headers.get();
            }
        }
        return Jpeg.read(channel, JpegLimits.DEFAULT);
    }

    /** Progressive pictures, which no transfer syntax here allows, would have to be held in memory. */
    private static void decode(SeekableByteChannel channel, Jpeg jpeg, Findings findings) throws IOException {
        FrameType type = jpeg.frame().type();
        Location where = Location.of(Attributes.PIXEL_DATA);
        if (!EntropyCheck.reads(jpeg) || type.isProgressive()) {
            findings.report(
                    NOT_DECODED,
                    where,
                    "kind",
                    jpeg.hierarchical() ? "hierarchical" : type.words(),
                    "bits",
                    Integer.toString(jpeg.frame().precision()));
            return;
        }
        long surplus = EntropyCheck.surplusBytes(channel, jpeg);
        if (surplus > 0) {
            findings.report(SURPLUS, where, "count", Long.toString(surplus));
        }
    }

    private static Optional<Bulk> stream(Subject subject) {
        boolean jpeg = JPEG.contains(subject.transferSyntax().uid().value());
        if (!jpeg || Pixels.frames(subject.dataSet()) != 1) {
            return Optional.empty();
        }
        return subject.dataSet()
                .find(Attributes.PIXEL_DATA)
                .filter(element -> element.value() instanceof Value.Fragments)
                .map(element -> Bulk.concat(((Value.Fragments) element.value()).fragments()));
    }
}
