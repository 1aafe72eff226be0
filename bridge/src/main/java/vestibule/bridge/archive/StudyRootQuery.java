package vestibule.bridge.archive;

import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeSet;
import vestibule.dicom.data.Attribute;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Element;
import vestibule.dicom.data.Tag;
import vestibule.dicom.data.Uid;
import vestibule.dicom.data.Value;
import vestibule.dicom.dict.Attributes;

/** Study Root queries without relational ones (PS3.4 C.4.1, C.6.2): STUDY, SERIES and IMAGE level. */
final class StudyRootQuery {

    /** What rules the query rather than the match. */
    private static final List<Attribute> CONTROL = List.of(
            Attributes.QUERY_RETRIEVE_LEVEL, Attributes.SPECIFIC_CHARACTER_SET, Attributes.TIMEZONE_OFFSET_FROM_UTC);

    /**
     * A level of the model.
     *
     * @param name its value of Query/Retrieve Level
     * @param unique the key that tells its entities apart
     * @param above the unique keys of the levels above it
     */
    private record Level(String name, Attribute unique, List<Attribute> above) {}

    private static final List<Level> LEVELS = List.of(
            new Level("STUDY", Attributes.STUDY_INSTANCE_UID, List.of()),
            new Level("SERIES", Attributes.SERIES_INSTANCE_UID, List.of(Attributes.STUDY_INSTANCE_UID)),
            new Level(
                    "IMAGE",
                    Attributes.SOP_INSTANCE_UID,
                    List.of(Attributes.STUDY_INSTANCE_UID, Attributes.SERIES_INSTANCE_UID)));

    private StudyRootQuery() {}

    /**
     * The answers to an identifier.
     *
     * @param identifier level, keys to match and keys to return
     * @param objects everything the archive holds
     * @throws QueryException if the level is none, or a unique key above it is missing
     */
    static List<DataSet> answers(DataSet identifier, Collection<DataSet> objects) throws QueryException {
        Level level = level(identifier);
        checkAbove(identifier, level);
        Map<String, List<DataSet>> groups = new LinkedHashMap<>();
        objects.stream()
                .filter(object -> object.text(level.unique).isPresent())
                .forEach(object -> groups.computeIfAbsent(
                                object.text(level.unique).orElseThrow(), key -> new java.util.ArrayList<>())
                        .add(object));
        return groups.values().stream()
                .filter(group -> matches(identifier, group))
                .map(group -> answer(identifier, level, group))
                .toList();
    }

    /**
     * The objects that the unique keys of a retrieve name (PS3.4 C.4.2.2.1); the key of its level may list several.
     *
     * @throws QueryException if the level is none, a unique key is missing, or there are other keys
     */
    static List<Uid> wanted(DataSet identifier, Collection<DataSet> objects) throws QueryException {
        Level level = level(identifier);
        checkAbove(identifier, level);
        List<String> named = identifier.texts(level.unique);
        if (named.isEmpty() || !named.stream().allMatch(Uid::isWellFormed)) {
            throw new QueryException("level %s needs unique identifiers in %s".formatted(level.name, level.unique));
        }
        for (Element key : identifier) {
            boolean unique = key.tag().equals(level.unique.tag())
                    || level.above.stream().anyMatch(above -> above.tag().equals(key.tag()));
            if (!unique && !isControl(key.tag())) {
                throw new QueryException("a retrieve takes unique keys, and %s is none".formatted(key.tag()));
            }
        }
        return objects.stream()
                .filter(object -> matches(identifier, List.of(object)))
                .flatMap(object -> object.text(Attributes.SOP_INSTANCE_UID).flatMap(Uid::parse).stream())
                .toList();
    }

    private static void checkAbove(DataSet identifier, Level level) throws QueryException {
        for (Attribute key : level.above) {
            if (identifier.texts(key).size() != 1 || identifier.text(key).isEmpty()) {
                throw new QueryException("level %s needs one value of %s".formatted(level.name, key));
            }
        }
    }

    private static Level level(DataSet identifier) throws QueryException {
        Optional<String> named = identifier.text(Attributes.QUERY_RETRIEVE_LEVEL);
        for (Level level : LEVELS) {
            if (named.equals(Optional.of(level.name))) {
                return level;
            }
        }
        throw new QueryException("%s is none of STUDY, SERIES, IMAGE".formatted(Attributes.QUERY_RETRIEVE_LEVEL));
    }

    private static boolean matches(DataSet identifier, List<DataSet> group) {
        return identifier.stream()
                .filter(key -> !isControl(key.tag()))
                .allMatch(key -> key.tag().equals(Attributes.MODALITIES_IN_STUDY.tag())
                        ? Matching.matches(
                                key, DataSet.builder().put(modalities(group)).build())
                        : Matching.matches(key, group.get(0)));
    }

    private static boolean isControl(Tag tag) {
        return CONTROL.stream().anyMatch(attribute -> attribute.tag().equals(tag));
    }

    private static Element modalities(List<DataSet> group) {
        List<String> all = List.copyOf(new TreeSet<>(group.stream()
                .flatMap(object -> object.text(Attributes.MODALITY).stream())
                .toList()));
        return new Element(
                Attributes.MODALITIES_IN_STUDY.tag(), Attributes.MODALITIES_IN_STUDY.vr(), new Value.Texts(all));
    }

    private static DataSet answer(DataSet identifier, Level level, List<DataSet> group) {
        DataSet first = group.get(0);
        DataSet.Builder answer = DataSet.builder();
        for (Element key : identifier) {
            if (!isControl(key.tag())) {
                answer.put(first.find(key.tag()).orElseGet(() -> empty(key)));
            }
        }
        counted(identifier, answer, Attributes.NUMBER_OF_STUDY_RELATED_INSTANCES, group.size());
        counted(identifier, answer, Attributes.NUMBER_OF_SERIES_RELATED_INSTANCES, group.size());
        long series = group.stream()
                .map(object -> object.text(Attributes.SERIES_INSTANCE_UID))
                .distinct()
                .count();
        counted(identifier, answer, Attributes.NUMBER_OF_STUDY_RELATED_SERIES, series);
        if (identifier.contains(Attributes.MODALITIES_IN_STUDY)) {
            answer.put(modalities(group));
        }
        first.find(Attributes.SPECIFIC_CHARACTER_SET).ifPresent(answer::put);
        answer.put(first.find(level.unique).orElseThrow());
        answer.put(Attributes.QUERY_RETRIEVE_LEVEL, level.name);
        return answer.build();
    }

    private static Element empty(Element key) {
        return new Element(
                key.tag(),
                key.vr(),
                key.value() instanceof Value.Items ? new Value.Items(List.of()) : new Value.Texts(List.of()));
    }

    private static void counted(DataSet identifier, DataSet.Builder answer, Attribute attribute, long count) {
        if (identifier.contains(attribute)) {
            answer.put(attribute, Long.toString(count));
        }
    }
}
