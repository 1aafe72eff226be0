package vestibule.bridge.delivery;

import java.io.BufferedInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import vestibule.dicom.data.Attribute;
import vestibule.dicom.data.Bulk;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Element;
import vestibule.dicom.data.Value;
import vestibule.dicom.dict.Attributes;

/**
 * An object that an archive sent back, beside the one that it was sent, value by value. Here the whole object is back, so that what was
 * emptied or taken out is as different as what was changed. Data of the patient that we sent empty may have been filled in. What a patient may be harmed by is
 * looked at, and what the picture cannot be seen without; anything else an archive may put into its own form.
 */
final class Comparison {

    /** What a difference is about, the gravest first. */
    enum Kind {
        PATIENT("it is kept under another patient's data"),
        PLACE("it is kept in another study or series"),
        SIDE("it is kept with another side, direction or part of the body"),
        HISTORY("it is kept with another view, or another account of how its picture was made"),
        REFERENCES("it names other objects, or takes them back for another reason"),
        PICTURE("its picture is kept with other sizes, samples or colours");

        private final String words;

        Kind(String words) {
            this.words = words;
        }

        private List<Attribute> attributes() {
            return switch (this) {
                case PATIENT -> Identity.KEYS;
                case PLACE -> List.of(Attributes.STUDY_INSTANCE_UID, Attributes.SERIES_INSTANCE_UID);
                case SIDE ->
                    List.of(
                            Attributes.PATIENT_ORIENTATION,
                            Attributes.IMAGE_LATERALITY,
                            Attributes.LATERALITY,
                            Attributes.ANATOMIC_REGION_SEQUENCE,
                            Attributes.PRIMARY_ANATOMIC_STRUCTURE_SEQUENCE);
                case HISTORY ->
                    List.of(
                            Attributes.IMAGE_TYPE,
                            Attributes.IMAGE_COMMENTS,
                            Attributes.ACQUISITION_CONTEXT_DESCRIPTION,
                            Attributes.DERIVATION_DESCRIPTION,
                            Attributes.SOURCE_IMAGE_SEQUENCE);
                case REFERENCES ->
                    List.of(
                            Attributes.CONCEPT_NAME_CODE_SEQUENCE,
                            Attributes.CURRENT_REQUESTED_PROCEDURE_EVIDENCE_SEQUENCE,
                            Attributes.CONTENT_SEQUENCE);
                case PICTURE ->
                    List.of(
                            Attributes.SAMPLES_PER_PIXEL,
                            Attributes.PHOTOMETRIC_INTERPRETATION,
                            Attributes.PLANAR_CONFIGURATION,
                            Attributes.ROWS,
                            Attributes.COLUMNS,
                            Attributes.PIXEL_ASPECT_RATIO,
                            Attributes.BITS_ALLOCATED,
                            Attributes.BITS_STORED,
                            Attributes.HIGH_BIT,
                            Attributes.PIXEL_REPRESENTATION,
                            Attributes.ICC_PROFILE,
                            Attributes.COLOR_SPACE);
            };
        }

        /** A patient's data are completed by many archives; a side that nobody said is a claim, and so is all the rest. */
        boolean mayBeAdded() {
            return this == PATIENT;
        }
    }

    private Comparison() {}

    /** The attributes that differ, by what they are about; nothing if none does. */
    static Map<Kind, List<Attribute>> changed(DataSet ours, DataSet theirs) throws IOException {
        Map<Kind, List<Attribute>> changed = new EnumMap<>(Kind.class);
        for (Kind kind : Kind.values()) {
            for (Attribute attribute : kind.attributes()) {
                if (!agrees(kind, attribute, ours, theirs)) {
                    changed.computeIfAbsent(kind, none -> new ArrayList<>()).add(attribute);
                }
            }
        }
        return changed;
    }

    /** In words, without a full stop; the names of attributes only, for no value belongs into a message. */
    static String words(Map<Kind, List<Attribute>> changed) {
        return changed.entrySet().stream()
                .map(entry -> "%s (%s)"
                        .formatted(
                                entry.getKey().words,
                                entry.getValue().stream()
                                        .map(Attribute::toString)
                                        .collect(Collectors.joining(", "))))
                .collect(Collectors.joining("; "));
    }

    private static boolean agrees(Kind kind, Attribute attribute, DataSet ours, DataSet theirs) throws IOException {
        Optional<Element> here = ours.find(attribute);
        Optional<Element> there = theirs.find(attribute).filter(element -> !isBlank(element));
        if (here.isEmpty() || isBlank(here.get())) {
            return there.isEmpty() || kind.mayBeAdded();
        }
        if (attribute.equals(Attributes.PATIENT_NAME)) {
            return sameName(ours.texts(attribute), theirs.texts(attribute));
        }
        return there.isPresent() && same(here.get().value(), there.get().value());
    }

    private static boolean isBlank(Element element) {
        return element.value() instanceof Value.Texts texts
                ? texts.all().stream().allMatch(String::isBlank)
                : element.isEmpty();
    }

    /** Group by group, for each says by itself who it is (PS3.5 6.2.1); one that we left out may have been filled in. */
    private static boolean sameName(List<String> ours, List<String> theirs) {
        List<String> here = groups(ours);
        List<String> there = groups(theirs);
        return IntStream.range(0, here.size())
                .allMatch(group -> here.get(group).isEmpty()
                        || (group < there.size() && here.get(group).equals(there.get(group))));
    }

    /** Without what has no meaning: case, spaces at the ends, components that are empty at the end (PS3.5 6.2). */
    private static List<String> groups(List<String> name) {
        return Arrays.stream(String.join("", name).split("=", -1))
                .map(group -> group.replaceAll("[\\^ ]+$", "").strip().toUpperCase(Locale.ROOT))
                .toList();
    }

    private static boolean same(Value ours, Value theirs) throws IOException {
        if (ours instanceof Value.Items here && theirs instanceof Value.Items there) {
            return sameItems(here.all(), there.all());
        }
        if (ours instanceof Value.Binary here && theirs instanceof Value.Binary there) {
            return sameBytes(List.of(here.bulk()), List.of(there.bulk()));
        }
        if (ours instanceof Value.Texts here && theirs instanceof Value.Texts there) {
            return stripped(here).equals(stripped(there));
        }
        return ours.equals(theirs);
    }

    private static List<String> stripped(Value.Texts texts) {
        return texts.all().stream().map(String::strip).toList();
    }

    private static boolean sameItems(List<DataSet> ours, List<DataSet> theirs) throws IOException {
        if (ours.size() != theirs.size()) {
            return false;
        }
        for (int item = 0; item < ours.size(); item++) {
            if (!sameItem(ours.get(item), theirs.get(item))) {
                return false;
            }
        }
        return true;
    }

    /** What is added inside an item may turn its meaning, as a side added to a region does. */
    private static boolean sameItem(DataSet ours, DataSet theirs) throws IOException {
        for (Element here : ours) {
            Optional<Element> there = theirs.find(here.tag());
            if (counts(here)
                    && (there.isEmpty() || !same(here.value(), there.get().value()))) {
                return false;
            }
        }
        return theirs.stream()
                .filter(Comparison::counts)
                .allMatch(there -> ours.find(there.tag()).isPresent());
    }

    private static boolean counts(Element element) {
        return !isBlank(element) && !element.tag().isPrivate() && !element.tag().isGroupLength();
    }

    /** Byte for byte; a value of odd length gets a zero byte behind it (PS3.5 7.1.1, A.4). */
    static boolean sameBytes(List<Bulk> ours, List<Bulk> theirs) throws IOException {
        try (InputStream here = new BufferedInputStream(Bulk.concat(ours).open());
                InputStream there = new BufferedInputStream(Bulk.concat(theirs).open())) {
            int next = here.read();
            while (next >= 0 && next == there.read()) {
                next = here.read();
            }
            return next < 0 && isPadding(there);
        }
    }

    private static boolean isPadding(InputStream rest) throws IOException {
        int next = rest.read();
        return next < 0 || (next == 0 && rest.read() < 0);
    }
}
