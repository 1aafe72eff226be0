package vestibule.bridge.delivery;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import vestibule.dicom.data.Attribute;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Uid;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.net.AeTitle;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.AssociationRequest;
import vestibule.dicom.net.Deadlines;
import vestibule.dicom.service.QueryLevel;
import vestibule.dicom.service.QueryUser;
import vestibule.dicom.service.RetrieveOutcome;
import vestibule.dicom.service.RetrieveUser;
import vestibule.dicom.service.Status;
import vestibule.dicom.service.StorageProvider;

/**
 * Brings objects back from an archive, a series at a time, by query and C-GET (PS3.4 C.4.1, C.4.3). Series come in the order of their
 * identifiers, and so do their objects, whatever order the archive sends them in.
 */
public final class Retrieval {

    /** Longer data sets are refused while they arrive. */
    private static final long LONGEST = 2L << 30;
    /** An association has 128 presentation contexts (PS3.8 9.3.2.2), one of them for the retrieve itself. */
    private static final int MOST_CONTEXTS = 127;
    /** In these encodings objects are taken, if the archive has no other. */
    private static final List<Uid> SYNTAXES = List.of(
            Uids.JPEG_BASELINE8_BIT,
            Uids.EXPLICIT_VR_LITTLE_ENDIAN,
            Uids.IMPLICIT_VR_LITTLE_ENDIAN,
            new Uid("1.2.840.10008.1.2.4.51"),
            new Uid("1.2.840.10008.1.2.4.57"),
            new Uid("1.2.840.10008.1.2.4.70"),
            new Uid("1.2.840.10008.1.2.4.90"),
            new Uid("1.2.840.10008.1.2.4.91"),
            new Uid("1.2.840.10008.1.2.5"));

    /** Takes what came. */
    public interface Receiver {
        /** Takes an object; its file is the receiver's from then on. */
        void object(Series series, String instance, Path file) throws IOException;

        /** Hears of an object that the archive lists and did not send. */
        void missing(Series series, String instance, String reason) throws IOException;
    }

    /**
     * A series in the archive.
     *
     * @param study Study Instance UID
     * @param series Series Instance UID
     * @param instances SOP Instance UIDs, each with its SOP Class UID
     */
    public record Series(String study, String series, Map<String, String> instances) {
        public Series {
            instances = java.util.Collections.unmodifiableMap(new TreeMap<>(instances));
        }
    }

    private final Destination archive;
    private final AeTitle calling;
    private final Deadlines deadlines;

    /** From that archive, under our title. */
    public Retrieval(Destination archive, String callingAe, Deadlines deadlines) {
        this.archive = archive;
        this.calling = new AeTitle(callingAe);
        this.deadlines = deadlines;
    }

    /**
     * The series of a patient, of a day, or of a patient on a day.
     *
     * @throws SearchException if the archive does not answer, or not to the end
     * @throws IOException if no association comes about
     */
    public List<Series> find(Optional<String> patientId, Optional<LocalDate> day) throws IOException, SearchException {
        Map<String, Series> found = new TreeMap<>();
        try (Association association = Association.open(
                AssociationRequest.of(calling, List.of(QueryUser.proposal(QueryLevel.Model.STUDY_ROOT))),
                archive.entity(),
                deadlines)) {
            QueryUser query = new QueryUser(association, QueryLevel.Model.STUDY_ROOT);
            DataSet.Builder keys = DataSet.builder().putEmpty(Attributes.STUDY_INSTANCE_UID);
            keys.putOrEmpty(Attributes.PATIENT_ID, patientId);
            keys.putOrEmpty(Attributes.STUDY_DATE, day.map(DateTimeFormatter.BASIC_ISO_DATE::format));
            for (DataSet study : matches(query, QueryLevel.STUDY, keys.build())) {
                String uid = uid(study, Attributes.STUDY_INSTANCE_UID);
                DataSet seriesKeys = DataSet.builder()
                        .put(Attributes.STUDY_INSTANCE_UID, uid)
                        .putEmpty(Attributes.SERIES_INSTANCE_UID)
                        .build();
                for (DataSet series : matches(query, QueryLevel.SERIES, seriesKeys)) {
                    Series one = series(query, uid, uid(series, Attributes.SERIES_INSTANCE_UID));
                    found.put(one.study() + '/' + one.series(), one);
                }
            }
        }
        return List.copyOf(found.values());
    }

    private static Series series(QueryUser query, String study, String series) throws SearchException {
        DataSet keys = DataSet.builder()
                .put(Attributes.STUDY_INSTANCE_UID, study)
                .put(Attributes.SERIES_INSTANCE_UID, series)
                .putEmpty(Attributes.SOP_INSTANCE_UID)
                .putEmpty(Attributes.SOP_CLASS_UID)
                .build();
        Map<String, String> instances = new LinkedHashMap<>();
        for (DataSet image : matches(query, QueryLevel.IMAGE, keys)) {
            instances.put(
                    uid(image, Attributes.SOP_INSTANCE_UID),
                    image.text(Attributes.SOP_CLASS_UID).orElse(Uids.VL_PHOTOGRAPHIC_IMAGE_STORAGE.value()));
        }
        return new Series(study, series, instances);
    }

    private static List<DataSet> matches(QueryUser query, QueryLevel level, DataSet keys) throws SearchException {
        return Searches.matches(
                "archive", query.find(level, keys, PhotographSearch.MOST_MATCHES, PhotographSearch.ALLOWED));
    }

    private static String uid(DataSet match, Attribute attribute) throws SearchException {
        return match.text(attribute)
                .flatMap(Uid::parse)
                .map(Uid::value)
                .orElseThrow(() -> new SearchException("a match came back without " + attribute.keyword()));
    }

    /**
     * Fetches one series.
     *
     * @param scratch where files lie until the receiver has taken them
     * @throws IOException if no association comes about, or a file cannot be written
     */
    public void fetch(Series series, Path scratch, Receiver receiver) throws IOException {
        Map<String, Path> received = new TreeMap<>();
        StorageProvider storage = new StorageProvider(classes(series), SYNTAXES, scratch, LONGEST, object -> {
            Path kept = Files.createTempFile(scratch, "object-", ".dcm");
            Files.move(object.file(), kept, java.nio.file.StandardCopyOption.REPLACE_EXISTING);
            Path before = received.put(object.sopInstance().value(), kept);
            if (before != null) {
                Files.delete(before);
            }
            return Status.SUCCESS;
        });
        String reason = get(series, storage);
        Set<String> all = new TreeSet<>(series.instances().keySet());
        all.addAll(received.keySet());
        for (String instance : all) {
            Path file = received.get(instance);
            if (file == null) {
                receiver.missing(series, instance, reason);
            } else {
                receiver.object(series, instance, file);
            }
        }
    }

    private static Set<Uid> classes(Series series) {
        Set<Uid> classes = new TreeSet<>(java.util.Comparator.comparing(Uid::value));
        series.instances().values().forEach(text -> Uid.parse(text).ifPresent(classes::add));
        return classes.stream()
                .limit(MOST_CONTEXTS / SYNTAXES.size())
                .collect(java.util.stream.Collectors.toCollection(
                        () -> new TreeSet<>(java.util.Comparator.comparing(Uid::value))));
    }

    /** Gives the reason why something may be missing. */
    private String get(Series series, StorageProvider storage) throws IOException {
        DataSet keys = DataSet.builder()
                .put(Attributes.STUDY_INSTANCE_UID, series.study())
                .put(Attributes.SERIES_INSTANCE_UID, series.series())
                .build();
        AssociationRequest request = RetrieveUser.getRequest(calling, QueryLevel.Model.STUDY_ROOT, storage.contexts());
        try (Association association = Association.open(request, archive.entity(), deadlines)) {
            RetrieveOutcome outcome =
                    new RetrieveUser(association, QueryLevel.Model.STUDY_ROOT).get(QueryLevel.SERIES, keys, storage);
            return reason(outcome);
        }
    }

    private static String reason(RetrieveOutcome outcome) {
        if (outcome instanceof RetrieveOutcome.Refused refused) {
            return "the archive refused to send it (%s %s); ask its administrator whether C-GET is allowed to us"
                    .formatted(refused.status(), refused.comment());
        }
        if (outcome instanceof RetrieveOutcome.NotSent notSent) {
            return "it was not asked for: " + notSent.reason();
        }
        if (outcome instanceof RetrieveOutcome.Unknown unknown) {
            return "the archive stopped answering (%s); try again"
                    .formatted(unknown.cause().getMessage());
        }
        return "the archive lists it and did not send it; see whether it has it in an encoding that we take";
    }
}
