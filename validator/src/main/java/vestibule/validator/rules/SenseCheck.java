package vestibule.validator.rules;

import java.util.List;
import java.util.Optional;
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

/** What no table asks: copies that name their source, and what the practice wants filled in. */
final class SenseCheck implements Check {

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
    private static final Rule FACE_DENIED = Rule.of(
                    "PHO-017",
                    Severity.WARNING,
                    "House privacy",
                    "A photograph of a face is not called one that nobody could recognise.",
                    "the region is \"{region}\", and RecognizableVisualFeatures is NO",
                    "Look at the picture, and set it to YES unless nobody could recognise the person.")
            .asJudgement();

    private static final Attribute DESCRIPTION = attribute("DerivationDescription");
    private static final Attribute DERIVATION = attribute("DerivationCodeSequence");
    private static final Attribute REFERENCED = attribute("ReferencedSOPInstanceUID");

    private static Attribute attribute(String keyword) {
        return Dictionary.standard().find(keyword).orElseThrow().attribute();
    }

    @Override
    public List<Rule> rules() {
        return List.of(NO_SOURCE, OWN_SOURCE, FACE, NO_ORIENTATION, NO_REGION, NO_PATIENT, FACE_DENIED);
    }

    @Override
    public void run(Subject subject, Findings findings) {
        if (subject.isPhotograph()) {
            checkSource(subject.dataSet(), findings);
            checkLabels(subject.dataSet(), findings);
            checkFace(subject.dataSet(), findings);
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
        // laboratory work on the bench is no part of a patient
        boolean ofNoBody = Taking.of(dataSet)
                .view()
                .flatMap(ViewTable.standard()::find)
                .filter(ViewTable.View::isOfNoBody)
                .isPresent();
        if (!ofNoBody && !dataSet.hasValue(Attributes.PATIENT_ORIENTATION)) {
            findings.report(NO_ORIENTATION, Location.of(Attributes.PATIENT_ORIENTATION));
        }
        if (!ofNoBody && !dataSet.hasValue(Attributes.ANATOMIC_REGION_SEQUENCE)) {
            findings.report(NO_REGION, Location.of(Attributes.ANATOMIC_REGION_SEQUENCE));
        }
        for (Attribute attribute : List.of(Attributes.PATIENT_ID, Attributes.PATIENT_NAME)) {
            if (!dataSet.hasValue(attribute)) {
                findings.report(NO_PATIENT, Location.of(attribute), "attribute", attribute.keyword());
            }
        }
    }

    private static void checkFace(DataSet dataSet, Findings findings) {
        Optional<DataSet> face = Anatomy.items(dataSet).filter(Anatomy::isFace).findFirst();
        Optional<String> flag = dataSet.text(Attributes.RECOGNIZABLE_VISUAL_FEATURES);
        if (face.isPresent() && (flag.isEmpty() || flag.get().equals("NO"))) {
            findings.report(
                    flag.isPresent() ? FACE_DENIED : FACE,
                    Location.of(Attributes.RECOGNIZABLE_VISUAL_FEATURES),
                    "region",
                    face.get().text(Attributes.CODE_MEANING).orElse(""));
        }
    }
}
