package vestibule.validator.rules;

import java.io.IOException;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Element;
import vestibule.dicom.data.Tag;
import vestibule.dicom.data.Value;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.dict.Dictionary;
import vestibule.dicom.io.CharacterSet;
import vestibule.dicom.io.DataSetCodec;
import vestibule.dicom.io.DicomFile;
import vestibule.dicom.io.DicomFormatException;
import vestibule.dicom.io.ReadNote;
import vestibule.dicom.io.TransferSyntax;
import vestibule.validator.Check;
import vestibule.validator.Findings;
import vestibule.validator.Location;
import vestibule.validator.Rule;
import vestibule.validator.Severity;
import vestibule.validator.Subject;

/** Specific Character Set and whether the text keeps to it (PS3.3 C.12.1.1.2; PS3.5 6.1). */
final class CharacterSetCheck implements Check {

    private static final Set<String> ALONE = Set.of("ISO_IR 192", "GB18030", "GBK");
    private static final Set<String> NUMBERS = Set.of(
            "6", "100", "101", "109", "110", "144", "127", "126", "138", "148", "203", "13", "166", "87", "159", "149",
            "58");

    private static final Rule UNKNOWN = Rule.of(
            "VAL-030",
            Severity.ERROR,
            "PS3.3 C.12.1.1.2",
            "Specific Character Set names sets of the standard.",
            "SpecificCharacterSet is \"{terms}\", and the standard has no set \"{term}\"",
            "Name the set that the text is in; ISO_IR 192 is UTF-8.");
    private static final Rule COMBINED = Rule.of(
            "VAL-031",
            Severity.ERROR,
            "PS3.3 C.12.1.1.2",
            "A set without code extension stands alone, and no set is named twice.",
            "SpecificCharacterSet is \"{terms}\", where {problem}",
            "Name one set, or several with code extension (ISO 2022).");
    private static final Rule OUTSIDE = Rule.of(
            "VAL-032",
            Severity.ERROR,
            "PS3.5 6.1",
            "Text has no characters beyond the declared character set.",
            "{attribute} has characters that {declared} does not have",
            "Declare the character set that the text is in.");

    @Override
    public List<Rule> rules() {
        return List.of(UNKNOWN, COMBINED, OUTSIDE);
    }

    /** Whether some text is in a set that nobody can decode; VAL-030 or VAL-031 says so. */
    static boolean isBeyondTheReader(Subject subject) {
        return subject.file().stream()
                .flatMap(file -> file.notes().stream())
                .anyMatch(note -> note.kind() == ReadNote.Kind.UNKNOWN_CHARACTER_SET);
    }

    @Override
    public void run(Subject subject, Findings findings) throws IOException {
        Elements.visit(subject, (element, holder, where) -> {
            if (element.tag().equals(Attributes.SPECIFIC_CHARACTER_SET.tag())
                    && element.value() instanceof Value.Texts texts) {
                checkTerms(texts.all(), Elements.place(where, element), findings);
            }
        });
        if (subject.file().isPresent()) {
            checkNotes(subject.file().get(), findings);
        } else {
            checkUnwritten(subject.dataSet(), List.of(), Location.OBJECT, findings);
        }
    }

    private static void checkTerms(List<String> terms, Location where, Findings findings) {
        String shown = String.join("\\", terms);
        for (String term : terms) {
            if (!isKnown(term)) {
                findings.report(UNKNOWN, where, "terms", shown, "term", term);
                return;
            }
        }
        Set<String> numbers = new HashSet<>();
        String problem = terms.size() < 2 ? "" : problem(terms, numbers);
        if (!problem.isEmpty()) {
            findings.report(COMBINED, where, "terms", shown, "problem", problem);
        }
    }

    private static String problem(List<String> terms, Set<String> numbers) {
        for (int i = 0; i < terms.size(); i++) {
            String term = terms.get(i);
            if (ALONE.contains(term)) {
                return "\"" + term + "\" does not stand alone";
            }
            if (term.isEmpty() && i > 0) {
                return "value %d is empty".formatted(i + 1);
            }
            if (!numbers.add(number(term.isEmpty() ? "ISO 2022 IR 6" : term))) {
                return "one set comes twice";
            }
            if (term.startsWith("ISO_IR ")) {
                return "\"" + term + "\", which is without code extension, is one of several";
            }
        }
        return "";
    }

    private static String number(String term) {
        return term.substring(term.lastIndexOf(' ') + 1);
    }

    private static boolean isKnown(String term) {
        if (term.isEmpty()) {
            return true;
        }
        boolean numbered = term.startsWith("ISO_IR ") || term.startsWith("ISO 2022 IR ");
        return ALONE.contains(term) || (numbered && NUMBERS.contains(number(term)));
    }

    private static void checkNotes(DicomFile file, Findings findings) {
        if (file.notes().stream().anyMatch(note -> note.kind() == ReadNote.Kind.UNKNOWN_CHARACTER_SET)) {
            return;
        }
        for (ReadNote note : file.notes()) {
            if (note.kind() == ReadNote.Kind.CHARACTERS) {
                Optional<Tag> tag = note.detail().length() < 11
                        ? Optional.empty()
                        : Tag.parse(note.detail().substring(0, 11));
                reportOutside(
                        tag.map(Location.OBJECT::at).orElse(Location.OBJECT).atByte(note.offset()),
                        tag,
                        file.dataSet().texts(Attributes.SPECIFIC_CHARACTER_SET),
                        findings);
            }
        }
    }

    private static void reportOutside(Location where, Optional<Tag> tag, List<String> terms, Findings findings) {
        boolean follows = tag.flatMap(Dictionary.standard()::find)
                .map(entry -> entry.attribute().vr().followsCharacterSet())
                .orElse(true);
        String declared = terms.isEmpty() || !follows
                ? "the default repertoire (ASCII)"
                : "the declared set " + String.join("\\", terms);
        findings.report(
                OUTSIDE, where, "attribute", tag.map(Elements::name).orElse("an attribute"), "declared", declared);
    }

    private static void checkUnwritten(DataSet dataSet, List<String> inherited, Location where, Findings findings)
            throws IOException {
        List<String> terms = dataSet.contains(Attributes.SPECIFIC_CHARACTER_SET)
                ? dataSet.texts(Attributes.SPECIFIC_CHARACTER_SET)
                : inherited;
        for (Element element : dataSet) {
            if (element.value() instanceof Value.Items items) {
                for (int i = 0; i < items.all().size(); i++) {
                    checkUnwritten(
                            items.all().get(i), terms, where.at(element.tag()).item(i + 1), findings);
                }
            } else if (element.value() instanceof Value.Texts && !canBeWritten(element, terms)) {
                reportOutside(where.at(element.tag()), Optional.of(element.tag()), terms, findings);
            }
        }
    }

    /** Asks the writer, which knows the sets; a set it does not know is another rule's finding. */
    private static boolean canBeWritten(Element element, List<String> terms) throws IOException {
        boolean ascii = ((Value.Texts) element.value())
                .all().stream().allMatch(text -> text.chars().allMatch(c -> c < 0x80));
        if (ascii || CharacterSet.of(terms).isEmpty()) {
            return true;
        }
        DataSet alone = DataSet.builder()
                .put(Attributes.SPECIFIC_CHARACTER_SET, terms.toArray(String[]::new))
                .put(element)
                .build();
        try {
            DataSetCodec.encode(alone, TransferSyntax.IMPLICIT_VR_LITTLE_ENDIAN, DataSetCodec.Strictness.QUERY);
            return true;
        } catch (DicomFormatException notInTheSet) {
            return false;
        }
    }
}
