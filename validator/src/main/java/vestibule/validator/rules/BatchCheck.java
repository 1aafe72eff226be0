package vestibule.validator.rules;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import vestibule.dicom.data.Attribute;
import vestibule.dicom.dict.Attributes;
import vestibule.validator.Findings;
import vestibule.validator.Location;
import vestibule.validator.Rule;
import vestibule.validator.ViewSet;

/**
 * Compares each object of a batch with those before it; one of these belongs to one batch. What contradicts an earlier object is said of
 * the later one; what shows at the end only is said of the batch.
 */
public final class BatchCheck {

    private static final int DAYS_APART = 1;
    /** Of more references than this to source images the rest is not followed, so that a batch of any size fits into memory. */
    private static final int MOST_REFERENCES = 200_000;

    /**
     * What is kept of an object.
     *
     * @param name what reports call it
     * @param patient identifier and issuer
     * @param content numbers that stand for its content
     * @param shown how it lies, and which side it shows
     */
    private record Seen(String name, String patient, ContentHash content, BatchEntry.Shown shown) {}

    /** What is kept of a study or a patient: the first object of it, and the values that all should share. */
    private record Shared(Seen first, List<Integer> values) {}

    /** A derived picture and what it says it was made from. */
    private record Derived(Seen seen, BatchEntry.Source source, boolean only) {}

    private final List<ViewSet> sets;
    private final Map<String, Seen> instances = new HashMap<>();
    private final Map<Long, Seen> pictures = new HashMap<>();
    private final Map<String, Shared> studies = new HashMap<>();
    private final Map<String, Shared> patients = new HashMap<>();
    private final Map<Long, Seen> persons = new HashMap<>();
    private final Map<String, SeriesSeen> series = new LinkedHashMap<>();
    private final Map<String, String> seriesNumbers = new HashMap<>();
    private final List<Derived> derived = new ArrayList<>();

    /** A check for a batch that starts now. */
    public BatchCheck(List<ViewSet> sets) {
        this.sets = List.copyOf(sets);
    }

    /** The rules that compare objects. */
    public static List<Rule> all() {
        return BatchRules.all();
    }

    /** Compares an object with those before it. */
    public void compare(BatchEntry entry, Findings findings) {
        if (entry.instance().isEmpty()) {
            return;
        }
        Seen seen = new Seen(entry.name(), entry.patient(), entry.content(), entry.shown());
        Seen before = instances.putIfAbsent(entry.instance(), seen);
        if (before != null) {
            Rule rule = before.content().equals(entry.content()) ? BatchRules.COPY : BatchRules.OTHER_CONTENT;
            findings.report(rule, Location.of(Attributes.SOP_INSTANCE_UID), "other", before.name());
        } else if (entry.content().picture() != 0) {
            comparePicture(seen, findings);
        }
        comparePatient(entry, seen, findings);
        compareStudy(entry, seen, findings);
        compareSeries(entry, before != null, findings);
        compareKinds(entry, findings);
        for (BatchEntry.Source source : entry.sources()) {
            if (before == null && derived.size() < MOST_REFERENCES) {
                derived.add(new Derived(seen, source, entry.sources().size() == 1));
            }
        }
    }

    private void comparePicture(Seen seen, Findings findings) {
        Seen before = pictures.putIfAbsent(seen.content().picture(), seen);
        if (before != null) {
            boolean same = before.patient().equals(seen.patient());
            findings.report(
                    same ? BatchRules.SAME_PICTURE : BatchRules.TWO_PATIENTS,
                    Location.of(Attributes.PIXEL_DATA),
                    "other",
                    before.name());
        }
    }

    private void comparePatient(BatchEntry entry, Seen seen, Findings findings) {
        if (!entry.identified()) {
            return;
        }
        Shared here = new Shared(seen, entry.ofPatient());
        boolean known = patients.containsKey(entry.patient());
        compare(patients, entry.patient(), here, BatchEntry.OF_PATIENT, BatchRules.DEMOGRAPHICS, findings);
        if (entry.person() != 0) {
            Seen before = persons.putIfAbsent(entry.person(), seen);
            if (!known && before != null && !before.patient().equals(entry.patient())) {
                findings.report(BatchRules.SAME_PERSON, Location.of(Attributes.PATIENT_ID), "other", before.name());
            }
        }
    }

    private void compareStudy(BatchEntry entry, Seen seen, Findings findings) {
        if (entry.study().isEmpty()) {
            return;
        }
        Shared before = studies.get(entry.study());
        if (before != null && !before.first().patient().equals(entry.patient())) {
            findings.report(
                    BatchRules.STUDY_PATIENT,
                    Location.of(Attributes.STUDY_INSTANCE_UID),
                    "other",
                    before.first().name());
        }
        Shared here = new Shared(seen, entry.ofStudy());
        compare(studies, entry.study(), here, BatchEntry.OF_STUDY, BatchRules.STUDY_VALUES, findings);
    }

    /** Attributes without a value contradict nothing. */
    private static void compare(
            Map<String, Shared> known,
            String key,
            Shared here,
            List<Attribute> attributes,
            Rule rule,
            Findings findings) {
        Shared before = known.putIfAbsent(key, here);
        if (before == null) {
            return;
        }
        for (int i = 0; i < attributes.size(); i++) {
            int earlier = before.values().get(i);
            int now = here.values().get(i);
            if (now != 0 && earlier != 0 && now != earlier) {
                findings.report(
                        rule,
                        Location.of(attributes.get(i)),
                        "attribute",
                        attributes.get(i).keyword(),
                        "other",
                        before.first().name());
            }
        }
    }

    private void compareSeries(BatchEntry entry, boolean again, Findings findings) {
        if (entry.series().isEmpty()) {
            return;
        }
        SeriesSeen before = series.get(entry.series());
        if (before == null) {
            before = new SeriesSeen(entry);
            series.put(entry.series(), before);
            compareSeriesNumber(entry, findings);
        } else {
            Optional<String> what = before.otherThan(entry);
            if (what.isPresent()) {
                findings.report(
                        BatchRules.SERIES_STUDY,
                        Location.of(Attributes.SERIES_INSTANCE_UID),
                        "other",
                        before.name(),
                        "what",
                        what.get());
            }
            compareDays(before, entry, findings);
        }
        Optional<String> other = again ? Optional.empty() : before.add(entry);
        if (other.isPresent()) {
            findings.report(
                    BatchRules.SAME_NUMBER,
                    Location.of(Attributes.INSTANCE_NUMBER),
                    "number",
                    entry.instanceNumber(),
                    "other",
                    other.get());
        }
    }

    private void compareSeriesNumber(BatchEntry entry, Findings findings) {
        if (entry.seriesNumber().isEmpty() || entry.study().isEmpty()) {
            return;
        }
        String before = seriesNumbers.putIfAbsent(entry.study() + '\\' + entry.seriesNumber(), entry.name());
        if (before != null) {
            findings.report(
                    BatchRules.SERIES_NUMBER,
                    Location.of(Attributes.SERIES_NUMBER),
                    "number",
                    entry.seriesNumber(),
                    "other",
                    before);
        }
    }

    private static void compareDays(SeriesSeen before, BatchEntry entry, Findings findings) {
        Optional<LocalDate> earlier = before.day();
        if (earlier.isPresent() && entry.day().isPresent()) {
            long days =
                    Math.abs(ChronoUnit.DAYS.between(earlier.get(), entry.day().get()));
            if (days > DAYS_APART) {
                findings.report(
                        BatchRules.SERIES_DAYS,
                        Location.of(Attributes.ACQUISITION_DATE_TIME),
                        "days",
                        Long.toString(days),
                        "other",
                        before.name());
            }
        }
    }

    private void compareKinds(BatchEntry entry, Findings findings) {
        kind(Attributes.SOP_INSTANCE_UID, study(entry.instance()), "study", findings);
        kind(Attributes.SOP_INSTANCE_UID, series(entry.instance()), "series", findings);
        kind(Attributes.SERIES_INSTANCE_UID, object(entry.series()), "object", findings);
        kind(Attributes.SERIES_INSTANCE_UID, study(entry.series()), "study", findings);
        kind(Attributes.STUDY_INSTANCE_UID, object(entry.study()), "object", findings);
    }

    private Optional<String> study(String uid) {
        return Optional.ofNullable(studies.get(uid))
                .map(shared -> shared.first().name());
    }

    private Optional<String> series(String uid) {
        return Optional.ofNullable(series.get(uid)).map(SeriesSeen::name);
    }

    private Optional<String> object(String uid) {
        return Optional.ofNullable(instances.get(uid)).map(Seen::name);
    }

    private static void kind(Attribute attribute, Optional<String> other, String kind, Findings findings) {
        other.ifPresent(name -> findings.report(
                BatchRules.UID_OF_OTHER_KIND,
                Location.of(attribute),
                "attribute",
                attribute.keyword(),
                "kind",
                kind,
                "other",
                name));
    }

    /** Says what shows only when all objects were seen. */
    public void end(Findings findings) {
        for (Derived one : derived) {
            Seen source = instances.get(one.source().instance());
            if (source == null) {
                findings.report(
                        BatchRules.NO_SOURCE_HERE,
                        where(one),
                        "source",
                        one.source().instance(),
                        "object",
                        one.seen().name());
            } else {
                compareSource(one, source, findings);
            }
        }
        series.forEach((uid, seen) -> {
            seen.reportGap(Location.part("series " + uid), findings);
            seen.reportMissing(sets, Location.part("series " + uid), findings);
        });
    }

    private static Location where(Derived one) {
        return Location.part("object " + one.seen().name());
    }

    private static void compareSource(Derived one, Seen source, Findings findings) {
        String object = one.seen().name();
        if (!source.patient().equals(one.seen().patient())) {
            findings.report(BatchRules.SOURCE_PATIENT, where(one), "object", object, "other", source.name());
        }
        List<String> said = one.source().orientation();
        List<String> lies = source.shown().orientation();
        if (!said.isEmpty() && !lies.isEmpty() && !Facing.same(said, lies)) {
            findings.report(
                    BatchRules.SOURCE_DIRECTION,
                    where(one),
                    "object",
                    object,
                    "said",
                    String.join("\\", said),
                    "other",
                    source.name(),
                    "value",
                    String.join("\\", lies));
        }
        String side = one.seen().shown().side();
        // What was made of several pictures, as to compare two sides, is of the side of one of them
        if (one.only()
                && Set.of("R L", "L R").contains(side + " " + source.shown().side())) {
            findings.report(
                    BatchRules.SOURCE_SIDE,
                    where(one),
                    "object",
                    object,
                    "side",
                    side,
                    "other",
                    source.name(),
                    "value",
                    source.shown().side());
        }
    }
}
