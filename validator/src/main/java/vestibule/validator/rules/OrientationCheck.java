package vestibule.validator.rules;

import java.util.List;
import java.util.Optional;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.dict.Attributes;
import vestibule.validator.Check;
import vestibule.validator.Findings;
import vestibule.validator.Location;
import vestibule.validator.Rule;
import vestibule.validator.Severity;
import vestibule.validator.Subject;

/** Patient Orientation and the statements about side (PS3.3 C.7.6.1.1.1, C.7.3.1, C.8.12.1). */
final class OrientationCheck implements Check {

    private static final Rule LETTERS = Rule.of(
            "PHO-001",
            Severity.ERROR,
            "PS3.3 C.7.6.1.1.1",
            "Each value of Patient Orientation is one to three of the letters A P R L H F, no two of one axis.",
            "value {number} of PatientOrientation is \"{value}\", where {problem}",
            "Name the direction in the patient to which the row, then the column, points; or leave both out.");
    private static final Rule SAME_AXIS = Rule.of(
            "PHO-002",
            Severity.ERROR,
            "PS3.3 C.7.6.1.1.1",
            "Row and column of an image point along different axes of the patient.",
            "PatientOrientation is \"{value}\": the row and the column point mainly along the same axis",
            "Name the direction of the row first, then that of the column.");
    private static final Rule SERIES_SIDE = Rule.of(
            "PHO-003",
            Severity.ERROR,
            "PS3.3 C.7.3.1",
            "Laterality of the series is left out when the image states its own.",
            "Laterality is \"{series}\" and ImageLaterality is \"{image}\"",
            "Take Laterality out; the side stands with each image.");

    private static final List<String> AXES = List.of("AP", "RL", "HF");

    @Override
    public List<Rule> rules() {
        return List.of(LETTERS, SAME_AXIS, SERIES_SIDE);
    }

    @Override
    public void run(Subject subject, Findings findings) {
        if (!subject.isPhotograph()) {
            return;
        }
        DataSet dataSet = subject.dataSet();
        checkOrientation(dataSet.texts(Attributes.PATIENT_ORIENTATION), findings);
        Optional<String> image = dataSet.text(Attributes.IMAGE_LATERALITY);
        Optional<String> series = dataSet.text(Attributes.LATERALITY);
        if (image.isPresent() && series.isPresent()) {
            findings.report(
                    SERIES_SIDE, Location.of(Attributes.LATERALITY), "series", series.get(), "image", image.get());
        }
    }

    private static void checkOrientation(List<String> values, Findings findings) {
        Location where = Location.of(Attributes.PATIENT_ORIENTATION);
        boolean legal = true;
        for (int i = 0; i < values.size(); i++) {
            String problem = problem(values.get(i).strip(), values.size());
            if (!problem.isEmpty()) {
                legal = false;
                findings.report(
                        LETTERS, where, "number", Integer.toString(i + 1), "value", values.get(i), "problem", problem);
            }
        }
        boolean both =
                values.size() == 2 && !values.get(0).isBlank() && !values.get(1).isBlank();
        if (legal && both && axis(values.get(0).charAt(0)) == axis(values.get(1).charAt(0))) {
            findings.report(SAME_AXIS, where, "value", String.join("\\", values));
        }
    }

    private static String problem(String value, int values) {
        if (value.isEmpty()) {
            return values > 1 ? "a direction is missing" : "";
        }
        if (!value.matches("[APRLHF]{1,3}")) {
            return "something else than one to three letters of A P R L H F stands";
        }
        long axes = value.chars().map(OrientationCheck::axis).distinct().count();
        return axes < value.length() ? "two letters name one axis" : "";
    }

    private static int axis(int letter) {
        for (int i = 0; i < AXES.size(); i++) {
            if (AXES.get(i).indexOf(letter) >= 0) {
                return i;
            }
        }
        return -1;
    }
}
