package vestibule.validator.rules;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import vestibule.dicom.data.Attribute;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Value;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.jpeg.ColorCoding;
import vestibule.dicom.jpeg.ColorReading;
import vestibule.dicom.jpeg.FrameType;
import vestibule.dicom.jpeg.Hindrance;
import vestibule.dicom.jpeg.Jpeg;
import vestibule.dicom.jpeg.ProfileCondition;
import vestibule.validator.Findings;
import vestibule.validator.Location;
import vestibule.validator.Rule;
import vestibule.validator.Severity;
import vestibule.validator.Subject;

/** The stream of one object against its attributes and its transfer syntax. */
final class StreamRules {

    private static final String SAME =
            "Build the object again from its photograph, so that the attributes come from the stream.";

    private static final Rule PROCESS = Rule.of(
            "JPG-012",
            Severity.ERROR,
            "PS3.5 A.4.1",
            "The coding process of the stream is the one that the transfer syntax names.",
            "the stream is {found} (SOF{number}), and {syntax} takes {expected}",
            "Code the stream again without loss as the transfer syntax says, or name the right transfer syntax.");
    private static final Rule ROWS = agreement("JPG-013", "Rows", "lines");
    private static final Rule COLUMNS = agreement("JPG-014", "Columns", "samples per line");
    private static final Rule SAMPLES = agreement("JPG-015", "SamplesPerPixel", "components");
    private static final Rule BITS = agreement("JPG-016", "BitsStored", "bits a sample");
    private static final Rule COLOUR = Rule.of(
            "JPG-017",
            Severity.ERROR,
            "PS3.5 8.2.1",
            "Photometric Interpretation says what the components of the stream are.",
            "PhotometricInterpretation is {attribute}, and the components of the stream are {found}",
            "Say what the components are; where no value fits, the stream must be coded again.");
    private static final Rule INTERCHANGE = Rule.of(
            "JPG-018",
            Severity.ERROR,
            "PS3.5 A.4.1",
            "The stream carries its own tables (interchange format).",
            "the stream is abbreviated: {detail}",
            "Write the tables into the stream.");
    private static final Rule AFTER_END = Rule.of(
            "JPG-019",
            Severity.WARNING,
            "PS3.5 A.4",
            "Nothing but one byte of padding follows the end of the picture.",
            "{count} bytes follow the end-of-image marker of the stream",
            "Cut the stream after its end; what follows may be a part of another photograph.");
    private static final Rule FORGIVEN = Rule.of(
            "JPG-020",
            Severity.NOTE,
            "PS3.5 8.2.1",
            "The stream keeps to the letter of the JPEG standard.",
            "the stream is readable, but: {detail}",
            "Nothing need be done; strict decoders may complain.");
    private static final Rule ORIENTATION = Rule.of(
                    "JPG-021",
                    Severity.WARNING,
                    "PS3.5 A.4",
                    "No Exif orientation is left in the stream that would turn the picture in some viewers only.",
                    "the Exif data in the stream asks viewers to turn the picture (orientation {value})",
                    "Turn the pixels without loss, and take the Exif data out of the stream.")
            .asJudgement();
    private static final Rule PROFILE_DIFFERS = Rule.of(
            "JPG-022",
            Severity.ERROR,
            "PS3.5 8.2.1",
            "An ICC profile in the stream is the one in the attribute, byte for byte.",
            "ICCProfile has {attribute} bytes, and they are not the {stream} bytes of the profile in the stream",
            "Take the profile out of the stream, or write the same one into the attribute.");
    private static final Rule PROFILE_BROKEN = Rule.of(
            "JPG-033",
            Severity.WARNING,
            "PS3.5 8.2.1",
            "An ICC profile in the stream is whole.",
            "the ICC profile in the stream cannot be used: {problem}",
            "Take the profile out of the stream, and write a whole one into the attribute if there is one.");
    private static final Rule PROFILE_ALONE = Rule.of(
            "JPG-034",
            Severity.NOTE,
            "PS3.3 C.11.15.1.1",
            "The profile of the colours stands in the attribute ICC Profile.",
            "the stream has an ICC profile of class \"{found}\", and ICCProfile is not there",
            "Write a profile of the class of input devices, scnr, into the attribute; many viewers look nowhere else.");
    private static final Rule METHOD = Rule.of(
            "JPG-023",
            Severity.WARNING,
            "PS3.3 C.7.6.1.1.5.1",
            "The compression of a JPEG stream is named among the methods, as ISO_10918_1.",
            "LossyImageCompressionMethod is \"{found}\", and the stream is JPEG",
            "Add ISO_10918_1 for the step that made this stream.");
    private static final Rule RATIO = Rule.of(
                    "JPG-024",
                    Severity.WARNING,
                    "PS3.3 C.7.6.1.1.5",
                    "The last lossy ratio is about the length of the pixels by the length of the stream.",
                    "LossyImageCompressionRatio ends with {found}, and the stream makes it {expected}",
                    "Work the ratio out from the stream.")
            .asJudgement();
    private static final Rule GUESSED_COLOUR = Rule.of(
                    "JPG-025",
                    Severity.WARNING,
                    "PS3.5 8.2.1",
                    "The stream tells decoders by itself what its components are.",
                    "PhotometricInterpretation is RGB, and nothing in the stream keeps decoders from taking its components for"
                            + " YCbCr",
                    "Look at the colours; an Adobe segment with transform 0 says that the components are RGB.")
            .asJudgement();
    private static final double TOLERANCE = 3;

    private final Subject subject;
    private final DataSet dataSet;
    private final Jpeg jpeg;
    private final OpenStream stream;
    private final Findings findings;

    StreamRules(Subject subject, Jpeg jpeg, OpenStream stream, Findings findings) {
        this.subject = subject;
        this.dataSet = subject.dataSet();
        this.jpeg = jpeg;
        this.stream = stream;
        this.findings = findings;
    }

    static List<Rule> all() {
        return List.of(
                PROCESS,
                ROWS,
                COLUMNS,
                SAMPLES,
                BITS,
                COLOUR,
                INTERCHANGE,
                AFTER_END,
                FORGIVEN,
                ORIENTATION,
                PROFILE_DIFFERS,
                PROFILE_BROKEN,
                PROFILE_ALONE,
                METHOD,
                RATIO,
                GUESSED_COLOUR);
    }

    private static Rule agreement(String id, String keyword, String words) {
        return Rule.of(
                id,
                Severity.ERROR,
                "PS3.5 8.2.1",
                keyword + " is the number of " + words + " in the frame header of the stream.",
                keyword + " is {attribute}, the JPEG frame header says {stream}",
                SAME);
    }

    void check() throws IOException {
        checkProcess();
        compare(ROWS, Attributes.ROWS, jpeg.frame().lines());
        compare(COLUMNS, Attributes.COLUMNS, jpeg.frame().samplesPerLine());
        compare(SAMPLES, Attributes.SAMPLES_PER_PIXEL, jpeg.frame().components().size());
        compare(BITS, Attributes.BITS_STORED, jpeg.frame().precision());
        checkColour();
        checkForm();
        checkOrientation();
        checkProfile();
        checkLoss();
    }

    private static Location pixels() {
        return Location.of(Attributes.PIXEL_DATA);
    }

    private void checkProcess() {
        FrameType expected = switch (subject.transferSyntax().uid().value()) {
            case "1.2.840.10008.1.2.4.50" -> FrameType.BASELINE;
            case "1.2.840.10008.1.2.4.51" -> FrameType.EXTENDED;
            default -> FrameType.LOSSLESS;
        };
        FrameType found = jpeg.frame().type();
        if (found != expected || jpeg.hierarchical()) {
            findings.report(
                    PROCESS,
                    pixels(),
                    "found",
                    jpeg.hierarchical() ? "hierarchical" : found.words(),
                    "number",
                    Integer.toString(found.number()),
                    "syntax",
                    subject.transferSyntax().name(),
                    "expected",
                    expected.words() + " (SOF" + expected.number() + ")");
        }
    }

    private void compare(Rule rule, Attribute attribute, int inStream) {
        Optional<Long> stated = dataSet.integer(attribute);
        if (stated.isPresent() && stated.get() != inStream) {
            findings.report(
                    rule,
                    Location.of(attribute),
                    "attribute",
                    stated.get().toString(),
                    "stream",
                    Integer.toString(inStream));
        }
    }

    private void checkColour() {
        Optional<String> stated = dataSet.text(Attributes.PHOTOMETRIC_INTERPRETATION);
        ColorCoding coding = jpeg.color().coding();
        boolean agrees = stated.isEmpty()
                || switch (coding) {
                    case GREY ->
                        stated.get().startsWith("MONOCHROME") || stated.get().equals("PALETTE COLOR");
                    case YCBCR ->
                        stated.get().startsWith("YBR_") || jpeg.frame().type().isLossless();
                    case RGB -> stated.get().equals("RGB");
                    case CMYK, YCCK, UNDEFINED -> false;
                };
        boolean guessed = jpeg.color().evidence() == ColorReading.Evidence.COMPONENT_IDENTIFIERS
                || jpeg.color().evidence() == ColorReading.Evidence.CUSTOM;
        if (!agrees && guessed && coding == ColorCoding.YCBCR && stated.equals(Optional.of("RGB"))) {
            findings.report(GUESSED_COLOUR, Location.of(Attributes.PHOTOMETRIC_INTERPRETATION));
        } else if (!agrees) {
            findings.report(
                    COLOUR,
                    Location.of(Attributes.PHOTOMETRIC_INTERPRETATION),
                    "attribute",
                    stated.orElse(""),
                    "found",
                    words(coding));
        }
    }

    private String words(ColorCoding coding) {
        return switch (coding) {
            case GREY -> "one of luminance";
            case YCBCR -> "YCbCr";
            case RGB -> "RGB";
            case CMYK -> "CMYK";
            case YCCK -> "YCCK";
            case UNDEFINED -> jpeg.frame().components().size() + " of which no rule says what they are";
        };
    }

    private void checkForm() throws IOException {
        jpeg.fitness().hindrances().stream()
                .filter(hindrance -> hindrance.reason() == Hindrance.Reason.MISSING_TABLES)
                .forEach(hindrance -> findings.report(INTERCHANGE, pixels(), "detail", hindrance.sentence()));
        long after = jpeg.trailingBytes();
        boolean padding = after == 1 && isPadding(stream.bytes(stream.length() - 1, 1)[0]);
        if (after > 0 && !padding) {
            findings.report(AFTER_END, pixels(), "count", Long.toString(after));
        }
        for (String note : jpeg.notes()) {
            if (!note.contains("follow the end of the picture")) {
                findings.report(FORGIVEN, pixels(), "detail", note);
            }
        }
    }

    private static boolean isPadding(byte last) {
        return last == 0 || last == (byte) 0xFF;
    }

    private void checkOrientation() throws IOException {
        for (ExifBlock exif : ExifBlock.all(jpeg, stream)) {
            if (exif.orientation() > 1) {
                findings.report(ORIENTATION, pixels(), "value", Integer.toString(exif.orientation()));
                return;
            }
        }
    }

    private void checkProfile() throws IOException {
        Optional<byte[]> inStream = jpeg.iccProfile();
        Optional<Value> attribute = dataSet.find(Attributes.ICC_PROFILE).map(element -> element.value());
        if (jpeg.profileCondition() != ProfileCondition.NONE && inStream.isEmpty()) {
            findings.report(
                    PROFILE_BROKEN, pixels(), "problem", jpeg.profileCondition().words());
        } else if (attribute.isEmpty() && inStream.isPresent() && inStream.get().length >= 16) {
            findings.report(
                    PROFILE_ALONE, pixels(), "found", new String(inStream.get(), 12, 4, StandardCharsets.ISO_8859_1));
        }
        if (jpeg.profileCondition() != ProfileCondition.COMPLETE
                || inStream.isEmpty()
                || !(attribute.orElse(null) instanceof Value.Binary binary)
                || binary.bulk().length() > ProfileCheck.LONGEST) {
            return;
        }
        byte[] stated = binary.bulk().bytes(ProfileCheck.LONGEST);
        int length = inStream.get().length;
        boolean same = stated.length >= length
                && stated.length <= length + 1
                && Arrays.equals(stated, 0, length, inStream.get(), 0, length);
        if (!same) {
            findings.report(
                    PROFILE_DIFFERS,
                    Location.of(Attributes.ICC_PROFILE),
                    "attribute",
                    Integer.toString(stated.length),
                    "stream",
                    Integer.toString(length));
        }
    }

    private void checkLoss() {
        if (jpeg.frame().type().isLossless()
                || !dataSet.text(Attributes.LOSSY_IMAGE_COMPRESSION).equals(Optional.of("01"))) {
            return;
        }
        List<String> methods = dataSet.texts(Attributes.LOSSY_IMAGE_COMPRESSION_METHOD);
        if (!methods.isEmpty()
                && methods.stream().noneMatch(method -> method.strip().equals("ISO_10918_1"))) {
            findings.report(
                    METHOD,
                    Location.of(Attributes.LOSSY_IMAGE_COMPRESSION_METHOD),
                    "found",
                    String.join("\\", methods));
        }
        List<String> ratios = dataSet.texts(Attributes.LOSSY_IMAGE_COMPRESSION_RATIO);
        if (!ratios.isEmpty() && ratios.get(ratios.size() - 1).strip().matches("[0-9]{1,6}(\\.[0-9]{1,9})?")) {
            checkRatio(Double.parseDouble(ratios.get(ratios.size() - 1).strip()));
        }
    }

    /** Small pictures are mostly headers, whose part differs with what was left out: of them nothing is said. */
    private void checkRatio(double stated) {
        double pixels =
                (double) jpeg.frame().pixels() * jpeg.frame().components().size();
        double real = pixels / stream.length();
        if (pixels > 1 << 16 && (stated > real * TOLERANCE || stated < real / TOLERANCE)) {
            findings.report(
                    RATIO,
                    Location.of(Attributes.LOSSY_IMAGE_COMPRESSION_RATIO),
                    "found",
                    "%s".formatted(stated),
                    "expected",
                    String.format(java.util.Locale.ROOT, "%.1f", real));
        }
    }
}
