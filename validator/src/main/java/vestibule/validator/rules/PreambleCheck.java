package vestibule.validator.rules;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import vestibule.dicom.io.DicomFile;
import vestibule.dicom.io.ReadNote;
import vestibule.validator.Check;
import vestibule.validator.Findings;
import vestibule.validator.Location;
import vestibule.validator.Rule;
import vestibule.validator.Severity;
import vestibule.validator.Subject;

/** The first 132 bytes of a file (PS3.10 7.1). */
final class PreambleCheck implements Check {

    private static final int LENGTH = 128;

    private static final Rule MISSING = Rule.of(
            "FIL-001",
            Severity.ERROR,
            "PS3.10 7.1",
            "A file starts with a preamble of 128 bytes and the prefix DICM.",
            "the file starts with a data element; there is no preamble and no prefix DICM",
            "Write the object again with a writer of Part 10 files.");
    private static final Rule IN_USE = Rule.of(
            "FIL-002",
            Severity.NOTE,
            "PS3.10 7.1",
            "The preamble is 00H throughout unless an application profile uses it.",
            "{count} of the 128 bytes of the preamble are not 00H",
            "Nothing need be done if the preamble is used on purpose; else write the file again.");
    private static final Rule OTHER_FORMAT = Rule.of(
            "FIL-003",
            Severity.WARNING,
            "PS3.10 7.1",
            "The preamble does not make the file something else as well.",
            "the preamble starts like {format}, so the file is two things at once",
            "Clear the preamble unless a second reader of the file is intended; security software may stop the file.");

    private static final Map<String, String> STARTS = Map.of(
            "MZ", "a Windows program",
            "\u007FELF", "a Linux program",
            "#!", "a script",
            "PK", "a zip archive",
            "%PDF", "a PDF document",
            "<", "a page of HTML or XML",
            "II*\0", "a TIFF image",
            "MM\0*", "a TIFF image",
            "\u00CF\u00FA\u00ED\u00FE", "a macOS program",
            "\u00CA\u00FE\u00BA\u00BE", "a Java class or macOS program");

    @Override
    public List<Rule> rules() {
        return List.of(MISSING, IN_USE, OTHER_FORMAT);
    }

    @Override
    public void run(Subject subject, Findings findings) throws IOException {
        if (subject.file().isEmpty()) {
            return;
        }
        DicomFile file = subject.file().get();
        Location where = Location.part("preamble");
        if (file.notes().stream().anyMatch(note -> note.kind() == ReadNote.Kind.NO_PREAMBLE)) {
            findings.report(MISSING, where);
            return;
        }
        byte[] preamble = file.preamble().bytes(LENGTH);
        int used = 0;
        for (byte b : preamble) {
            used += b == 0 ? 0 : 1;
        }
        if (used == 0) {
            return;
        }
        String start = new String(preamble, StandardCharsets.ISO_8859_1);
        Optional<String> format = STARTS.entrySet().stream()
                .filter(entry -> start.startsWith(entry.getKey()))
                .map(Map.Entry::getValue)
                .findFirst();
        if (format.isPresent()) {
            findings.report(OTHER_FORMAT, where, "format", format.get());
        } else {
            findings.report(IN_USE, where, "count", Integer.toString(used));
        }
    }
}
