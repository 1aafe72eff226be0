package vestibule.dicom.service;

import java.util.List;
import vestibule.dicom.data.Attribute;
import vestibule.dicom.data.Uid;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.dict.Uids;

/** The levels of a query, from the highest, each with its unique key (PS3.4 C.6). */
public enum QueryLevel {
    PATIENT(Attributes.PATIENT_ID),
    STUDY(Attributes.STUDY_INSTANCE_UID),
    SERIES(Attributes.SERIES_INSTANCE_UID),
    IMAGE(Attributes.SOP_INSTANCE_UID);

    /** The information models of query and retrieve, each with its SOP classes and levels (PS3.4 C.6.1, C.6.2). */
    @SuppressWarnings("ImmutableEnumChecker") // identifiers are records of a string
    public enum Model {
        PATIENT_ROOT(
                Uids.PATIENT_ROOT_QUERY_RETRIEVE_INFORMATION_MODEL_FIND,
                Uids.PATIENT_ROOT_QUERY_RETRIEVE_INFORMATION_MODEL_GET,
                Uids.PATIENT_ROOT_QUERY_RETRIEVE_INFORMATION_MODEL_MOVE),
        STUDY_ROOT(
                Uids.STUDY_ROOT_QUERY_RETRIEVE_INFORMATION_MODEL_FIND,
                Uids.STUDY_ROOT_QUERY_RETRIEVE_INFORMATION_MODEL_GET,
                Uids.STUDY_ROOT_QUERY_RETRIEVE_INFORMATION_MODEL_MOVE);

        private final Uid find;
        private final Uid get;
        private final Uid move;

        Model(Uid find, Uid get, Uid move) {
            this.find = find;
            this.get = get;
            this.move = move;
        }

        /** The SOP class of C-FIND. */
        public Uid find() {
            return find;
        }

        /** The SOP class of C-GET. */
        public Uid get() {
            return get;
        }

        /** The SOP class of C-MOVE. */
        public Uid move() {
            return move;
        }

        /** Its levels, from the highest. */
        public List<QueryLevel> levels() {
            return this == PATIENT_ROOT ? List.of(PATIENT, STUDY, SERIES, IMAGE) : List.of(STUDY, SERIES, IMAGE);
        }
    }

    @SuppressWarnings("ImmutableEnumChecker") // a record of immutable parts
    private final Attribute uniqueKey;

    QueryLevel(Attribute uniqueKey) {
        this.uniqueKey = uniqueKey;
    }

    /** The attribute that names one entity of this level. */
    public Attribute uniqueKey() {
        return uniqueKey;
    }
}
