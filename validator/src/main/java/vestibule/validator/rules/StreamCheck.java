package vestibule.validator.rules;

import java.io.IOException;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import vestibule.dicom.data.Bulk;
import vestibule.dicom.data.Value;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.jpeg.Jpeg;
import vestibule.dicom.jpeg.JpegFormatException;
import vestibule.dicom.jpeg.JpegLimits;
import vestibule.validator.Check;
import vestibule.validator.Findings;
import vestibule.validator.Location;
import vestibule.validator.Rule;
import vestibule.validator.Severity;
import vestibule.validator.Subject;

/**
 * Reads the JPEG stream of a single frame once, and asks what it is, whether the attributes say the same, and what of the camera is still
 * in it (PS3.5 8.2.1, A.4.1).
 */
final class StreamCheck implements Check {

    private static final List<String> JPEG = List.of(
            "1.2.840.10008.1.2.4.50", "1.2.840.10008.1.2.4.51", "1.2.840.10008.1.2.4.57", "1.2.840.10008.1.2.4.70");
    /** A stream is held in memory while it is read; no camera of today writes a longer one. */
    private static final long LONGEST = 64L << 20;

    private static final Rule UNREADABLE = Rule.of(
            "JPG-010",
            Severity.ERROR,
            "PS3.5 8.2.1",
            "The stream is a whole JPEG picture in interchange format.",
            "the stream in PixelData cannot be read as JPEG: {reason}",
            "Build the object again from its photograph; if that is damaged too, take it from the camera again.");
    private static final Rule TOO_LONG = Rule.of(
            "JPG-011",
            Severity.NOTE,
            "PS3.5 8.2.1",
            "The stream agrees with the attributes.",
            "not checked: the stream has {length} bytes, and at most {most} are read",
            "Check the object with another tool.");

    @Override
    public List<Rule> rules() {
        return Stream.of(List.of(UNREADABLE, TOO_LONG), StreamRules.all(), PrivacyRules.all())
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
        byte[] bytes = stream.get().bytes(LONGEST);
        try {
            Jpeg jpeg = Jpeg.read(bytes, JpegLimits.DEFAULT);
            new StreamRules(subject, jpeg, bytes, findings).check();
            new PrivacyRules(jpeg, bytes, findings).check();
        } catch (JpegFormatException e) {
            String reason = String.valueOf(e.getMessage());
            findings.report(
                    UNREADABLE,
                    where,
                    "reason",
                    reason.endsWith(".") ? reason.substring(0, reason.length() - 1) : reason);
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
