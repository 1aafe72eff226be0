package vestibule.bridge.app;

import java.io.IOException;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import vestibule.bridge.delivery.PhotographSearch;
import vestibule.bridge.delivery.SearchException;
import vestibule.bridge.patient.Patient;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.dict.Attributes;

/**
 * The photographs that an archive has of a patient, to be held beside new ones of the same view. They are paired by view and side, never by
 * their place in a series (trade facts F-54).
 */
final class EarlierPhotographs {

    private final List<PhotographSearch.Found> found;

    private EarlierPhotographs(List<PhotographSearch.Found> found) {
        this.found = List.copyOf(found);
    }

    /** All that the archive has of that patient; ids of another issuer are another person's. */
    static EarlierPhotographs of(PhotographSearch search, Patient patient) throws IOException, SearchException {
        return new EarlierPhotographs(search.photographs(Optional.of(patient.id()), Optional.empty()).stream()
                .filter(one -> sameIssuer(one.study(), patient))
                .toList());
    }

    private static boolean sameIssuer(DataSet study, Patient patient) {
        Optional<String> issuer =
                study.text(Attributes.ISSUER_OF_PATIENT_ID).map(String::strip).filter(text -> !text.isEmpty());
        return issuer.isEmpty() || patient.issuer().isEmpty() || issuer.equals(patient.issuer());
    }

    /**
     * One line for each earlier photograph of a view, the latest first.
     *
     * @param view the view's id
     * @param label what the practice calls it
     * @param laterality which side it shows, as objects say it
     * @param before the day of the new photographs, YYYYMMDD; only earlier ones count
     */
    List<String> lines(String view, String label, Optional<String> laterality, String before) {
        return found.stream()
                .filter(one -> shows(one.image(), view, label, laterality))
                .filter(one -> !day(one).isEmpty() && day(one).compareTo(before) < 0)
                .sorted(Comparator.comparing(EarlierPhotographs::day).reversed())
                .map(one -> "%s: %s-%s-%s, object %s"
                        .formatted(
                                label,
                                day(one).substring(0, 4),
                                day(one).substring(4, 6),
                                day(one).substring(6, 8),
                                one.image().text(Attributes.SOP_INSTANCE_UID).orElse("")))
                .toList();
    }

    /** By the view's id where the archive gives that back, else by label and side; a picture left as the mirror shows it is no pair. */
    private static boolean shows(DataSet image, String view, String label, Optional<String> laterality) {
        String context = image.text(Attributes.ACQUISITION_CONTEXT_DESCRIPTION).orElse("");
        String comments = image.text(Attributes.IMAGE_COMMENTS).orElse("");
        if (context.contains("picture=uncorrected") || comments.startsWith("UNCORRECTED")) {
            return false;
        }
        boolean same = context.startsWith("view=")
                ? context.startsWith("view=" + view + ";")
                : comments.equals(label) || comments.startsWith(label + ";");
        Optional<String> side =
                image.text(Attributes.IMAGE_LATERALITY).map(String::strip).filter(text -> !text.isEmpty());
        return same && (side.isEmpty() || side.equals(laterality));
    }

    private static String day(PhotographSearch.Found found) {
        return found.image()
                .text(Attributes.ACQUISITION_DATE_TIME)
                .filter(text -> text.length() >= 8)
                .map(text -> text.substring(0, 8))
                .or(() -> found.image()
                        .text(Attributes.CONTENT_DATE)
                        .map(String::strip)
                        .filter(text -> text.length() == 8))
                .or(() -> found.study()
                        .text(Attributes.STUDY_DATE)
                        .map(String::strip)
                        .filter(text -> text.length() == 8))
                .orElse("");
    }
}
