package vestibule.validator.rules;

import java.io.IOException;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import vestibule.dicom.data.Attribute;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.dict.Dictionary;
import vestibule.validator.Check;
import vestibule.validator.Findings;
import vestibule.validator.Location;
import vestibule.validator.Rule;
import vestibule.validator.Severity;
import vestibule.validator.Subject;

/**
 * Compares each object of a batch with those before it; one of these belongs to one batch. What contradicts an earlier object is said of
 * the later one. It keeps identifiers and numbers that stand for contents, no names.
 */
public final class BatchCheck implements Check {

    private static final Rule OTHER_CONTENT = Rule.of(
            "BAT-001",
            Severity.ERROR,
            "PS3.5 9",
            "A SOP Instance UID names one object only.",
            "the SOP Instance UID is that of {other}, whose content is another",
            "Give each object a SOP Instance UID of its own; an archive may keep only one of the two.");
    private static final Rule COPY = Rule.of(
            "BAT-002",
            Severity.NOTE,
            "PS3.5 9",
            "An object is in a batch once.",
            "the same object is in {other}",
            "Nothing need be done; one of the two files is not needed.");
    private static final Rule STUDY_PATIENT = Rule.of(
            "BAT-003",
            Severity.ERROR,
            "PS3.3 A.1.2",
            "A study is of one patient.",
            "the study is that of {other}, whose patient is another",
            "Find out whose photograph it is, and put it into a study of that patient.");
    private static final Rule SERIES_STUDY = Rule.of(
            "BAT-004",
            Severity.ERROR,
            "PS3.3 A.1.2",
            "A series is in one study and of one modality.",
            "the series is that of {other}, whose {what} is another",
            "Give the series a Series Instance UID of its own.");
    private static final Rule DEMOGRAPHICS = Rule.of(
            "BAT-005",
            Severity.ERROR,
            "PS3.3 A.1.2",
            "One patient has one name, one birth date and one sex.",
            "{attribute} is another than in {other}, which has the same patient identifier and issuer",
            "Find out which is right; it may be the wrong patient.");
    private static final Rule STUDY_VALUES = Rule.of(
            "BAT-006",
            Severity.ERROR,
            "PS3.3 A.1.2",
            "All objects of a study share the values of the study.",
            "{attribute} is another than in {other}, which is of the same study",
            "Make the values of the study agree.");
    private static final Rule SAME_PICTURE = Rule.of(
                    "BAT-007",
                    Severity.WARNING,
                    "PS3.5 9",
                    "A picture is in a batch once.",
                    "the picture is the one in {other}, under another SOP Instance UID",
                    "See whether the photograph was filed twice.")
            .asJudgement();
    private static final Rule TWO_PATIENTS = Rule.of(
            "BAT-008",
            Severity.ERROR,
            "PS3.3 A.1.2",
            "A picture is of one patient.",
            "the picture is the one in {other}, whose patient is another",
            "Find out whose photograph it is, and take the other object out of the archive.");
    private static final Rule SAME_NUMBER = Rule.of(
            "BAT-009",
            Severity.WARNING,
            "PS3.3 C.7.6.1",
            "Instance Number tells the images of a series apart.",
            "InstanceNumber {number} is also that of {other} in the same series",
            "Number the images of a series one after the other.");

    private static final List<Attribute> OF_PATIENT =
            List.of(Attributes.PATIENT_NAME, Attributes.PATIENT_BIRTH_DATE, Attributes.PATIENT_SEX);
    private static final List<Attribute> OF_STUDY =
            List.of(Attributes.STUDY_DATE, Attributes.STUDY_TIME, Attributes.STUDY_ID, Attributes.ACCESSION_NUMBER);
    private static final Attribute ISSUER =
            Dictionary.standard().find("IssuerOfPatientID").orElseThrow().attribute();

    /**
     * What is kept of an object.
     *
     * @param path where it is
     * @param patient identifier and issuer
     * @param values hash codes of the attributes that must agree
     */
    private record Seen(String path, String patient, String instance, ContentHash content, List<Integer> values) {}

    private final Map<String, Seen> instances = new HashMap<>();
    private final Map<Long, Seen> pictures = new HashMap<>();
    private final Map<String, Seen> studies = new HashMap<>();
    private final Map<String, Seen> patients = new HashMap<>();
    private final Map<String, Seen> series = new HashMap<>();
    private final Map<String, Seen> numbers = new HashMap<>();

    /** A check for a batch that starts now. */
    public BatchCheck() {}

    /** The rules that compare objects. */
    public static List<Rule> all() {
        return List.of(
                OTHER_CONTENT,
                COPY,
                STUDY_PATIENT,
                SERIES_STUDY,
                DEMOGRAPHICS,
                STUDY_VALUES,
                SAME_PICTURE,
                TWO_PATIENTS,
                SAME_NUMBER);
    }

    @Override
    public List<Rule> rules() {
        return all();
    }

    @Override
    public void run(Subject subject, Findings findings) throws IOException {
        DataSet dataSet = subject.dataSet();
        Optional<String> instance = dataSet.text(Attributes.SOP_INSTANCE_UID);
        if (instance.isEmpty()) {
            return;
        }
        String path = subject.file().map(file -> file.path().toString()).orElse("");
        String patient = patient(dataSet);
        ContentHash content = ContentHash.of(dataSet);
        Seen seen = new Seen(path, patient, instance.get(), content, List.of());
        Seen before = instances.putIfAbsent(instance.get(), seen);
        if (before != null) {
            Rule rule = before.content().equals(content) ? COPY : OTHER_CONTENT;
            findings.report(rule, Location.of(Attributes.SOP_INSTANCE_UID), "other", before.path());
        } else if (content.picture() != 0) {
            checkPicture(seen, findings);
        }
        checkPatient(dataSet, seen, findings);
        checkStudy(dataSet, seen, findings);
        checkSeries(dataSet, seen, before != null, findings);
    }

    private static String patient(DataSet dataSet) {
        return dataSet.text(Attributes.PATIENT_ID).orElse("")
                + '\\'
                + dataSet.text(ISSUER).orElse("");
    }

    private void checkPicture(Seen seen, Findings findings) {
        Seen before = pictures.putIfAbsent(seen.content().picture(), seen);
        if (before != null) {
            boolean same = before.patient().equals(seen.patient());
            findings.report(
                    same ? SAME_PICTURE : TWO_PATIENTS, Location.of(Attributes.PIXEL_DATA), "other", before.path());
        }
    }

    private void checkPatient(DataSet dataSet, Seen seen, Findings findings) {
        if (dataSet.text(Attributes.PATIENT_ID).isPresent()) {
            compare(patients, seen.patient(), dataSet, OF_PATIENT, seen, DEMOGRAPHICS, findings);
        }
    }

    private void checkStudy(DataSet dataSet, Seen seen, Findings findings) {
        Optional<String> study = dataSet.text(Attributes.STUDY_INSTANCE_UID);
        if (study.isEmpty()) {
            return;
        }
        Seen before = studies.get(study.get());
        if (before != null && !before.patient().equals(seen.patient())) {
            findings.report(STUDY_PATIENT, Location.of(Attributes.STUDY_INSTANCE_UID), "other", before.path());
        }
        compare(studies, study.get(), dataSet, OF_STUDY, seen, STUDY_VALUES, findings);
    }

    /** Attributes without a value contradict nothing. */
    private static void compare(
            Map<String, Seen> known,
            String key,
            DataSet dataSet,
            List<Attribute> attributes,
            Seen seen,
            Rule rule,
            Findings findings) {
        List<Integer> values = attributes.stream()
                .map(attribute -> dataSet.text(attribute).map(String::hashCode).orElse(0))
                .toList();
        Seen before =
                known.putIfAbsent(key, new Seen(seen.path(), seen.patient(), seen.instance(), seen.content(), values));
        if (before == null) {
            return;
        }
        for (int i = 0; i < values.size(); i++) {
            boolean differs = values.get(i) != 0
                    && before.values().get(i) != 0
                    && !Objects.equals(values.get(i), before.values().get(i));
            if (differs) {
                findings.report(
                        rule,
                        Location.of(attributes.get(i)),
                        "attribute",
                        attributes.get(i).keyword(),
                        "other",
                        before.path());
            }
        }
    }

    private void checkSeries(DataSet dataSet, Seen seen, boolean again, Findings findings) {
        Optional<String> uid = dataSet.text(Attributes.SERIES_INSTANCE_UID);
        if (uid.isEmpty()) {
            return;
        }
        int study = dataSet.text(Attributes.STUDY_INSTANCE_UID).orElse("").hashCode();
        int modality = dataSet.text(Attributes.MODALITY).orElse("").hashCode();
        Seen here = new Seen(seen.path(), seen.patient(), seen.instance(), seen.content(), List.of(study, modality));
        Seen before = series.putIfAbsent(uid.get(), here);
        if (before != null && !before.values().equals(here.values())) {
            findings.report(
                    SERIES_STUDY,
                    Location.of(Attributes.SERIES_INSTANCE_UID),
                    "other",
                    before.path(),
                    "what",
                    before.values().get(0).equals(study) ? "modality" : "study");
        }
        Optional<String> number = dataSet.text(Attributes.INSTANCE_NUMBER);
        if (number.isPresent() && !again) {
            Seen first = numbers.putIfAbsent(uid.get() + '\\' + number.get(), seen);
            if (first != null) {
                findings.report(
                        SAME_NUMBER,
                        Location.of(Attributes.INSTANCE_NUMBER),
                        "number",
                        number.get(),
                        "other",
                        first.path());
            }
        }
    }
}
