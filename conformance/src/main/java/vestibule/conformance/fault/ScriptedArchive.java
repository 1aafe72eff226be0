package vestibule.conformance.fault;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.UnaryOperator;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import vestibule.conformance.fault.Script.Promise;
import vestibule.conformance.fault.Script.Reception;
import vestibule.conformance.fault.Script.Report;
import vestibule.conformance.fault.Script.Way;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Element;
import vestibule.dicom.data.Uid;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.net.AcceptorSettings;
import vestibule.dicom.net.AeTitle;
import vestibule.dicom.net.ApplicationEntity;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.AssociationListener;
import vestibule.dicom.net.Deadlines;
import vestibule.dicom.net.Message;
import vestibule.dicom.service.CommitmentRequest;
import vestibule.dicom.service.ProvidedService;
import vestibule.dicom.service.QueryProvider;
import vestibule.dicom.service.RefusedException;
import vestibule.dicom.service.ServiceProvider;
import vestibule.dicom.service.SopReference;
import vestibule.dicom.service.VerificationProvider;

/**
 * An archive that does what a {@link Script} says, good or bad, and keeps account of what it truly holds and truly promised: verification,
 * storage, commitment, queries for its objects, and retrieval on the same association. What it holds stays in memory, without pixels but with their hashes.
 */
public final class ScriptedArchive implements AutoCloseable {

    private static final Logger LOG = LoggerFactory.getLogger(ScriptedArchive.class);

    /** The title it is called by. */
    public static final AeTitle TITLE = new AeTitle("ARCHIVE");

    private final Map<Uid, HeldObject> held = new LinkedHashMap<>();
    private final Map<Uid, byte[]> encoded = new LinkedHashMap<>();
    private final Set<Uid> promised = new HashSet<>();
    private final Set<Uid> asked = new HashSet<>();
    private final List<Report> late = new ArrayList<>();
    private final List<ProvidedService> services = List.of(
            new VerificationProvider(),
            new ScriptedStorage(this),
            new ScriptedCommitment(this),
            new ScriptedRetrieval(this),
            new QueryProvider(Uids.STUDY_ROOT_QUERY_RETRIEVE_INFORMATION_MODEL_FIND, (keys, calling) -> find(keys)));
    private final AtomicInteger arrivals = new AtomicInteger();
    private final AtomicInteger requests = new AtomicInteger();
    private final Deadlines deadlines;
    private volatile Script script;
    private volatile Optional<ApplicationEntity> reportTo = Optional.empty();
    private Optional<AssociationListener> listener = Optional.empty();
    private boolean keepsBytes;

    private ScriptedArchive(Script script, Deadlines deadlines) {
        this.script = script;
        this.deadlines = deadlines;
    }

    /** Starts one on a free port of the loopback address. */
    public static ScriptedArchive start(Script script) throws IOException {
        return start(script, 0, Deadlines.DEFAULT);
    }

    /** Starts one on a port of the loopback address, 0 for any free one. */
    public static ScriptedArchive start(Script script, int port, Deadlines deadlines) throws IOException {
        ScriptedArchive archive = new ScriptedArchive(script, deadlines);
        archive.listen(port);
        return archive;
    }

    private void listen(int port) throws IOException {
        ServiceProvider services = new ServiceProvider(List.of(
                new VerificationProvider(),
                new ScriptedStorage(this),
                new ScriptedCommitment(this),
                new ScriptedRetrieval(this),
                new QueryProvider(
                        Uids.STUDY_ROOT_QUERY_RETRIEVE_INFORMATION_MODEL_FIND, (keys, calling) -> find(keys))));
        AcceptorSettings settings =
                AcceptorSettings.of(TITLE, services.contexts()).withDeadlines(deadlines);
        listener =
                Optional.of(services.listen(new InetSocketAddress(InetAddress.getLoopbackAddress(), port), settings));
    }

    /** Where it listens. */
    public InetSocketAddress address() {
        return listener.orElseThrow(() -> new IllegalStateException("the archive is down"))
                .address();
    }

    /** Where it listens, as commands name it. */
    public String url() {
        return "dicom://127.0.0.1:%d/%s".formatted(address().getPort(), TITLE.value());
    }

    /** How many associations stand. */
    public int associations() {
        return listener.map(AssociationListener::associations).orElse(0);
    }

    /** What it does from now on. */
    public void script(Script next) {
        script = next;
    }

    /** Who gets reports on associations of the archive's own. */
    public void reportTo(ApplicationEntity bridge) {
        reportTo = Optional.of(bridge);
    }

    /** Keeps the bytes of what comes from now on, so that it can be retrieved. */
    public synchronized void keepBytes() {
        keepsBytes = true;
    }

    /** What it holds, by SOP Instance UID. */
    public synchronized Map<Uid, HeldObject> held() {
        return new LinkedHashMap<>(held);
    }

    /** The objects it said it would keep, in reports that it sent. */
    public synchronized Set<Uid> promised() {
        return Set.copyOf(promised);
    }

    /** How many objects arrived whole, repeats included. */
    public int arrivals() {
        return arrivals.get();
    }

    /** How many commitment requests came. */
    public int requests() {
        return requests.get();
    }

    /** Loses an object, as after a restore from an old backup. */
    public synchronized void forget(Uid sopInstance) {
        held.remove(sopInstance);
        encoded.remove(sopInstance);
    }

    /** What it holds changes: the bytes that are given back when somebody retrieves it. */
    public synchronized void change(Uid sopInstance, UnaryOperator<byte[]> how) {
        encoded.computeIfPresent(sopInstance, (instance, bytes) -> how.apply(bytes.clone()));
    }

    /** Takes over what another one held and promised, as it is now. */
    public synchronized void continueFrom(Map<Uid, HeldObject> objects, Set<Uid> promises) {
        held.clear();
        held.putAll(objects);
        promised.clear();
        promised.addAll(promises);
    }

    /**
     * Delivers the reports that were kept back.
     *
     * @return how many were taken by the bridge
     */
    public int deliverLate() {
        List<Report> due;
        synchronized (this) {
            due = List.copyOf(late);
            late.clear();
        }
        return (int) due.stream().filter(this::deliver).count();
    }

    /** How many reports are kept back. */
    public synchronized int heldBack() {
        return late.size();
    }

    private boolean deliver(Report report) {
        Optional<ApplicationEntity> bridge = reportTo;
        if (bridge.isEmpty()) {
            return false;
        }
        isPromising(report);
        return ScriptedCommitment.deliver(report, TITLE, bridge.get(), deadlines);
    }

    /** An object came; the answer to give. */
    Reception arrived(HeldObject object, byte[] bytes) {
        Reception reception = script.store(object, arrivals.getAndIncrement());
        if (reception.keeps()) {
            keep(reception.refiledUnder().map(object::filedUnder).orElse(object), bytes);
        }
        return reception;
    }

    private synchronized void keep(HeldObject object, byte[] bytes) {
        HeldObject before = held.get(object.sopInstance());
        boolean conflicts =
                before != null && (before.conflicts() || !before.bytes().equals(object.bytes()));
        held.put(object.sopInstance(), conflicts ? object.conflicting() : object);
        if (keepsBytes) {
            encoded.put(object.sopInstance(), bytes);
        }
    }

    /** A commitment request came; what to do. */
    Promise asked(CommitmentRequest request) {
        List<SopReference> having;
        synchronized (this) {
            asked.add(request.transaction());
            having = request.objects().stream()
                    .filter(object -> held.containsKey(object.sopInstance()))
                    .toList();
        }
        return script.commit(request, having, requests.getAndIncrement());
    }

    /** A report to be sent on another association than that of the request. */
    void elsewhere(Report report) {
        if (report.way() == Way.OWN_ASSOCIATION) {
            boolean taken = deliver(report);
            LOG.debug("a report on an association of its own was {}", taken ? "taken" : "not taken");
        } else {
            synchronized (this) {
                late.add(report);
            }
        }
    }

    /** A report goes out. It counts as a promise whether its arrival is confirmed or not, but only if it is one: asked for, and of sense. */
    synchronized void isPromising(Report report) {
        boolean sense = report.eventType() == 2
                || (report.eventType() == 1 && report.failed().isEmpty());
        boolean both = report.committed().stream().anyMatch(report.failed()::contains);
        if (asked.contains(report.transaction()) && sense && !both) {
            report.committed().forEach(object -> promised.add(object.sopInstance()));
        }
    }

    /** Whatever comes while an answer of the bridge is awaited. */
    void serve(Association on, Message request) throws IOException {
        for (ProvidedService service : services) {
            if (service.contexts().stream()
                    .anyMatch(context -> request.context().accepts(context.abstractSyntax()))) {
                service.handle(on, request);
                return;
            }
        }
        throw on.violation(request.command().field() + " came on a context that nothing serves");
    }

    synchronized Optional<byte[]> bytes(Uid sopInstance) {
        return Optional.ofNullable(encoded.get(sopInstance));
    }

    private QueryProvider.Answer find(DataSet keys) throws RefusedException {
        if (script.query() != 0) {
            throw new RefusedException(script.query(), "as the script says");
        }
        List<DataSet> answers = held().values().stream()
                .map(HeldObject::header)
                .filter(header -> ScriptedRetrieval.matches(keys, header))
                .map(header -> answer(keys, header))
                .distinct()
                .toList();
        return new QueryProvider.Answer(answers.stream(), true);
    }

    private static DataSet answer(DataSet keys, DataSet header) {
        DataSet.Builder answer = DataSet.builder();
        for (Element key : keys) {
            answer.put(header.find(key.tag()).orElse(key));
        }
        keys.text(Attributes.QUERY_RETRIEVE_LEVEL)
                .ifPresent(level -> answer.put(Attributes.QUERY_RETRIEVE_LEVEL, level));
        header.find(Attributes.SPECIFIC_CHARACTER_SET).ifPresent(answer::put);
        return answer.build();
    }

    /** Goes down, connections and all; what it holds stays. */
    public void goDown() {
        listener.ifPresent(AssociationListener::close);
        listener = Optional.empty();
    }

    /** Comes back on a port. */
    public void comeBack(int port) throws IOException {
        listen(port);
    }

    @Override
    public void close() {
        goDown();
    }
}
