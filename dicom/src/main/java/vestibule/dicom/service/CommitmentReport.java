package vestibule.dicom.service;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Uid;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.io.DicomFormatException;

/**
 * What an archive says to a commitment request (PS3.4 J.3.3, Table J.3-2). Only an object named among {@code committed} is kept.
 *
 * @param transaction the request it answers
 * @param committed the objects it takes responsibility for
 * @param failed the objects it does not, with the reason
 */
public record CommitmentReport(Uid transaction, List<SopReference> committed, List<Failure> failed) {

    static final int ALL_COMMITTED = 1;
    static final int FAILURES_EXIST = 2;

    /**
     * An object that the archive does not keep.
     *
     * @param object which one
     * @param reason Failure Reason (0008,1197) (PS3.3 C.14.1.1)
     */
    public record Failure(SopReference object, int reason) {

        /** What the reason means. */
        public String words() {
            return switch (reason) {
                case 0x0110 -> "processing failure";
                case 0x0112 -> "the archive has no such object; send it again";
                case 0x0119 -> "SOP class and SOP instance do not belong together";
                case 0x0122 -> "the archive does not commit itself to this SOP class";
                case 0x0131 -> "the transaction UID is in use already";
                case 0x0213 -> "the archive is short of resources; ask again later";
                default -> "a reason the standard does not define (%04X)".formatted(reason);
            };
        }
    }

    public CommitmentReport {
        committed = List.copyOf(committed);
        failed = List.copyOf(failed);
    }

    /** The objects of a request that this report says nothing about; the standard asks for none (PS3.4 J.3.3). */
    public List<SopReference> unmentioned(CommitmentRequest request) {
        Set<SopReference> mentioned = new HashSet<>(committed);
        failed.forEach(failure -> mentioned.add(failure.object()));
        return request.objects().stream()
                .filter(object -> !mentioned.contains(object))
                .toList();
    }

    int eventType() {
        return failed.isEmpty() ? ALL_COMMITTED : FAILURES_EXIST;
    }

    DataSet toDataSet() {
        DataSet.Builder information = DataSet.builder().put(Attributes.TRANSACTION_UID, transaction.value());
        if (!committed.isEmpty()) {
            information.put(
                    Attributes.REFERENCED_SOP_SEQUENCE,
                    committed.stream().map(SopReference::toItem).toList());
        }
        if (!failed.isEmpty()) {
            information.put(
                    Attributes.FAILED_SOP_SEQUENCE,
                    failed.stream()
                            .map(failure -> failure.object().toItem().toBuilder()
                                    .put(Attributes.FAILURE_REASON, failure.reason())
                                    .build())
                            .toList());
        }
        return information.build();
    }

    /** @throws DicomFormatException if something the standard asks for is missing; a report is believed whole or not at all */
    static CommitmentReport of(DataSet information) throws DicomFormatException {
        List<SopReference> committed = new ArrayList<>();
        for (DataSet item : information.items(Attributes.REFERENCED_SOP_SEQUENCE)) {
            committed.add(SopReference.of(item));
        }
        List<Failure> failed = new ArrayList<>();
        for (DataSet item : information.items(Attributes.FAILED_SOP_SEQUENCE)) {
            long reason = item.integer(Attributes.FAILURE_REASON).orElse((long) Status.PROCESSING_FAILURE);
            failed.add(new Failure(SopReference.of(item), (int) reason));
        }
        Set<SopReference> both = new HashSet<>(committed);
        if (failed.stream().anyMatch(failure -> both.contains(failure.object()))) {
            throw new DicomFormatException("a commitment report that names an object as committed and as failed");
        }
        return new CommitmentReport(transaction(information), committed, failed);
    }

    static Uid transaction(DataSet information) throws DicomFormatException {
        return information
                .text(Attributes.TRANSACTION_UID)
                .flatMap(Uid::parse)
                .orElseThrow(() -> new DicomFormatException("no well-formed " + Attributes.TRANSACTION_UID));
    }
}
