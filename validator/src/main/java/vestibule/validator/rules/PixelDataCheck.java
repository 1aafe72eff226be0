package vestibule.validator.rules;

import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import vestibule.dicom.data.Attribute;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Element;
import vestibule.dicom.data.Value;
import vestibule.dicom.dict.Attributes;
import vestibule.validator.Check;
import vestibule.validator.Findings;
import vestibule.validator.Location;
import vestibule.validator.Rule;
import vestibule.validator.Severity;
import vestibule.validator.Subject;

/** How pixel data is packed: fragments and offset table, or the right number of native bytes (PS3.5 8, A.4). */
final class PixelDataCheck implements Check {

    private static final Rule PACKING = Rule.of(
            "JPG-001",
            Severity.ERROR,
            "PS3.5 A.4",
            "Pixel data is encapsulated exactly in the transfer syntaxes that compress it.",
            "PixelData is {found}, and in {syntax} it is {expected}",
            "Name the transfer syntax that the pixels are in.");
    private static final Rule NO_FRAGMENT = Rule.of(
            "JPG-002",
            Severity.ERROR,
            "PS3.5 A.4",
            "Encapsulated pixel data has at least one fragment, and none of them is empty.",
            "PixelData has {found}",
            "Build the object again from its photograph.");
    private static final Rule SEVERAL_FRAGMENTS = Rule.of(
            "JPG-003",
            Severity.NOTE,
            "PS3.5 A.4",
            "A frame may be cut into several fragments.",
            "PixelData has {count} fragments for its one frame",
            "Nothing need be done; some receivers take each fragment for a frame.");
    private static final Rule OFFSET_TABLE = Rule.of(
            "JPG-004",
            Severity.ERROR,
            "PS3.5 A.4",
            "The Basic Offset Table is empty or has one offset for each frame, the first of them 0.",
            "the Basic Offset Table has {count} offsets, the first of them {first}, for {frames} frames",
            "Leave the table empty or write the offsets that are right.");
    private static final Rule NATIVE_LENGTH = Rule.of(
            "JPG-005",
            Severity.ERROR,
            "PS3.5 8.1.1",
            "Native pixel data has as many bytes as rows, columns, samples, bits and frames make.",
            "PixelData has {found} bytes, and the attributes make {expected}",
            "Correct the attributes, or write the pixels again.");
    private static final Rule TOTAL_LENGTH = Rule.of(
            "JPG-006",
            Severity.ERROR,
            "PS3.3 C.7.6.3",
            "Encapsulated Pixel Data Value Total Length is the length of the stream without padding.",
            "EncapsulatedPixelDataValueTotalLength is {found}, and the fragments have {expected} bytes",
            "Correct it or leave it out.");

    @Override
    public List<Rule> rules() {
        return List.of(PACKING, NO_FRAGMENT, SEVERAL_FRAGMENTS, OFFSET_TABLE, NATIVE_LENGTH, TOTAL_LENGTH);
    }

    @Override
    public void run(Subject subject, Findings findings) {
        Optional<Element> pixels = subject.dataSet().find(Attributes.PIXEL_DATA);
        if (pixels.isEmpty()) {
            return;
        }
        boolean encapsulated = pixels.get().value() instanceof Value.Fragments;
        if (encapsulated != subject.transferSyntax().encapsulated()
                && !pixels.get().isEmpty()) {
            findings.report(
                    PACKING,
                    where(),
                    "found",
                    packed(encapsulated),
                    "syntax",
                    subject.transferSyntax().name(),
                    "expected",
                    packed(!encapsulated));
        } else if (pixels.get().value() instanceof Value.Fragments fragments) {
            checkFragments(subject.dataSet(), fragments, findings);
        } else if (pixels.get().value() instanceof Value.Binary binary) {
            checkNative(subject.dataSet(), binary.bulk().length(), findings);
        }
    }

    private static String packed(boolean encapsulated) {
        return encapsulated ? "encapsulated" : "native";
    }

    private static Location where() {
        return Location.of(Attributes.PIXEL_DATA);
    }

    private static void checkFragments(DataSet dataSet, Value.Fragments fragments, Findings findings) {
        int count = fragments.fragments().size();
        long empty = fragments.fragments().stream()
                .filter(fragment -> fragment.length() == 0)
                .count();
        if (count == 0 || empty > 0) {
            findings.report(
                    NO_FRAGMENT, where(), "found", count == 0 ? "no fragment" : empty + " fragments without bytes");
        }
        long frames = Pixels.frames(dataSet);
        if (frames == 1 && count > 1) {
            findings.report(SEVERAL_FRAGMENTS, where(), "count", Integer.toString(count));
        }
        List<Long> offsets = fragments.offsetTable();
        if (!offsets.isEmpty() && (offsets.get(0) != 0 || offsets.size() != frames)) {
            findings.report(
                    OFFSET_TABLE,
                    where(),
                    "count",
                    Integer.toString(offsets.size()),
                    "first",
                    offsets.get(0).toString(),
                    "frames",
                    Long.toString(frames));
        }
        checkTotal(dataSet, fragments, findings);
    }

    private static void checkTotal(DataSet dataSet, Value.Fragments fragments, Findings findings) {
        Attribute attribute = Attributes.ENCAPSULATED_PIXEL_DATA_VALUE_TOTAL_LENGTH;
        Optional<Long> stated = dataSet.integer(attribute);
        long length = fragments.fragments().stream()
                .mapToLong(fragment -> fragment.length())
                .sum();
        // The stream may be one byte shorter than its fragment, which is even.
        if (stated.isPresent() && stated.get() != length && stated.get() != length - 1) {
            findings.report(
                    TOTAL_LENGTH,
                    Location.of(attribute),
                    "found",
                    stated.get().toString(),
                    "expected",
                    Long.toString(length));
        }
    }

    private static void checkNative(DataSet dataSet, long found, Findings findings) {
        OptionalLong expected = Pixels.nativeLength(dataSet);
        if (found > 0
                && expected.isPresent()
                && found != expected.getAsLong()
                && found != expected.getAsLong() + (expected.getAsLong() & 1)) {
            findings.report(
                    NATIVE_LENGTH,
                    where(),
                    "found",
                    Long.toString(found),
                    "expected",
                    Long.toString(expected.getAsLong()));
        }
    }
}
