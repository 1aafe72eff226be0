package vestibule.bridge.object;

import java.time.OffsetDateTime;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import vestibule.dicom.data.Attribute;
import vestibule.dicom.data.Code;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Uid;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.io.Implementation;
import vestibule.dicom.io.TransferSyntax;

/**
 * A Key Object Selection Document (PS3.3 A.35.4; PS3.16 TID 2010) that takes objects back which were filed wrongly: an archive that follows
 * such notes hides what they name. It lies in the study of what it names and says that study's patient, right or wrong.
 *
 * @param dataSet the whole document
 * @param transferSyntax how it is to be written
 */
public record RejectionNote(DataSet dataSet, TransferSyntax transferSyntax) {

    private static final String MODALITY = "KO";

    /** PS3.16 TID 2010, row for the description; the code is from memory. */
    private static final Code DESCRIPTION = new Code("113012", "DCM", "Key Object Description");

    /** Patient and study are those of the objects, unchanged. */
    private static final List<Attribute> COPIED = List.of(
            Attributes.PATIENT_NAME,
            Attributes.PATIENT_ID,
            Attributes.ISSUER_OF_PATIENT_ID,
            Attributes.PATIENT_BIRTH_DATE,
            Attributes.PATIENT_SEX,
            Attributes.STUDY_INSTANCE_UID,
            Attributes.STUDY_DATE,
            Attributes.STUDY_TIME,
            Attributes.REFERRING_PHYSICIAN_NAME,
            Attributes.STUDY_ID,
            Attributes.ACCESSION_NUMBER,
            Attributes.STUDY_DESCRIPTION,
            Attributes.INSTITUTION_NAME,
            Attributes.STATION_NAME);

    /** Why something is taken back; the document titles are of PS3.16 CID 7010. */
    public enum Reason {
        /** Filed under another patient. */
        WRONG_PATIENT("113037", "Rejected for Patient Safety Reasons", "filed under the wrong patient"),
        /** The side, the view, the direction or the teeth are wrong. */
        WRONG_VIEW(
                "113037", "Rejected for Patient Safety Reasons", "filed with a wrong view, side, direction or tooth"),
        /** Something beside patient and view, such as the stage of treatment or the time. */
        WRONG_DETAIL(
                "113037",
                "Rejected for Patient Safety Reasons",
                "filed with a wrong detail, as its stage or time, or not to be filed at all"),
        /** The order, and so the study, is another one. */
        WRONG_ORDER("113038", "Incorrect Modality Worklist Entry", "filed in the study of another order");

        private final String value;
        private final String meaning;
        private final String words;

        Reason(String value, String meaning, String words) {
            this.value = value;
            this.meaning = meaning;
            this.words = words;
        }

        /** Its word, in lower case with hyphens. */
        public String word() {
            return name().toLowerCase(Locale.ROOT).replace('_', '-');
        }

        /** The reason of that word. */
        public static Reason of(String word) {
            return valueOf(word.toUpperCase(Locale.ROOT).replace('-', '_'));
        }

        /** Key object document title. */
        public Code title() {
            return new Code(value, "DCM", meaning);
        }

        /** In words, for the document and for people. */
        public String words() {
            return words;
        }
    }

    /**
     * What a note has to know of an object: whose it says it is, in which study and series, and which object. Kept when an object is made, so
     * that a note can be made when neither photograph nor settings are what they were.
     */
    public static DataSet heading(DataSet object) {
        DataSet.Builder heading = DataSet.builder();
        for (Attribute attribute : COPIED) {
            object.find(attribute).ifPresent(heading::put);
        }
        for (Attribute attribute : List.of(
                Attributes.SPECIFIC_CHARACTER_SET,
                Attributes.SOP_CLASS_UID,
                Attributes.SOP_INSTANCE_UID,
                Attributes.SERIES_INSTANCE_UID)) {
            object.find(attribute).ifPresent(heading::put);
        }
        return heading.build();
    }

    /** SOP Instance UID. */
    public Uid sopInstance() {
        return dataSet.text(Attributes.SOP_INSTANCE_UID).flatMap(Uid::parse).orElseThrow();
    }

    /**
     * Makes the notes that take objects back, one for each study; the same objects, reason and moment give the same notes.
     *
     * @param filed the objects as they were filed
     * @param reason why
     * @param when when it was decided
     */
    public static List<RejectionNote> of(List<DataSet> filed, Reason reason, OffsetDateTime when) {
        Map<String, List<DataSet>> byStudy = new LinkedHashMap<>();
        for (DataSet object : filed) {
            byStudy.computeIfAbsent(required(object, Attributes.STUDY_INSTANCE_UID), study -> new ArrayList<>())
                    .add(object);
        }
        return byStudy.values().stream()
                .map(objects -> note(objects, reason, when))
                .toList();
    }

    private static RejectionNote note(List<DataSet> objects, Reason reason, OffsetDateTime when) {
        String name = name(objects, reason, when);
        DataSet.Builder note = DataSet.builder();
        for (Attribute attribute : COPIED) {
            objects.get(0).find(attribute).ifPresent(note::put);
        }
        putSeries(note, Uid.ofName(Implementation.CLASS_UID, "rejection series\n" + name), reason);
        putEquipment(note);
        putDocument(note, objects, when);
        putContent(note, objects, reason);
        note.put(Attributes.SOP_CLASS_UID, Uids.KEY_OBJECT_SELECTION_DOCUMENT_STORAGE.value());
        note.put(
                Attributes.SOP_INSTANCE_UID,
                Uid.ofName(Implementation.CLASS_UID, "rejection\n" + name).value());
        PhotographicObject.putCharacterSet(note);
        return new RejectionNote(note.build(), TransferSyntax.EXPLICIT_VR_LITTLE_ENDIAN);
    }

    private static String name(List<DataSet> objects, Reason reason, OffsetDateTime when) {
        List<String> parts = new ArrayList<>(List.of(reason.name(), when.toString()));
        objects.forEach(object -> parts.add(required(object, Attributes.SOP_INSTANCE_UID)));
        return String.join("\n", parts);
    }

    /** Key Object Document Series (PS3.3 C.17.6.1). */
    private static void putSeries(DataSet.Builder note, Uid series, Reason reason) {
        note.put(Attributes.MODALITY, MODALITY);
        note.put(Attributes.SERIES_INSTANCE_UID, series.value());
        note.put(Attributes.SERIES_NUMBER, "1");
        note.put(Attributes.SERIES_DESCRIPTION, reason.title().meaning());
        note.putEmpty(Attributes.REFERENCED_PERFORMED_PROCEDURE_STEP_SEQUENCE);
    }

    private static void putEquipment(DataSet.Builder note) {
        note.put(Attributes.MANUFACTURER, "Vestibule");
        note.put(Attributes.MANUFACTURER_MODEL_NAME, "Vestibule");
        note.put(Attributes.SOFTWARE_VERSIONS, Implementation.VERSION_NAME);
    }

    /** Key Object Document (PS3.3 C.17.6.2): what is named, by study, series and instance. */
    private static void putDocument(DataSet.Builder note, List<DataSet> objects, OffsetDateTime when) {
        note.put(Attributes.INSTANCE_NUMBER, "1");
        note.put(Attributes.CONTENT_DATE, DateTimeFormatter.BASIC_ISO_DATE.format(when.toLocalDate()));
        note.put(Attributes.CONTENT_TIME, DateTimeFormatter.ofPattern("HHmmss").format(when));
        note.put(
                Attributes.TIMEZONE_OFFSET_FROM_UTC,
                DateTimeFormatter.ofPattern("xx").format(when));
        Map<String, List<DataSet>> bySeries = new LinkedHashMap<>();
        for (DataSet object : objects) {
            bySeries.computeIfAbsent(required(object, Attributes.SERIES_INSTANCE_UID), series -> new ArrayList<>())
                    .add(reference(object));
        }
        List<DataSet> series = bySeries.entrySet().stream()
                .map(entry -> DataSet.builder()
                        .put(Attributes.SERIES_INSTANCE_UID, entry.getKey())
                        .put(Attributes.REFERENCED_SOP_SEQUENCE, entry.getValue())
                        .build())
                .toList();
        note.put(
                Attributes.CURRENT_REQUESTED_PROCEDURE_EVIDENCE_SEQUENCE,
                List.of(DataSet.builder()
                        .put(Attributes.STUDY_INSTANCE_UID, required(objects.get(0), Attributes.STUDY_INSTANCE_UID))
                        .put(Attributes.REFERENCED_SERIES_SEQUENCE, series)
                        .build()));
    }

    /** SR Document Content (PS3.3 C.17.3) under TID 2010: title, reason in words, the images. */
    private static void putContent(DataSet.Builder note, List<DataSet> objects, Reason reason) {
        note.put(Attributes.VALUE_TYPE, "CONTAINER");
        note.put(
                Attributes.CONCEPT_NAME_CODE_SEQUENCE,
                List.of(ImageModules.item(reason.title()).build()));
        note.put(Attributes.CONTINUITY_OF_CONTENT, "SEPARATE");
        note.put(
                Attributes.CONTENT_TEMPLATE_SEQUENCE,
                List.of(DataSet.builder()
                        .put(Attributes.MAPPING_RESOURCE, "DCMR")
                        .put(Attributes.TEMPLATE_IDENTIFIER, "2010")
                        .build()));
        List<DataSet> content = new ArrayList<>();
        content.add(DataSet.builder()
                .put(Attributes.RELATIONSHIP_TYPE, "CONTAINS")
                .put(Attributes.VALUE_TYPE, "TEXT")
                .put(
                        Attributes.CONCEPT_NAME_CODE_SEQUENCE,
                        List.of(ImageModules.item(DESCRIPTION).build()))
                .put(
                        Attributes.TEXT_VALUE,
                        "Taken back because it was %s. The corrected photograph is an object of its own."
                                .formatted(reason.words()))
                .build());
        for (DataSet object : objects) {
            content.add(DataSet.builder()
                    .put(Attributes.RELATIONSHIP_TYPE, "CONTAINS")
                    .put(Attributes.VALUE_TYPE, "IMAGE")
                    .put(Attributes.REFERENCED_SOP_SEQUENCE, List.of(reference(object)))
                    .build());
        }
        note.put(Attributes.CONTENT_SEQUENCE, content);
    }

    private static DataSet reference(DataSet object) {
        return DataSet.builder()
                .put(Attributes.REFERENCED_SOP_CLASS_UID, required(object, Attributes.SOP_CLASS_UID))
                .put(Attributes.REFERENCED_SOP_INSTANCE_UID, required(object, Attributes.SOP_INSTANCE_UID))
                .build();
    }

    private static String required(DataSet object, Attribute attribute) {
        return object.text(attribute)
                .orElseThrow(() -> new IllegalArgumentException("an object without " + attribute.keyword()));
    }
}
