package vestibule.bridge.app;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import vestibule.bridge.delivery.ReadBack;
import vestibule.bridge.intake.Originals;
import vestibule.bridge.outbox.Commitments.Reference;
import vestibule.bridge.outbox.Consignments.Consignment;
import vestibule.bridge.outbox.Outbox;
import vestibule.dicom.io.DicomFile;

/** The proof for archives without storage commitment: each stored object is made again, fetched back and compared. */
final class ReadingBack {

    private static final Logger LOG = LoggerFactory.getLogger(ReadingBack.class);
    private static final int AT_A_TIME = 20;

    private final Outbox outbox;
    private final Originals originals;
    private final Making making;
    private final TakingBack takingBack;
    private final ReadBack readBack;
    private final Path objects;

    ReadingBack(
            Outbox outbox, Originals originals, Making making, TakingBack takingBack, ReadBack readBack, Path objects) {
        this.outbox = outbox;
        this.originals = originals;
        this.making = making;
        this.takingBack = takingBack;
        this.readBack = readBack;
        this.objects = objects;
    }

    /** Reads back what is due, some objects at a time; returns how many were proven. */
    int step() throws IOException {
        int proven = 0;
        for (Reference object : outbox.commitments().waiting(AT_A_TIME)) {
            Optional<Consignment> consignment = outbox.consignments().of(object.sopInstance());
            if (consignment.isPresent() && prove(object, consignment.get())) {
                proven++;
            }
        }
        return proven;
    }

    private boolean prove(Reference object, Consignment consignment) throws IOException {
        Path folder = objects.resolve(consignment.photo() + "-read-back");
        Shipping.clear(folder);
        Files.createDirectories(folder);
        try {
            List<Making.Made> made =
                    new ArrayList<>(making.make(originals.path(consignment.photo()), consignment.decision(), folder));
            takingBack.notes(consignment.photo(), folder).forEach(note -> made.add(note.made()));
            Optional<Making.Made> ours = made.stream()
                    .filter(one -> one.sopInstance().equals(object.sopInstance()))
                    .findFirst();
            if (ours.isEmpty()) {
                outbox.commitments().readBackLater(object.sopInstance(), "it could not be made again to be compared");
                return false;
            }
            Path fetched = Files.createDirectories(folder.resolve("fetched"));
            ReadBack.Outcome outcome =
                    readBack.compare(DicomFile.read(ours.get().file()), fetched);
            Shipping.clear(fetched);
            return record(object, consignment, outcome);
        } catch (Failure e) {
            outbox.commitments().readBackLater(object.sopInstance(), "it could not be made again to be compared");
            return false;
        } finally {
            Shipping.clear(folder);
        }
    }

    private boolean record(Reference object, Consignment consignment, ReadBack.Outcome outcome) throws IOException {
        if (outcome instanceof ReadBack.Outcome.Same) {
            return outbox.commitments().readBack(object.sopInstance());
        }
        if (outcome instanceof ReadBack.Outcome.Different different) {
            outbox.commitments().readBackLater(object.sopInstance(), "read back, it differs");
            outbox.consignments()
                    .attention(
                            consignment.photo(),
                            different.patient() ? "patient-changed" : "read-back-differs",
                            "What the archive sends back is not what it was sent: %s; look there, then retry or correct."
                                    .formatted(different.what()));
            return false;
        }
        ReadBack.Outcome.Unsaid unsaid = (ReadBack.Outcome.Unsaid) outcome;
        LOG.info("{}: not read back: {}", consignment.photo(), unsaid.reason());
        outbox.commitments().readBackLater(object.sopInstance(), unsaid.reason());
        return false;
    }
}
