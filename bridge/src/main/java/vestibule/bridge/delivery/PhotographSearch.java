package vestibule.bridge.delivery;

import java.io.IOException;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import vestibule.dicom.data.Attribute;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.net.AeTitle;
import vestibule.dicom.net.ApplicationEntity;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.AssociationRequest;
import vestibule.dicom.net.Deadlines;
import vestibule.dicom.service.QueryLevel;
import vestibule.dicom.service.QueryOutcome;
import vestibule.dicom.service.QueryUser;

/** Asks an archive for patients and for their photographs (PS3.4 C.4.1, Study Root). */
public final class PhotographSearch {

    static final int MOST_MATCHES = 5_000;
    static final Duration ALLOWED = Duration.ofSeconds(60);

    private static final List<Attribute> STUDY_KEYS = List.of(
            Attributes.PATIENT_NAME,
            Attributes.PATIENT_ID,
            Attributes.ISSUER_OF_PATIENT_ID,
            Attributes.PATIENT_BIRTH_DATE,
            Attributes.PATIENT_SEX,
            Attributes.STUDY_INSTANCE_UID,
            Attributes.STUDY_DATE,
            Attributes.STUDY_TIME,
            Attributes.STUDY_ID,
            Attributes.ACCESSION_NUMBER,
            Attributes.STUDY_DESCRIPTION,
            Attributes.REFERRING_PHYSICIAN_NAME,
            Attributes.MODALITIES_IN_STUDY);

    private static final List<Attribute> IMAGE_KEYS = List.of(
            Attributes.SOP_INSTANCE_UID,
            Attributes.SOP_CLASS_UID,
            Attributes.INSTANCE_NUMBER,
            Attributes.ACQUISITION_DATE_TIME,
            Attributes.CONTENT_DATE,
            Attributes.CONTENT_TIME,
            Attributes.IMAGE_COMMENTS,
            Attributes.ACQUISITION_CONTEXT_DESCRIPTION,
            Attributes.IMAGE_LATERALITY,
            Attributes.PATIENT_ORIENTATION,
            Attributes.ANATOMIC_REGION_SEQUENCE,
            Attributes.PRIMARY_ANATOMIC_STRUCTURE_SEQUENCE);

    private final ApplicationEntity archive;
    private final AeTitle calling;
    private final Deadlines deadlines;

    /** In that archive, under our title. */
    public PhotographSearch(Destination archive, String callingAe, Deadlines deadlines) {
        this.archive = archive.entity();
        this.calling = new AeTitle(callingAe);
        this.deadlines = deadlines;
    }

    /**
     * A photograph in the archive.
     *
     * @param study the match at STUDY level
     * @param image the match at IMAGE level
     */
    public record Found(DataSet study, DataSet image) {}

    /**
     * The studies of a patient, or of all.
     *
     * @param patientId Patient ID to match; empty for all
     * @param patientName Patient's Name to match, wild cards allowed; empty for all
     * @throws SearchException if the archive does not answer, or not to the end
     * @throws IOException if no association comes about
     */
    public List<DataSet> studies(Optional<String> patientId, Optional<String> patientName)
            throws IOException, SearchException {
        try (Association association = open()) {
            return studies(new QueryUser(association, QueryLevel.Model.STUDY_ROOT), patientId, patientName);
        }
    }

    /** The photographs of a patient, or of all: the images of every series of modality XC. */
    public List<Found> photographs(Optional<String> patientId, Optional<String> patientName)
            throws IOException, SearchException {
        List<Found> found = new ArrayList<>();
        try (Association association = open()) {
            QueryUser query = new QueryUser(association, QueryLevel.Model.STUDY_ROOT);
            for (DataSet study : studies(query, patientId, patientName)) {
                String studyUid = study.text(Attributes.STUDY_INSTANCE_UID)
                        .orElseThrow(() -> new SearchException("a study came back without its UID"));
                DataSet seriesKeys = DataSet.builder()
                        .put(Attributes.STUDY_INSTANCE_UID, studyUid)
                        .putEmpty(Attributes.SERIES_INSTANCE_UID)
                        .put(Attributes.MODALITY, "XC")
                        .build();
                for (DataSet series : matches(query.find(QueryLevel.SERIES, seriesKeys, MOST_MATCHES, ALLOWED))) {
                    images(query, studyUid, series).forEach(image -> found.add(new Found(study, image)));
                }
            }
        }
        return found;
    }

    private Association open() throws IOException {
        return Association.open(
                AssociationRequest.of(calling, List.of(QueryUser.proposal(QueryLevel.Model.STUDY_ROOT))),
                archive,
                deadlines);
    }

    private static List<DataSet> studies(QueryUser query, Optional<String> patientId, Optional<String> patientName)
            throws SearchException {
        DataSet.Builder keys = empty(STUDY_KEYS);
        keys.putOrEmpty(Attributes.PATIENT_ID, patientId);
        keys.putOrEmpty(Attributes.PATIENT_NAME, patientName);
        return matches(query.find(QueryLevel.STUDY, keys.build(), MOST_MATCHES, ALLOWED));
    }

    private static List<DataSet> images(QueryUser query, String study, DataSet series) throws SearchException {
        String seriesUid = series.text(Attributes.SERIES_INSTANCE_UID)
                .orElseThrow(() -> new SearchException("a series came back without its UID"));
        DataSet keys = empty(IMAGE_KEYS)
                .put(Attributes.STUDY_INSTANCE_UID, study)
                .put(Attributes.SERIES_INSTANCE_UID, seriesUid)
                .build();
        return matches(query.find(QueryLevel.IMAGE, keys, MOST_MATCHES, ALLOWED));
    }

    private static DataSet.Builder empty(List<Attribute> keys) {
        DataSet.Builder builder = DataSet.builder();
        keys.forEach(builder::putEmpty);
        return builder;
    }

    static List<DataSet> matches(QueryOutcome outcome) throws SearchException {
        return Searches.matches("archive", outcome);
    }
}
