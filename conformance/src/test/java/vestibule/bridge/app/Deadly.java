package vestibule.bridge.app;

import java.util.List;
import java.util.Optional;
import vestibule.conformance.fault.HeldObject;
import vestibule.conformance.fault.Script;
import vestibule.dicom.service.CommitmentRequest;
import vestibule.dicom.service.SopReference;

/** A healthy archive that has somebody killed at one moment: the caller of an operation, before it gets its answer. */
final class Deadly implements Script {

    private Optional<Blow> atStore = Optional.empty();
    private Optional<Blow> atCommit = Optional.empty();
    private int before;

    interface Blow {
        void strike() throws InterruptedException;
    }

    /** Strikes at an object, after that many others. */
    synchronized void onStore(Blow blow, int others) {
        atStore = Optional.of(blow);
        before = others;
    }

    /** Strikes at the next request for commitment. */
    synchronized void onCommit(Blow blow) {
        atCommit = Optional.of(blow);
    }

    synchronized void disarm() {
        atStore = Optional.empty();
        atCommit = Optional.empty();
    }

    @Override
    public Reception store(HeldObject object, int number) {
        Optional<Blow> due;
        synchronized (this) {
            due = before-- <= 0 ? atStore : Optional.empty();
        }
        due.ifPresent(Deadly::strike);
        return Reception.SUCCESS;
    }

    @Override
    public Promise commit(CommitmentRequest request, List<SopReference> held, int number) {
        Optional<Blow> due;
        synchronized (this) {
            due = atCommit;
        }
        due.ifPresent(Deadly::strike);
        return Promise.truth(request, held, Way.SAME_ASSOCIATION);
    }

    private static void strike(Blow blow) {
        try {
            blow.strike();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}
