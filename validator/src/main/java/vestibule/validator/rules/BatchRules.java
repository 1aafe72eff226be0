package vestibule.validator.rules;

import java.util.List;
import vestibule.validator.Rule;
import vestibule.validator.Severity;

/** The rules that compare the objects of a batch. */
final class BatchRules {

    private static final String EDGES =
            "Compressed pixels of more than 32 kB are compared by their length and their first and last 16 kB.";

    static final Rule OTHER_CONTENT = Rule.of(
            "BAT-001",
            Severity.ERROR,
            "PS3.5 9",
            "A SOP Instance UID names one object only.",
            "the SOP Instance UID is that of {other}, whose content is another",
            "Give each object a SOP Instance UID of its own; an archive may keep only one of the two.");
    static final Rule COPY = Rule.of(
            "BAT-002",
            Severity.NOTE,
            "PS3.5 9",
            "An object is in a batch once.",
            "the same object is in {other}",
            "Nothing need be done; one of the two files is not needed.");
    static final Rule STUDY_PATIENT = Rule.of(
            "BAT-003",
            Severity.ERROR,
            "PS3.3 A.1.2",
            "A study is of one patient.",
            "the study is that of {other}, whose patient is another",
            "Find out whose photograph it is, and put it into a study of that patient.");
    static final Rule SERIES_STUDY = Rule.of(
            "BAT-004",
            Severity.ERROR,
            "PS3.3 A.1.2",
            "A series is in one study and of one modality.",
            "the series is that of {other}, whose {what} is another",
            "Give the series a Series Instance UID of its own.");
    static final Rule DEMOGRAPHICS = Rule.of(
            "BAT-005",
            Severity.ERROR,
            "PS3.3 A.1.2",
            "One patient has one name, one birth date and one sex.",
            "{attribute} is another than in {other}, which has the same patient identifier and issuer",
            "Find out which is right; it may be the wrong patient.");
    static final Rule STUDY_VALUES = Rule.of(
            "BAT-006",
            Severity.ERROR,
            "PS3.3 A.1.2",
            "All objects of a study share the values of the study.",
            "{attribute} is another than in {other}, which is of the same study",
            "Make the values of the study agree.");
    static final Rule SAME_PICTURE = Rule.of(
                    "BAT-007",
                    Severity.WARNING,
                    "PS3.5 9",
                    "A picture is in a batch once.",
                    "the picture is the one in {other}, under another SOP Instance UID",
                    "See whether the photograph was filed twice.")
            .asJudgement()
            .within(EDGES);
    static final Rule TWO_PATIENTS = Rule.of(
                    "BAT-008",
                    Severity.ERROR,
                    "PS3.3 A.1.2",
                    "A picture is of one patient.",
                    "the picture is the one in {other}, whose patient is another",
                    "Find out whose photograph it is, and take the other object out of the archive.")
            .within(EDGES);
    static final Rule SAME_NUMBER = Rule.of(
            "BAT-009",
            Severity.WARNING,
            "PS3.3 C.7.6.1",
            "Instance Number tells the images of a series apart.",
            "InstanceNumber {number} is also that of {other} in the same series",
            "Number the images of a series one after the other.");
    static final Rule NO_SOURCE_HERE = Rule.of(
            "BAT-010",
            Severity.NOTE,
            "PS3.3 C.12.4",
            "The source of a derived picture is kept with it.",
            "the source image {source} of {object} is not in this batch",
            "See whether the archive has it; a derived copy does not replace its original.");
    static final Rule SOURCE_PATIENT = Rule.of(
            "BAT-011",
            Severity.ERROR,
            "PS3.3 A.1.2",
            "A derived picture and its source are of one patient.",
            "the source image of {object} is {other}, whose patient is another",
            "Find out whose photograph it is.");
    static final Rule SERIES_NUMBER = Rule.of(
            "BAT-012",
            Severity.WARNING,
            "PS3.3 C.7.3.1",
            "Series Number tells the series of a study apart.",
            "SeriesNumber {number} is also that of another series of the study, as {other}",
            "Number the series of a study one after the other.");
    static final Rule NUMBER_GAP = Rule.of(
                    "BAT-013",
                    Severity.NOTE,
                    "PS3.3 C.7.6.1",
                    "The images of a series are numbered without gaps.",
                    "between InstanceNumber {first} and {last} there are no images numbered {missing}",
                    "See whether images of the series were lost; they may lie elsewhere.")
            .asJudgement();
    static final Rule SERIES_DAYS = Rule.of(
                    "BAT-014",
                    Severity.WARNING,
                    "PS3.3 C.7.3.1",
                    "The photographs of a series were taken on one day.",
                    "the photograph was taken {days} days from {other}, which is in the same series",
                    "See whether the clock of the camera was changed, or two sittings were filed as one.")
            .asJudgement();
    static final Rule UID_OF_OTHER_KIND = Rule.of(
            "BAT-015",
            Severity.ERROR,
            "PS3.5 9",
            "A unique identifier names one thing.",
            "{attribute} also names a {kind} in this batch, as {other} says",
            "Give each study, series and object an identifier of its own.");
    static final Rule SAME_PERSON = Rule.of(
                    "BAT-016",
                    Severity.WARNING,
                    "PS3.3 C.7.1.1",
                    "One person has one patient identifier from an issuer.",
                    "{other} is of a patient of the same name, birth date and sex under another identifier",
                    "See whether they are one person; if so, have the archive merge the two.")
            .asJudgement();
    static final Rule MISSING_VIEWS = Rule.of(
                    "BAT-017",
                    Severity.WARNING,
                    "House sets",
                    "A sitting has all views of its set.",
                    "the series has {count} views of the set {set}, and not {missing}",
                    "See whether the photographs were taken, and file them or note why not.")
            .asJudgement();

    static final Rule SOURCE_DIRECTION = Rule.of(
            "BAT-018",
            Severity.ERROR,
            "PS3.3 C.12.4",
            "A source image lies as the picture that was made from it says.",
            "{object} says that its source lies \"{said}\", and PatientOrientation of {other} is \"{value}\"",
            "Find out how both lie: one of them, or the picture made from it, shows left and right exchanged.");
    static final Rule SOURCE_SIDE = Rule.of(
            "BAT-019",
            Severity.ERROR,
            "PS3.3 C.8.12.1",
            "A derived picture shows the side that its source shows.",
            "ImageLaterality of {object} is {side}, and that of its source {other} is {value}",
            "Find out which side is shown; a wrong side can lead to a wrong treatment.");

    private BatchRules() {}

    static List<Rule> all() {
        return List.of(
                OTHER_CONTENT,
                COPY,
                STUDY_PATIENT,
                SERIES_STUDY,
                DEMOGRAPHICS,
                STUDY_VALUES,
                SAME_PICTURE,
                TWO_PATIENTS,
                SAME_NUMBER,
                NO_SOURCE_HERE,
                SOURCE_PATIENT,
                SERIES_NUMBER,
                NUMBER_GAP,
                SERIES_DAYS,
                UID_OF_OTHER_KIND,
                SAME_PERSON,
                MISSING_VIEWS,
                SOURCE_DIRECTION,
                SOURCE_SIDE);
    }
}
