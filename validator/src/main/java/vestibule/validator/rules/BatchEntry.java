package vestibule.validator.rules;

import java.io.IOException;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import vestibule.dicom.data.Attribute;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.dict.Dictionary;
import vestibule.validator.Subject;

/**
 * What is taken of an object to compare it with others: identifiers and numbers that stand for contents, no names.
 *
 * @param name what reports call the object
 * @param instance SOP Instance UID
 * @param study Study Instance UID, may be empty
 * @param series Series Instance UID, may be empty
 * @param patient identifier and issuer
 * @param identified whether there is a patient identifier
 * @param person number that stands for name, birth date and sex; 0 where one of them is missing
 * @param content numbers that stand for the content
 * @param ofPatient numbers that stand for the values that objects of a patient share
 * @param ofStudy numbers that stand for the values that objects of a study share
 * @param modality number that stands for it
 * @param seriesNumber Series Number, may be empty
 * @param instanceNumber Instance Number, may be empty
 * @param day when it was taken, if it is a photograph
 * @param view the view that it says it shows, may be empty
 * @param shown how it lies, and which side it shows
 * @param sources its source images
 */
public record BatchEntry(
        String name,
        String instance,
        String study,
        String series,
        String patient,
        boolean identified,
        long person,
        ContentHash content,
        List<Integer> ofPatient,
        List<Integer> ofStudy,
        int modality,
        String seriesNumber,
        String instanceNumber,
        Optional<LocalDate> day,
        String view,
        Shown shown,
        List<Source> sources) {

    /**
     * What is compared with pictures made from it.
     *
     * @param orientation Patient Orientation, empty where it says no direction
     * @param side Image Laterality, may be empty
     */
    record Shown(List<String> orientation, String side) {

        static Shown of(DataSet dataSet) {
            return new Shown(lying(dataSet), text(dataSet, Attributes.IMAGE_LATERALITY));
        }
    }

    /**
     * A source image, as the object made from it says.
     *
     * @param instance its SOP Instance UID
     * @param orientation its Patient Orientation, empty where none is said
     */
    record Source(String instance, List<String> orientation) {}

    static final List<Attribute> OF_PATIENT =
            List.of(Attributes.PATIENT_NAME, Attributes.PATIENT_BIRTH_DATE, Attributes.PATIENT_SEX);
    static final List<Attribute> OF_STUDY =
            List.of(Attributes.STUDY_DATE, Attributes.STUDY_TIME, Attributes.STUDY_ID, Attributes.ACCESSION_NUMBER);
    /** More are not followed: no picture is made of so many. */
    private static final int MOST_SOURCES = 16;

    private static final Attribute ISSUER = attribute("IssuerOfPatientID");
    private static final Attribute REFERENCED = attribute("ReferencedSOPInstanceUID");

    private static Attribute attribute(String keyword) {
        return Dictionary.standard().find(keyword).orElseThrow().attribute();
    }

    /**
     * Takes it.
     *
     * @throws IOException if the pixels cannot be read any more
     */
    public static BatchEntry of(String name, Subject subject) throws IOException {
        DataSet dataSet = subject.dataSet();
        String id = text(dataSet, Attributes.PATIENT_ID);
        return new BatchEntry(
                name,
                text(dataSet, Attributes.SOP_INSTANCE_UID),
                text(dataSet, Attributes.STUDY_INSTANCE_UID),
                text(dataSet, Attributes.SERIES_INSTANCE_UID),
                id + '\\' + text(dataSet, ISSUER),
                !id.isEmpty(),
                person(dataSet),
                ContentHash.of(dataSet),
                hashes(dataSet, OF_PATIENT),
                hashes(dataSet, OF_STUDY),
                text(dataSet, Attributes.MODALITY).hashCode(),
                text(dataSet, Attributes.SERIES_NUMBER),
                text(dataSet, Attributes.INSTANCE_NUMBER),
                subject.isPhotograph() ? day(dataSet) : Optional.empty(),
                // those of others state none
                Taking.of(dataSet).view().orElse(""),
                Shown.of(dataSet),
                dataSet.items(Attributes.SOURCE_IMAGE_SEQUENCE).stream()
                        .limit(MOST_SOURCES)
                        .flatMap(item -> item.text(REFERENCED).map(uid -> new Source(uid, lying(item))).stream())
                        .toList());
    }

    /** Of a million objects nearly all lie in one of a few ways, which are kept once. */
    private static List<String> lying(DataSet dataSet) {
        List<String> directions = dataSet.texts(Attributes.PATIENT_ORIENTATION);
        return Facing.isUsable(directions)
                ? directions.stream().map(value -> value.strip().intern()).toList()
                : List.of();
    }

    private static Optional<LocalDate> day(DataSet dataSet) {
        return Days.of(dataSet, Attributes.ACQUISITION_DATE_TIME).or(() -> Days.of(dataSet, Attributes.CONTENT_DATE));
    }

    private static String text(DataSet dataSet, Attribute attribute) {
        return dataSet.text(attribute).orElse("");
    }

    /** Values that are not there stand as 0 and contradict nothing. */
    private static List<Integer> hashes(DataSet dataSet, List<Attribute> attributes) {
        return attributes.stream()
                .map(attribute -> dataSet.text(attribute).map(String::hashCode).orElse(0))
                .toList();
    }

    private static long person(DataSet dataSet) {
        StringBuilder person = new StringBuilder();
        for (Attribute attribute : OF_PATIENT) {
            Optional<String> value = dataSet.text(attribute).filter(text -> !text.isBlank());
            if (value.isEmpty()) {
                return 0;
            }
            person.append(value.get()).append('\\');
        }
        return ContentHash.of(person.toString());
    }
}
