package vestibule.validator.rules;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Optional;
import vestibule.dicom.data.Value;
import vestibule.dicom.dict.Attributes;
import vestibule.validator.Check;
import vestibule.validator.Findings;
import vestibule.validator.Location;
import vestibule.validator.Rule;
import vestibule.validator.Severity;
import vestibule.validator.Subject;

/** The header of the ICC profile in (0028,2000) (PS3.3 C.11.15.1.1). */
final class ProfileCheck implements Check {

    /** The longest profile that is looked at, in bytes. */
    static final long LONGEST = 4L << 20;

    private static final int HEADER = 128;

    private static final Rule FORM = Rule.of(
            "JPG-030",
            Severity.ERROR,
            "PS3.3 C.11.15.1.1",
            "ICC Profile holds an ICC profile of the length that its header states.",
            "ICCProfile {problem}",
            "Write the whole profile or leave the attribute out.");
    private static final Rule DEVICE_CLASS = Rule.of(
            "JPG-031",
            Severity.ERROR,
            "PS3.3 C.11.15.1.1",
            "The profile is of the class of input devices, scnr.",
            "ICCProfile is of class \"{found}\", and input devices have \"scnr\"",
            "Use an input profile; that of a camera's JPEG file is usually one of a display, and may stay in the stream.");
    private static final Rule SPACE = Rule.of(
            "JPG-032",
            Severity.ERROR,
            "PS3.3 C.11.15.1.1",
            "The profile leads from RGB to Lab or XYZ.",
            "ICCProfile leads from \"{from}\" to \"{to}\"",
            "Use a profile for RGB.");

    @Override
    public List<Rule> rules() {
        return List.of(FORM, DEVICE_CLASS, SPACE);
    }

    @Override
    public void run(Subject subject, Findings findings) throws IOException {
        Optional<Value> value = subject.dataSet().find(Attributes.ICC_PROFILE).map(element -> element.value());
        if (!subject.isPhotograph()
                || !(value.orElse(null) instanceof Value.Binary binary)
                || binary.bulk().length() == 0) {
            return;
        }
        Location where = Location.of(Attributes.ICC_PROFILE);
        long length = binary.bulk().length();
        if (length < HEADER) {
            findings.report(FORM, where, "problem", "has %d bytes, fewer than a header".formatted(length));
            return;
        }
        byte[] header = binary.bulk().part(0, HEADER).bytes(HEADER);
        long stated = ByteBuffer.wrap(header).getInt() & 0xFFFF_FFFFL;
        if (!letters(header, 36).equals("acsp")) {
            findings.report(FORM, where, "problem", "is without the signature acsp");
        } else if (stated != length && stated + 1 != length) {
            findings.report(FORM, where, "problem", "has %d bytes, and its header states %d".formatted(length, stated));
        } else {
            checkHeader(header, where, findings);
        }
    }

    private static void checkHeader(byte[] header, Location where, Findings findings) {
        if (!letters(header, 12).equals("scnr")) {
            findings.report(DEVICE_CLASS, where, "found", letters(header, 12));
        }
        boolean connected = List.of("Lab ", "XYZ ").contains(letters(header, 20));
        if (!letters(header, 16).equals("RGB ") || !connected) {
            findings.report(SPACE, where, "from", letters(header, 16), "to", letters(header, 20));
        }
    }

    private static String letters(byte[] header, int offset) {
        return new String(header, offset, 4, StandardCharsets.ISO_8859_1);
    }
}
