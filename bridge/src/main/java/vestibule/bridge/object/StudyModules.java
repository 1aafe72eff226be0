package vestibule.bridge.object;

import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Optional;
import vestibule.bridge.photo.CameraNotes;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.PersonName;
import vestibule.dicom.data.Uid;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.io.Implementation;

/** General Study and General Series (PS3.3 C.7.2.1, C.7.3.1): which visit, which sitting. */
final class StudyModules {

    private static final String MODALITY = "XC";
    private static final String SERIES_DESCRIPTION = "Clinical photographs";

    private StudyModules() {}

    static void put(DataSet.Builder object, PhotographicObject.Material material, Moments moments) {
        Visit visit = material.visit();
        Optional<LocalDate> day = visit.studyDate().or(moments::day);
        Uid study = visit.study().orElseGet(() -> studyOf(material, day));
        Optional<Order> order = visit.order();
        object.put(Attributes.STUDY_INSTANCE_UID, study.value());
        object.putOrEmpty(Attributes.STUDY_DATE, day.map(Moments::date));
        object.putOrEmpty(Attributes.STUDY_TIME, visit.studyTime().map(DateTimeFormatter.ofPattern("HHmmss")::format));
        object.putOrEmpty(Attributes.REFERRING_PHYSICIAN_NAME, visit.referring().map(PersonName::toString));
        object.putOrEmpty(Attributes.STUDY_ID, visit.studyId());
        object.putOrEmpty(Attributes.ACCESSION_NUMBER, visit.accession());
        object.putIfKnown(Attributes.STUDY_DESCRIPTION, visit.studyDescription());
        order.flatMap(Order::procedureCode)
                .ifPresent(code -> object.put(
                        Attributes.PROCEDURE_CODE_SEQUENCE,
                        List.of(ImageModules.item(code).build())));
        object.putIfKnown(Attributes.ADMISSION_ID, order.flatMap(Order::admission));

        object.put(Attributes.MODALITY, MODALITY);
        object.put(
                Attributes.SERIES_INSTANCE_UID,
                visit.series().orElseGet(() -> seriesOf(material, study)).value());
        object.putOrEmpty(Attributes.SERIES_NUMBER, visit.seriesNumber().map(String::valueOf));
        object.put(Attributes.SERIES_DESCRIPTION, visit.seriesDescription().orElse(SERIES_DESCRIPTION));
        object.putIfKnown(Attributes.OPERATORS_NAME, visit.operator().map(PersonName::toString));
        object.putIfKnown(Attributes.PROTOCOL_NAME, visit.protocol());
        order.flatMap(one -> one.requestAttributes(Optional.of(study)))
                .ifPresent(item -> object.put(Attributes.REQUEST_ATTRIBUTES_SEQUENCE, List.of(item)));
    }

    /** One study for each patient and day; a photograph without a day is a study of its own, for nothing says it belongs to another. */
    private static Uid studyOf(PhotographicObject.Material material, Optional<LocalDate> day) {
        return StudyChoice.fresh(
                material.patient(),
                material.practice().issuer(),
                day.map(Moments::date).orElse(material.photo().sha256()));
    }

    /** One series for each study, sitting, camera and operator, since all images of a series share them (PS3.3 A.1.2). */
    private static Uid seriesOf(PhotographicObject.Material material, Uid study) {
        Visit visit = material.visit();
        CameraNotes camera = material.photo().camera();
        return Uid.ofName(
                Implementation.CLASS_UID,
                String.join(
                        "\n",
                        "series",
                        study.value(),
                        visit.seriesNumber().map(String::valueOf).orElse(""),
                        visit.seriesDescription().orElse(SERIES_DESCRIPTION),
                        visit.operator().map(PersonName::toString).orElse(""),
                        camera.maker().orElse(""),
                        camera.model().orElse(""),
                        camera.software().orElse(""),
                        visit.protocol().orElse(""),
                        visit.sitting().orElse("")));
    }
}
