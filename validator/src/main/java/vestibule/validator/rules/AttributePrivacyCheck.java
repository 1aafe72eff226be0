package vestibule.validator.rules;

import java.util.List;
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

/** What should not leave the practice and stands in attributes rather than in the stream (the list follows PS3.15 E.1). */
final class AttributePrivacyCheck implements Check {

    private static final String CITATION = "House privacy";

    private static final Rule PLACE = Rule.of(
            "PHO-012",
            Severity.ERROR,
            CITATION,
            "The object does not say where the photograph was taken.",
            "{attribute} is there",
            "Take the attributes of the place out.");
    private static final Rule ICON = Rule.of(
            "PRV-009",
            Severity.ERROR,
            CITATION,
            "The object holds one picture.",
            "IconImageSequence holds a second picture, which may show what was cut off or blackened",
            "Take the icon out; viewers make their own.");
    private static final Rule SERIAL = Rule.of(
            "PRV-010",
            Severity.WARNING,
            CITATION,
            "The object names no owner of the camera and no serial number.",
            "{attribute} is there",
            "Take it out, unless the practice decided to keep it.");
    private static final Rule MAKER_NOTE = Rule.of(
            "PRV-011",
            Severity.WARNING,
            CITATION,
            "The object has no maker note, whose contents only the maker knows.",
            "{attribute} is there",
            "Take it out.");
    private static final Rule NO_ANNOTATION = Rule.of(
            "PRV-012",
            Severity.NOTE,
            CITATION,
            "The object says whether its pixels name the patient.",
            "BurnedInAnnotation is not there",
            "Say YES or NO after looking at the picture.");

    private static final Attribute CAMERA_OWNER = attribute("CameraOwnerName");
    private static final Attribute MAKER = attribute("MakerNote");
    private static final List<Attribute> SERIALS =
            List.of(CAMERA_OWNER, attribute("LensSerialNumber"), attribute("DeviceSerialNumber"));
    private static final Attribute ICON_IMAGE = attribute("IconImageSequence");

    private static Attribute attribute(String keyword) {
        return Dictionary.standard().find(keyword).orElseThrow().attribute();
    }

    @Override
    public List<Rule> rules() {
        return List.of(PLACE, ICON, SERIAL, MAKER_NOTE, NO_ANNOTATION);
    }

    @Override
    public void run(Subject subject, Findings findings) {
        if (!subject.isPhotograph()) {
            return;
        }
        DataSet dataSet = subject.dataSet();
        dataSet.stream()
                .filter(element -> element.tag().group() == 0x0016
                        && Elements.name(element.tag()).startsWith("GPS"))
                .forEach(element -> findings.report(
                        PLACE, Location.OBJECT.at(element.tag()), "attribute", Elements.name(element.tag())));
        if (dataSet.hasValue(ICON_IMAGE)) {
            findings.report(ICON, Location.of(ICON_IMAGE));
        }
        for (Attribute attribute : SERIALS) {
            if (dataSet.hasValue(attribute)) {
                findings.report(SERIAL, Location.of(attribute), "attribute", attribute.keyword());
            }
        }
        if (dataSet.hasValue(MAKER)) {
            findings.report(MAKER_NOTE, Location.of(MAKER), "attribute", MAKER.keyword());
        }
        if (!dataSet.hasValue(Attributes.BURNED_IN_ANNOTATION)) {
            findings.report(NO_ANNOTATION, Location.of(Attributes.BURNED_IN_ANNOTATION));
        }
    }
}
