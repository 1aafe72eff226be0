package vestibule.bridge.delivery;

import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.function.BiConsumer;
import vestibule.dicom.io.DicomFile;
import vestibule.dicom.net.AeTitle;
import vestibule.dicom.net.ApplicationEntity;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.AssociationException;
import vestibule.dicom.net.AssociationRequest;
import vestibule.dicom.net.Deadlines;
import vestibule.dicom.net.ProposedContext;
import vestibule.dicom.service.StorageUser;
import vestibule.dicom.service.StoreOutcome;

/** Sends files to an archive, each exactly as it is (PS3.4 B). */
public final class Delivery {

    private final ApplicationEntity archive;
    private final AeTitle calling;
    private final Deadlines deadlines;

    /** To that archive, under our title. */
    public Delivery(Destination archive, String callingAe, Deadlines deadlines) {
        this.archive = archive.entity();
        this.calling = new AeTitle(callingAe);
        this.deadlines = deadlines;
    }

    /**
     * Sends files in their order, over as many associations as their kinds need; one of an association's limit of 128 contexts is enough
     * for any card.
     *
     * @param files what to send
     * @param outcomes is told what became of each file, once for each
     * @throws AssociationException if no association comes about; the files not told of have not been sent
     */
    public void send(List<DicomFile> files, BiConsumer<DicomFile, StoreOutcome> outcomes) throws AssociationException {
        for (List<DicomFile> batch : batches(files)) {
            send(batch, StorageUser.proposals(batch), outcomes);
        }
    }

    private void send(
            List<DicomFile> batch, List<ProposedContext> proposals, BiConsumer<DicomFile, StoreOutcome> outcomes)
            throws AssociationException {
        List<DicomFile> waiting = batch;
        while (!waiting.isEmpty()) {
            int told = proposals.isEmpty() ? tellUnsendable(waiting, outcomes) : sendOver(waiting, proposals, outcomes);
            waiting = waiting.subList(told, waiting.size());
        }
    }

    /** One association; returns how many files it told of, at least one, so that a lost association never repeats a file by itself. */
    private int sendOver(
            List<DicomFile> files, List<ProposedContext> proposals, BiConsumer<DicomFile, StoreOutcome> outcomes)
            throws AssociationException {
        try (Association association =
                Association.open(AssociationRequest.of(calling, proposals), archive, deadlines)) {
            StorageUser storage = new StorageUser(association);
            int told = 0;
            for (DicomFile file : files) {
                outcomes.accept(file, storage.store(file));
                told++;
                if (!association.isOpen()) {
                    break;
                }
            }
            return told;
        }
    }

    private static int tellUnsendable(List<DicomFile> files, BiConsumer<DicomFile, StoreOutcome> outcomes) {
        files.forEach(file -> outcomes.accept(
                file,
                new StoreOutcome.NotSent("the file has no SOP Class UID, without which nothing is stored", List.of())));
        return files.size();
    }

    private static List<List<DicomFile>> batches(Collection<DicomFile> files) {
        List<List<DicomFile>> batches = new ArrayList<>();
        List<DicomFile> batch = new ArrayList<>();
        Set<ProposedContext> contexts = new LinkedHashSet<>();
        for (DicomFile file : files) {
            List<ProposedContext> needed = StorageUser.proposals(List.of(file));
            if (!contexts.containsAll(needed) && contexts.size() == ProposedContext.MOST) {
                batches.add(List.copyOf(batch));
                batch.clear();
                contexts.clear();
            }
            contexts.addAll(needed);
            batch.add(file);
        }
        if (!batch.isEmpty()) {
            batches.add(List.copyOf(batch));
        }
        return batches;
    }
}
