package vestibule.validator.rules;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
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

/** What no table asks: dates that can be, copies that name their source, and what the practice wants filled in. */
final class SenseCheck implements Check {

    private static final int DAYS_APART = 1;
    private static final Set<String> FACES = Set.of("89545001", "69536005", "774007");

    private static final Rule BEFORE_BIRTH = Rule.of(
            "PHO-004",
            Severity.ERROR,
            "PS3.3 C.7.1.1",
            "Nothing is recorded of a patient before birth.",
            "{attribute} is a day before PatientBirthDate",
            "Find out which of the dates is wrong; it may be the wrong patient.");
    private static final Rule OTHER_DAY = Rule.of(
                    "PHO-005",
                    Severity.WARNING,
                    "PS3.3 C.7.2.1",
                    "A photograph is taken on the day of its study.",
                    "AcquisitionDateTime and StudyDate are {days} days apart",
                    "See whether the clock of the camera is right and the photograph is in its study.")
            .asJudgement();
    private static final Rule NO_SOURCE = Rule.of(
                    "PHO-006",
                    Severity.WARNING,
                    "PS3.3 C.12.4",
                    "A derived picture names the picture it was made from and says how.",
                    "ImageType starts with DERIVED, and {missing} is not there",
                    "Name the source, or call the picture ORIGINAL if its pixels are those of the camera.")
            .asJudgement();
    private static final Rule OWN_SOURCE = Rule.of(
            "PHO-007",
            Severity.ERROR,
            "PS3.3 C.12.4",
            "A picture is not its own source.",
            "the source image has the SOP Instance UID of this object",
            "Give the derived picture a SOP Instance UID of its own.");
    private static final Rule FACE = Rule.of(
            "PHO-008",
            Severity.WARNING,
            "House privacy",
            "A photograph of a face says whether the person can be recognised.",
            "the region is \"{region}\", and RecognizableVisualFeatures is not there",
            "Set it to YES unless nobody could recognise the person.");
    private static final Rule NO_ORIENTATION = Rule.of(
            "PHO-009",
            Severity.WARNING,
            "House labels",
            "A clinical photograph says which way the patient lies in it.",
            "PatientOrientation has no value",
            "Say which way row and column point in the patient.");
    private static final Rule NO_REGION = Rule.of(
            "PHO-010",
            Severity.WARNING,
            "House labels",
            "A clinical photograph says what it shows.",
            "AnatomicRegionSequence is not there",
            "Code the region.");
    private static final Rule NO_PATIENT = Rule.of(
            "PHO-011",
            Severity.ERROR,
            "House labels",
            "A clinical photograph belongs to a patient of the practice.",
            "{attribute} has no value",
            "Find out whose photograph it is.");
    private static final Rule PLACE = Rule.of(
            "PHO-012",
            Severity.ERROR,
            "House privacy",
            "The object does not say where the photograph was taken.",
            "{attribute} is there",
            "Take the attributes of the place out.");

    private static final Attribute ACQUISITION = attribute("AcquisitionDateTime");
    private static final Attribute DESCRIPTION = attribute("DerivationDescription");
    private static final Attribute DERIVATION = attribute("DerivationCodeSequence");
    private static final Attribute REFERENCED = attribute("ReferencedSOPInstanceUID");

    private static Attribute attribute(String keyword) {
        return Dictionary.standard().find(keyword).orElseThrow().attribute();
    }

    @Override
    public List<Rule> rules() {
        return List.of(
                BEFORE_BIRTH, OTHER_DAY, NO_SOURCE, OWN_SOURCE, FACE, NO_ORIENTATION, NO_REGION, NO_PATIENT, PLACE);
    }

    @Override
    public void run(Subject subject, Findings findings) {
        if (subject.isPhotograph()) {
            checkDates(subject.dataSet(), findings);
            checkSource(subject.dataSet(), findings);
            checkLabels(subject.dataSet(), findings);
            checkPlace(subject.dataSet(), findings);
        }
    }

    private static Optional<LocalDate> day(DataSet dataSet, Attribute attribute) {
        return dataSet.text(attribute)
                .filter(text -> text.matches("[0-9]{8}.*"))
                .flatMap(text -> {
                    try {
                        return Optional.of(LocalDate.of(
                                Integer.parseInt(text.substring(0, 4)),
                                Integer.parseInt(text.substring(4, 6)),
                                Integer.parseInt(text.substring(6, 8))));
                    } catch (DateTimeException notInTheCalendar) {
                        return Optional.empty();
                    }
                });
    }

    private static void checkDates(DataSet dataSet, Findings findings) {
        Optional<LocalDate> birth = day(dataSet, Attributes.PATIENT_BIRTH_DATE);
        if (birth.isPresent()) {
            for (Attribute attribute : List.of(Attributes.STUDY_DATE, Attributes.CONTENT_DATE, ACQUISITION)) {
                if (day(dataSet, attribute)
                        .filter(day -> day.isBefore(birth.get()))
                        .isPresent()) {
                    findings.report(BEFORE_BIRTH, Location.of(attribute), "attribute", attribute.keyword());
                }
            }
        }
        Optional<LocalDate> taken = day(dataSet, ACQUISITION);
        Optional<LocalDate> study = day(dataSet, Attributes.STUDY_DATE);
        if (taken.isPresent() && study.isPresent()) {
            long days = Math.abs(ChronoUnit.DAYS.between(taken.get(), study.get()));
            if (days > DAYS_APART) {
                findings.report(OTHER_DAY, Location.of(ACQUISITION), "days", Long.toString(days));
            }
        }
    }

    private static void checkSource(DataSet dataSet, Findings findings) {
        boolean derived = dataSet.text(Attributes.IMAGE_TYPE).equals(Optional.of("DERIVED"));
        boolean described = dataSet.hasValue(DESCRIPTION) || dataSet.hasValue(DERIVATION);
        boolean named = dataSet.hasValue(Attributes.SOURCE_IMAGE_SEQUENCE);
        if (derived && !(described && named)) {
            findings.report(
                    NO_SOURCE,
                    Location.of(Attributes.IMAGE_TYPE),
                    "missing",
                    Stream.of(named ? "" : "a source image", described ? "" : "a description of the derivation")
                            .filter(text -> !text.isEmpty())
                            .reduce((left, right) -> left + " or " + right)
                            .orElseThrow());
        }
        Optional<String> own = dataSet.text(Attributes.SOP_INSTANCE_UID);
        List<DataSet> sources = dataSet.items(Attributes.SOURCE_IMAGE_SEQUENCE);
        for (int i = 0; i < sources.size(); i++) {
            if (own.isPresent() && sources.get(i).text(REFERENCED).equals(own)) {
                findings.report(
                        OWN_SOURCE,
                        Location.of(Attributes.SOURCE_IMAGE_SEQUENCE)
                                .item(i + 1)
                                .at(REFERENCED.tag()));
            }
        }
    }

    private static void checkLabels(DataSet dataSet, Findings findings) {
        if (!dataSet.hasValue(Attributes.PATIENT_ORIENTATION)) {
            findings.report(NO_ORIENTATION, Location.of(Attributes.PATIENT_ORIENTATION));
        }
        if (!dataSet.hasValue(Attributes.ANATOMIC_REGION_SEQUENCE)) {
            findings.report(NO_REGION, Location.of(Attributes.ANATOMIC_REGION_SEQUENCE));
        }
        for (Attribute attribute : List.of(Attributes.PATIENT_ID, Attributes.PATIENT_NAME)) {
            if (!dataSet.hasValue(attribute)) {
                findings.report(NO_PATIENT, Location.of(attribute), "attribute", attribute.keyword());
            }
        }
        if (!dataSet.hasValue(Attributes.RECOGNIZABLE_VISUAL_FEATURES)) {
            Stream.of(Attributes.ANATOMIC_REGION_SEQUENCE, Attributes.PRIMARY_ANATOMIC_STRUCTURE_SEQUENCE)
                    .flatMap(sequence -> dataSet.items(sequence).stream())
                    .filter(item ->
                            FACES.contains(item.text(Attributes.CODE_VALUE).orElse("")))
                    .findFirst()
                    .ifPresent(item -> findings.report(
                            FACE,
                            Location.of(Attributes.RECOGNIZABLE_VISUAL_FEATURES),
                            "region",
                            item.text(Attributes.CODE_MEANING).orElse("")));
        }
    }

    private static void checkPlace(DataSet dataSet, Findings findings) {
        dataSet.stream()
                .filter(element -> Elements.name(element.tag()).startsWith("GPS")
                        && element.tag().group() == 0x0016)
                .forEach(element -> findings.report(
                        PLACE, Location.OBJECT.at(element.tag()), "attribute", Elements.name(element.tag())));
    }
}
