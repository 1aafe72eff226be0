package vestibule.bridge.delivery;

import java.io.IOException;
import java.time.Duration;
import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.util.List;
import vestibule.dicom.data.Attribute;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.net.AeTitle;
import vestibule.dicom.net.ApplicationEntity;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.AssociationRequest;
import vestibule.dicom.net.Deadlines;
import vestibule.dicom.service.QueryLevel;
import vestibule.dicom.service.QueryUser;

/**
 * Asks an archive which patients it knows (PS3.4 C.6.1, Patient Root; C.6.2, Study Root, where it has only that: there each patient comes
 * once for each study).
 */
public final class PatientSearch {

    private static final int MOST_MATCHES = 500;
    private static final Duration ALLOWED = Duration.ofSeconds(30);

    private static final List<Attribute> KEYS = List.of(
            Attributes.PATIENT_NAME,
            Attributes.PATIENT_ID,
            Attributes.ISSUER_OF_PATIENT_ID,
            Attributes.PATIENT_BIRTH_DATE,
            Attributes.PATIENT_SEX,
            Attributes.OTHER_PATIENT_I_DS_SEQUENCE);

    private final ApplicationEntity archive;
    private final AeTitle calling;
    private final Deadlines deadlines;

    /** In that archive, under our title. */
    public PatientSearch(Destination archive, String callingAe, Deadlines deadlines) {
        this.archive = archive.entity();
        this.calling = new AeTitle(callingAe);
        this.deadlines = deadlines;
    }

    /**
     * The patients with an id.
     *
     * @throws SearchException if the archive does not answer, or not to the end
     * @throws IOException if no association comes about
     */
    public List<DataSet> withId(String id) throws IOException, SearchException {
        return search(keys().put(Attributes.PATIENT_ID, id).build());
    }

    /**
     * The patients of a name, born on a day; archives need not match by the day (PS3.4 Table C.6-1), so there may be others.
     *
     * @param name the name, wild cards allowed
     *
     * @throws SearchException if the archive does not answer, or not to the end
     * @throws IOException if no association comes about
     */
    public List<DataSet> named(String name, LocalDate born) throws IOException, SearchException {
        return search(keys().put(Attributes.PATIENT_NAME, name)
                .put(Attributes.PATIENT_BIRTH_DATE, DateTimeFormatter.BASIC_ISO_DATE.format(born))
                .build());
    }

    private List<DataSet> search(DataSet keys) throws IOException, SearchException {
        try (Association association = Association.open(
                AssociationRequest.of(
                        calling,
                        List.of(
                                QueryUser.proposal(QueryLevel.Model.PATIENT_ROOT),
                                QueryUser.proposal(QueryLevel.Model.STUDY_ROOT))),
                archive,
                deadlines)) {
            boolean patients =
                    association.accepted(QueryLevel.Model.PATIENT_ROOT.find()).isPresent();
            QueryLevel.Model model = patients ? QueryLevel.Model.PATIENT_ROOT : QueryLevel.Model.STUDY_ROOT;
            return Searches.matches(
                    "archive",
                    new QueryUser(association, model)
                            .find(patients ? QueryLevel.PATIENT : QueryLevel.STUDY, keys, MOST_MATCHES, ALLOWED));
        }
    }

    private static DataSet.Builder keys() {
        DataSet.Builder keys = DataSet.builder();
        KEYS.forEach(keys::putEmpty);
        return keys.put(Attributes.SPECIFIC_CHARACTER_SET, Searches.ALL_SCRIPTS);
    }
}
