package vestibule.conformance.fault;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import vestibule.conformance.fault.SourcePhotos.SourcePhoto;
import vestibule.dicom.data.Uid;

/**
 * The one judge of every proof. Asked once the archive is healthy and the bridge idle, it compares, photograph by photograph, the source as
 * it was, what the bridge says, and what the archive truly holds and truly promised. It believes neither of the two.
 */
public final class Oracle {

    /** The states that count as taken in (in the words of every screen and log). */
    private static final Set<String> STATES = Set.of("waiting", "needs-attention", "sent", "committed", "rejected");

    /**
     * What the bridge says.
     *
     * @param states the state of each photograph, by the hash of its bytes
     * @param total how many photographs it counts
     * @param leftovers files in its home that belong to nothing
     */
    public record Account(Map<String, String> states, int total, List<String> leftovers) {
        /** With collections that nobody can change. */
        public Account {
            states = Map.copyOf(states);
            leftovers = List.copyOf(leftovers);
        }
    }

    /**
     * What the archive has.
     *
     * @param held every object it holds
     * @param promised the objects it took responsibility for; empty where commitment is proven otherwise
     */
    public record Archived(Collection<HeldObject> held, Optional<Set<Uid>> promised) {}

    /**
     * The judgement; each list names what is wrong, and all are empty when nothing is.
     *
     * @param lost photographs that did not arrive, or are in no state, or wait although all is idle
     * @param doubled photographs that became more objects than they should, or two of one kind, or one UID with two contents
     * @param wrongPatient objects filed under somebody else
     * @param altered objects whose picture is no photograph of the source
     * @param falselyCommitted photographs called committed that the archive does not hold or did not promise
     * @param touched files of the source that changed
     * @param leftovers files in the bridge's home that belong to nothing
     * @param miscounted whether the count taken in is not the sum of the states
     */
    public record Verdict(
            List<String> lost,
            List<String> doubled,
            List<String> wrongPatient,
            List<String> altered,
            List<String> falselyCommitted,
            List<String> touched,
            List<String> leftovers,
            boolean miscounted) {

        /** Whether nothing is wrong. */
        public boolean clean() {
            return !miscounted
                    && List.of(lost, doubled, wrongPatient, altered, falselyCommitted, touched, leftovers).stream()
                            .allMatch(List::isEmpty);
        }

        /** The figures in one line, then what is wrong. */
        @Override
        public String toString() {
            StringBuilder text = new StringBuilder(("lost %d, doubled %d, wrong patient %d, altered %d, "
                            + "falsely committed %d, source touched %d, leftover files %d, count %s")
                    .formatted(
                            lost.size(),
                            doubled.size(),
                            wrongPatient.size(),
                            altered.size(),
                            falselyCommitted.size(),
                            touched.size(),
                            leftovers.size(),
                            miscounted ? "WRONG" : "right"));
            for (List<String> wrong :
                    List.of(lost, doubled, wrongPatient, altered, falselyCommitted, touched, leftovers)) {
                wrong.forEach(
                        line -> text.append(System.lineSeparator()).append("  ").append(line));
            }
            return text.toString();
        }
    }

    private final Collection<SourcePhotos> sources;
    private final Account account;
    private final Archived archive;
    private final Map<String, SourcePhoto> byScan = new HashMap<>();
    private final Map<String, SourcePhoto> photos = new TreeMap<>();

    private Oracle(Collection<SourcePhotos> sources, Account account, Archived archive) {
        this.sources = sources;
        this.account = account;
        this.archive = archive;
        for (SourcePhotos source : sources) {
            photos.putAll(source.photos());
        }
        photos.values().forEach(photo -> byScan.put(photo.scan(), photo));
    }

    /** Judges. */
    public static Verdict judge(Collection<SourcePhotos> sources, Account account, Archived archive)
            throws IOException {
        return new Oracle(sources, account, archive).verdict();
    }

    private Verdict verdict() throws IOException {
        Map<String, List<HeldObject>> objects = new HashMap<>();
        List<String> altered = new ArrayList<>();
        List<String> wrongPatient = new ArrayList<>();
        for (HeldObject object : archive.held()) {
            Optional<SourcePhoto> photo = photoOf(object);
            if (photo.isEmpty()) {
                altered.add(object.sopInstance() + " shows none of the photographs");
                continue;
            }
            objects.computeIfAbsent(photo.get().photo(), any -> new ArrayList<>())
                    .add(object);
            if (!photo.get().patientId().equals(object.patientId())) {
                wrongPatient.add(object.sopInstance() + " of " + photo.get().photo());
            }
        }
        List<String> touched = new ArrayList<>();
        for (SourcePhotos source : sources) {
            touched.addAll(source.touched());
        }
        return new Verdict(
                lost(objects),
                doubled(objects),
                wrongPatient,
                altered,
                falselyCommitted(objects),
                touched,
                account.leftovers(),
                miscounted());
    }

    /** By its own picture, or, where that was turned, by the object it says it was derived from. */
    private Optional<SourcePhoto> photoOf(HeldObject object) {
        Optional<SourcePhoto> own = object.scan().map(byScan::get);
        if (own.isPresent() || object.source().isEmpty()) {
            return own;
        }
        return archive.held().stream()
                .filter(other -> other.sopInstance().equals(object.source().get()))
                .findFirst()
                .flatMap(other -> other.scan().map(byScan::get));
    }

    /**
     * How many of the objects that a photograph becomes are there: one with the picture as recorded, and the rest derived from that one. Two
     * of a kind are no pair.
     */
    private static int complete(SourcePhoto photo, List<HeldObject> held) {
        int recorded = (int) held.stream()
                .filter(object -> object.scan().equals(Optional.of(photo.scan())))
                .count();
        return Math.min(1, recorded) + Math.min(photo.objects() - 1, held.size() - recorded);
    }

    private List<String> lost(Map<String, List<HeldObject>> objects) {
        List<String> lost = new ArrayList<>();
        for (SourcePhoto photo : photos.values()) {
            String state = account.states().getOrDefault(photo.photo(), "no state at all");
            int found = complete(photo, objects.getOrDefault(photo.photo(), List.of()));
            boolean waitsForSomebody = state.equals("needs-attention") || state.equals("rejected");
            if (!STATES.contains(state) || state.equals("waiting")) {
                lost.add("%s is in the state: %s".formatted(photo.photo(), state));
            } else if (!waitsForSomebody && found < photo.objects()) {
                lost.add("%s is called %s, and the archive has %d of its %d objects"
                        .formatted(photo.photo(), state, found, photo.objects()));
            }
        }
        return lost;
    }

    private List<String> doubled(Map<String, List<HeldObject>> objects) {
        List<String> doubled = new ArrayList<>();
        objects.forEach((photo, held) -> {
            SourcePhoto source = photos.get(photo);
            if (source != null && held.size() > complete(source, held)) {
                doubled.add("%s became %d objects, of its %d there are %d"
                        .formatted(photo, held.size(), source.objects(), complete(source, held)));
            }
            held.stream()
                    .filter(HeldObject::conflicts)
                    .forEach(object -> doubled.add(object.sopInstance() + " came with two contents"));
        });
        return doubled;
    }

    private List<String> falselyCommitted(Map<String, List<HeldObject>> objects) {
        List<String> falsely = new ArrayList<>();
        for (SourcePhoto photo : photos.values()) {
            if ("committed".equals(account.states().get(photo.photo()))) {
                List<HeldObject> held = objects.getOrDefault(photo.photo(), List.of());
                boolean promised = archive.promised()
                        .map(all -> held.stream().allMatch(object -> all.contains(object.sopInstance())))
                        .orElse(true);
                if (complete(photo, held) < photo.objects() || !promised) {
                    falsely.add(photo.photo());
                }
            }
        }
        return falsely;
    }

    /** A photograph with a patient card may be set aside and then counts in no state, so only those of the sources are asked for. */
    private boolean miscounted() {
        Set<String> counted = new HashSet<>(account.states().keySet());
        return account.total() != counted.size()
                || !account.states().values().stream().allMatch(STATES::contains);
    }
}
