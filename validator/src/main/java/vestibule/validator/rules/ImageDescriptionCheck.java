package vestibule.validator.rules;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.dict.Attributes;
import vestibule.validator.Check;
import vestibule.validator.Findings;
import vestibule.validator.Location;
import vestibule.validator.Rule;
import vestibule.validator.Severity;
import vestibule.validator.Subject;
import vestibule.validator.iod.TableText;

/** How a VL image describes its pixels, beyond what single rows of the tables say (PS3.3 C.8.12.1.1). */
final class ImageDescriptionCheck implements Check {

    private static final Rule FIRST_VALUES = Rule.of(
            "MOD-020",
            Severity.ERROR,
            "PS3.3 C.8.12.1.1.6",
            "Image Type starts with ORIGINAL or DERIVED, then PRIMARY or SECONDARY.",
            "ImageType is \"{type}\"",
            "Start with ORIGINAL\\PRIMARY, or with DERIVED for a picture made from another.");
    private static final Rule THIRD_VALUE = Rule.of(
            "MOD-021",
            Severity.ERROR,
            "PS3.3 C.8.12.1.1.6",
            "The third value of Image Type is absent, empty, STEREO L or STEREO R.",
            "value 3 of ImageType is \"{value}\"",
            "Leave it empty; words of your own may stand from value 4 on.");
    private static final Rule PHOTOMETRIC = Rule.of(
            "MOD-022",
            Severity.ERROR,
            "PS3.3 C.8.12.1.1.1",
            "The photometric interpretation is the one that a VL image has in its transfer syntax.",
            "PhotometricInterpretation is {found} with {samples} samples in {syntax}, where it is {expected}",
            "Describe the stream as it is; where no value fits, encode it in another transfer syntax.");
    private static final Rule SAMPLES = Rule.of(
            "MOD-023",
            Severity.ERROR,
            "PS3.3 C.8.12.1.1.4",
            "MONOCHROME2 has one sample a pixel, every colour interpretation has three.",
            "SamplesPerPixel is {samples}, and PhotometricInterpretation is {photometric}",
            "Make the two agree with the picture.");
    private static final Rule FRAMES = Rule.of(
            "MOD-024",
            Severity.ERROR,
            "PS3.3 A.32.4.3",
            "A VL Photographic Image has one frame and no Multi-frame module.",
            "NumberOfFrames is {frames}",
            "Make one object of each frame.");
    private static final Rule FRAMES_NEEDLESS = Rule.of(
            "MOD-025",
            Severity.WARNING,
            "PS3.3 A.32.4.3",
            "A VL Photographic Image has no Number of Frames.",
            "NumberOfFrames is there; this object has one frame in any case",
            "Leave it out; some receivers take the object for a multi-frame one.");
    private static final Rule LOSSY_RESET = Rule.of(
            "MOD-026",
            Severity.ERROR,
            "PS3.3 C.7.6.1.1.5",
            "Lossy Image Compression is 01 when the pixels have gone through lossy compression.",
            "LossyImageCompression is \"{found}\" in {syntax}, which is lossy",
            "Set it to 01; it never goes back.");
    private static final Rule LOSSY_DETAIL = Rule.of(
            "MOD-027",
            Severity.WARNING,
            "PS3.3 C.7.6.1.1.5.1",
            "An image that is lossy says by which method and in what ratio, one value of each for each step.",
            "LossyImageCompressionMethod has {methods} values and LossyImageCompressionRatio {ratios}",
            "Give one method and one ratio for each lossy step, in the same order.");

    private static final List<String> LOSSY_ONLY =
            List.of("1.2.840.10008.1.2.4.50", "1.2.840.10008.1.2.4.51", "1.2.840.10008.1.2.4.81");

    private record Allowed(List<String> colour, List<String> grey) {}

    private final Map<String, Allowed> photometric = new HashMap<>();

    ImageDescriptionCheck() {
        for (List<String> row :
                TableText.read(TableText.class, "photometric.tsv", 3).rows()) {
            photometric.put(row.get(0), new Allowed(split(row.get(1)), split(row.get(2))));
        }
    }

    private static List<String> split(String text) {
        return text.isEmpty() ? List.of() : List.of(text.split("\\|", -1));
    }

    @Override
    public List<Rule> rules() {
        return List.of(
                FIRST_VALUES, THIRD_VALUE, PHOTOMETRIC, SAMPLES, FRAMES, FRAMES_NEEDLESS, LOSSY_RESET, LOSSY_DETAIL);
    }

    @Override
    public void run(Subject subject, Findings findings) {
        if (subject.isPhotograph()) {
            checkType(subject.dataSet(), findings);
            checkPhotometric(subject, findings);
            checkFrames(subject.dataSet(), findings);
            checkLossy(subject, findings);
        }
    }

    private static void checkType(DataSet dataSet, Findings findings) {
        List<String> values =
                dataSet.texts(Attributes.IMAGE_TYPE).stream().map(String::strip).toList();
        if (values.isEmpty()) {
            return;
        }
        boolean first = List.of("ORIGINAL", "DERIVED").contains(values.get(0));
        boolean second = values.size() > 1 && List.of("PRIMARY", "SECONDARY").contains(values.get(1));
        Location where = Location.of(Attributes.IMAGE_TYPE);
        if (!first || !second) {
            findings.report(FIRST_VALUES, where, "type", String.join("\\", values));
        }
        if (values.size() > 2 && !List.of("", "STEREO L", "STEREO R").contains(values.get(2))) {
            findings.report(THIRD_VALUE, where, "value", values.get(2));
        }
    }

    private void checkPhotometric(Subject subject, Findings findings) {
        Optional<String> found = subject.dataSet().text(Attributes.PHOTOMETRIC_INTERPRETATION);
        Optional<Long> samples = subject.dataSet().integer(Attributes.SAMPLES_PER_PIXEL);
        if (found.isEmpty() || samples.isEmpty()) {
            return;
        }
        Location where = Location.of(Attributes.PHOTOMETRIC_INTERPRETATION);
        boolean grey = found.get().startsWith("MONOCHROME") || found.get().equals("PALETTE COLOR");
        if (grey != (samples.get() == 1)) {
            findings.report(SAMPLES, where, "samples", samples.get().toString(), "photometric", found.get());
            return;
        }
        Allowed allowed = photometric.get(subject.transferSyntax().uid().value());
        if (allowed == null) {
            return;
        }
        List<String> expected = grey ? allowed.grey() : allowed.colour();
        if (!expected.contains(found.get())) {
            findings.report(
                    PHOTOMETRIC,
                    where,
                    "found",
                    found.get(),
                    "samples",
                    samples.get().toString(),
                    "syntax",
                    subject.transferSyntax().name(),
                    "expected",
                    expected.isEmpty() ? "not used for colour" : String.join(" or ", expected));
        }
    }

    private static void checkFrames(DataSet dataSet, Findings findings) {
        Optional<String> frames = dataSet.text(Attributes.NUMBER_OF_FRAMES);
        if (frames.isPresent() && !frames.get().equals("1")) {
            findings.report(FRAMES, Location.of(Attributes.NUMBER_OF_FRAMES), "frames", frames.get());
        } else if (dataSet.contains(Attributes.NUMBER_OF_FRAMES)) {
            findings.report(FRAMES_NEEDLESS, Location.of(Attributes.NUMBER_OF_FRAMES));
        }
    }

    private static void checkLossy(Subject subject, Findings findings) {
        DataSet dataSet = subject.dataSet();
        Optional<String> lossy = dataSet.text(Attributes.LOSSY_IMAGE_COMPRESSION);
        boolean lossySyntax = LOSSY_ONLY.contains(subject.transferSyntax().uid().value());
        if (lossySyntax && !lossy.equals(Optional.of("01"))) {
            findings.report(
                    LOSSY_RESET,
                    Location.of(Attributes.LOSSY_IMAGE_COMPRESSION),
                    "found",
                    lossy.orElse(""),
                    "syntax",
                    subject.transferSyntax().name());
        }
        int methods = dataSet.texts(Attributes.LOSSY_IMAGE_COMPRESSION_METHOD).size();
        int ratios = dataSet.texts(Attributes.LOSSY_IMAGE_COMPRESSION_RATIO).size();
        if (lossy.equals(Optional.of("01")) && (methods == 0 || methods != ratios)) {
            findings.report(
                    LOSSY_DETAIL,
                    Location.of(Attributes.LOSSY_IMAGE_COMPRESSION_METHOD),
                    "methods",
                    Integer.toString(methods),
                    "ratios",
                    Integer.toString(ratios));
        }
    }
}
