package vestibule.validator.rules;

import java.io.IOException;
import java.util.List;
import java.util.Optional;
import vestibule.dicom.data.Attribute;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Element;
import vestibule.dicom.data.Value;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.dict.Dictionary;
import vestibule.dicom.io.DicomFile;
import vestibule.dicom.io.ReadNote;
import vestibule.validator.Check;
import vestibule.validator.Findings;
import vestibule.validator.Location;
import vestibule.validator.Rule;
import vestibule.validator.Severity;
import vestibule.validator.Subject;
import vestibule.validator.iod.Values;

/** The file meta information, group 0002, in itself and against the data set (PS3.10 7.1, Table 7.1-1). */
final class MetaInformationCheck implements Check {

    private static final String TABLE = "PS3.10 7.1, Table 7.1-1";

    private static final Rule MISSING = Rule.of(
            "FIL-004",
            Severity.ERROR,
            TABLE,
            "The meta information has its required elements, with values.",
            "{attribute} is {state} in the meta information",
            "Write the object again with a writer of Part 10 files.");
    private static final Rule VERSION = Rule.of(
            "FIL-005",
            Severity.ERROR,
            TABLE,
            "The version of the meta information is the two bytes 00H 01H.",
            "the version of the meta information is {found}",
            "Write the object again with a writer of Part 10 files.");
    private static final Rule GROUP_LENGTH = Rule.of(
            "FIL-006",
            Severity.ERROR,
            TABLE,
            "The group length says how many bytes of meta information follow it.",
            "{detail}",
            "Write the object again; readers that believe the length will lose their place.");
    private static final Rule CLASS_DIFFERS = Rule.of(
            "FIL-007",
            Severity.ERROR,
            TABLE,
            "The SOP Class UID of the meta information is that of the data set.",
            "the meta information says {meta}, the data set {dataset}",
            "Write the file again from its data set.");
    private static final Rule INSTANCE_DIFFERS = Rule.of(
            "FIL-008",
            Severity.ERROR,
            TABLE,
            "The SOP Instance UID of the meta information is that of the data set.",
            "the meta information says {meta}, the data set {dataset}",
            "Write the file again from its data set; an archive may store the object under the wrong identifier.");
    private static final Rule SYNTAX_UNKNOWN = Rule.of(
            "FIL-009",
            Severity.ERROR,
            "PS3.5 10",
            "The transfer syntax is one that the standard registers.",
            "the transfer syntax {uid} is not in the tables, so the encoding was guessed",
            "Use a registered transfer syntax; a private one can be read by its maker only.");
    private static final Rule SYNTAX_RETIRED = Rule.of(
            "FIL-010",
            Severity.WARNING,
            "PS3.5 10",
            "The transfer syntax is not retired.",
            "the transfer syntax {name} is retired",
            "Use a current transfer syntax; new receivers need not understand this one.");
    private static final Rule ENCODED_OTHERWISE = Rule.of(
            "FIL-011",
            Severity.ERROR,
            "PS3.5 10",
            "The data set is encoded as its transfer syntax says.",
            "{detail}",
            "Write the object again; readers that believe the transfer syntax cannot read it.");
    private static final Rule NOT_META = Rule.of(
            "FIL-012",
            Severity.ERROR,
            TABLE,
            "Group 0002 holds the elements of the meta information and no others.",
            "{attribute} stands in group 0002, and the table does not have it",
            "Take it out.");
    private static final Rule PRIVATE_INFORMATION = Rule.of(
            "FIL-013",
            Severity.ERROR,
            TABLE,
            "Private Information is there exactly when its creator is named.",
            "{there} is there without {missing}",
            "Add the one that is missing or take the other out.");
    private static final Rule IN_DATA_SET = Rule.of(
            "FIL-014",
            Severity.ERROR,
            "PS3.10 7.1",
            "Command elements and meta information do not stand in a data set.",
            "{attribute} stands in the data set, and its group belongs to {place}",
            "Take it out.");
    private static final Rule TRAILING = Rule.of(
            "FIL-015",
            Severity.NOTE,
            "PS3.10 7.2",
            "Bytes after the data set are Data Set Trailing Padding and mean nothing.",
            "DataSetTrailingPadding has {count} bytes",
            "See that nothing is hidden in them; writers of today leave it out.");

    private static final List<Attribute> REQUIRED = List.of(
            Attributes.FILE_META_INFORMATION_GROUP_LENGTH,
            Attributes.FILE_META_INFORMATION_VERSION,
            Attributes.MEDIA_STORAGE_SOP_CLASS_UID,
            Attributes.MEDIA_STORAGE_SOP_INSTANCE_UID,
            Attributes.TRANSFER_SYNTAX_UID,
            Attributes.IMPLEMENTATION_CLASS_UID);
    private static final Attribute CREATOR = attribute("PrivateInformationCreatorUID");
    private static final Attribute TRAILING_PADDING = attribute("DataSetTrailingPadding");
    private static final Attribute INFORMATION = attribute("PrivateInformation");

    private static Attribute attribute(String keyword) {
        return Dictionary.standard().find(keyword).orElseThrow().attribute();
    }

    @Override
    public List<Rule> rules() {
        return List.of(
                MISSING,
                VERSION,
                GROUP_LENGTH,
                CLASS_DIFFERS,
                INSTANCE_DIFFERS,
                SYNTAX_UNKNOWN,
                SYNTAX_RETIRED,
                ENCODED_OTHERWISE,
                NOT_META,
                PRIVATE_INFORMATION,
                IN_DATA_SET,
                TRAILING);
    }

    @Override
    public void run(Subject subject, Findings findings) throws IOException {
        checkGroups(subject.dataSet(), findings);
        checkRetired(subject, findings);
        if (subject.file().isPresent()) {
            DicomFile file = subject.file().get();
            checkRequired(file.meta(), findings);
            checkVersion(file.meta(), findings);
            checkTable(file.meta(), findings);
            checkIdentity(file, findings);
            checkNotes(file, findings);
        }
    }

    private static void checkGroups(DataSet dataSet, Findings findings) {
        dataSet.find(TRAILING_PADDING)
                .ifPresent(element -> findings.report(
                        TRAILING,
                        Location.of(TRAILING_PADDING),
                        "count",
                        element.value() instanceof Value.Binary binary
                                ? Long.toString(binary.bulk().length())
                                : "no"));
        for (Element element : dataSet) {
            int group = element.tag().group();
            if (group > 0x0003) {
                return;
            }
            findings.report(
                    IN_DATA_SET,
                    Location.OBJECT.at(element.tag()),
                    "attribute",
                    Elements.name(element.tag()),
                    "place",
                    group == 0 ? "messages" : group == 2 ? "the meta information" : "nothing");
        }
    }

    private static void checkRetired(Subject subject, Findings findings) {
        Dictionary.standard()
                .find(subject.transferSyntax().uid())
                .filter(Dictionary.UidEntry::retired)
                .ifPresent(entry -> findings.report(
                        SYNTAX_RETIRED, Location.of(Attributes.TRANSFER_SYNTAX_UID), "name", entry.name()));
    }

    private static void checkRequired(DataSet meta, Findings findings) {
        for (Attribute attribute : REQUIRED) {
            Optional<Element> element = meta.find(attribute);
            if (element.filter(Values::isFilled).isEmpty()) {
                String state = element.isPresent() ? "without a value" : "not there";
                findings.report(MISSING, Location.of(attribute), "attribute", attribute.keyword(), "state", state);
            }
        }
    }

    private static void checkVersion(DataSet meta, Findings findings) throws IOException {
        Optional<Element> version = meta.find(Attributes.FILE_META_INFORMATION_VERSION);
        if (version.isPresent()
                && version.get().value() instanceof Value.Binary binary
                && !version.get().isEmpty()) {
            byte[] start =
                    binary.bulk().part(0, Math.min(2, binary.bulk().length())).bytes(2);
            // Later versions set further bits; a reader looks at the lowest of the second byte only (PS3.10 Table
            // 7.1-1).
            if (binary.bulk().length() != 2 || start[0] != 0 || start[1] != 1) {
                findings.report(
                        VERSION,
                        Location.of(Attributes.FILE_META_INFORMATION_VERSION),
                        "found",
                        start.length < 2
                                ? "one byte long"
                                : "%d bytes, %02XH %02XH first"
                                        .formatted(binary.bulk().length(), start[0], start[1]));
            }
        }
    }

    private static void checkTable(DataSet meta, Findings findings) {
        for (Element element : meta) {
            if (Dictionary.standard().find(element.tag()).isEmpty()) {
                findings.report(
                        NOT_META,
                        Location.OBJECT.at(element.tag()),
                        "attribute",
                        element.tag().toString());
            }
        }
        boolean creator = meta.contains(CREATOR);
        boolean information = meta.contains(INFORMATION);
        if (creator != information) {
            Attribute there = creator ? CREATOR : INFORMATION;
            Attribute missing = creator ? INFORMATION : CREATOR;
            findings.report(
                    PRIVATE_INFORMATION, Location.of(there), "there", there.keyword(), "missing", missing.keyword());
        }
    }

    private static void checkIdentity(DicomFile file, Findings findings) {
        compare(file, Attributes.MEDIA_STORAGE_SOP_CLASS_UID, Attributes.SOP_CLASS_UID, CLASS_DIFFERS, findings);
        compare(
                file,
                Attributes.MEDIA_STORAGE_SOP_INSTANCE_UID,
                Attributes.SOP_INSTANCE_UID,
                INSTANCE_DIFFERS,
                findings);
    }

    private static void compare(DicomFile file, Attribute inMeta, Attribute inDataSet, Rule rule, Findings findings) {
        Optional<String> meta = file.meta().text(inMeta);
        Optional<String> dataSet = file.dataSet().text(inDataSet);
        if (meta.isPresent() && dataSet.isPresent() && !meta.equals(dataSet)) {
            findings.report(rule, Location.of(inMeta), "meta", meta.get(), "dataset", dataSet.get());
        }
    }

    private static void checkNotes(DicomFile file, Findings findings) {
        for (ReadNote note : file.notes()) {
            switch (note.kind()) {
                case META_GROUP_LENGTH ->
                    findings.report(
                            GROUP_LENGTH,
                            Location.of(Attributes.FILE_META_INFORMATION_GROUP_LENGTH),
                            "detail",
                            note.detail());
                case UNKNOWN_TRANSFER_SYNTAX ->
                    findings.report(
                            SYNTAX_UNKNOWN,
                            Location.of(Attributes.TRANSFER_SYNTAX_UID),
                            "uid",
                            file.meta().text(Attributes.TRANSFER_SYNTAX_UID).orElse("without a name"));
                case OTHER_ENCODING ->
                    findings.report(
                            ENCODED_OTHERWISE, Location.of(Attributes.TRANSFER_SYNTAX_UID), "detail", note.detail());
                default -> {
                    // other checks speak of these
                }
            }
        }
    }
}
