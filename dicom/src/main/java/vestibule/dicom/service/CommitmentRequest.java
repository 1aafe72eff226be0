package vestibule.dicom.service;

import java.util.ArrayList;
import java.util.List;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Uid;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.io.DicomFormatException;

/**
 * A request that an archive commit itself to keeping objects (PS3.4 J.3.2, Table J.3-1).
 *
 * @param transaction names the request; used once
 * @param objects what is to be kept, each once, at least one
 */
public record CommitmentRequest(Uid transaction, List<SopReference> objects) {
    public CommitmentRequest {
        objects = objects.stream().distinct().toList();
        if (objects.isEmpty()) {
            throw new IllegalArgumentException("a commitment request names at least one object");
        }
    }

    DataSet toDataSet() {
        return DataSet.builder()
                .put(Attributes.TRANSACTION_UID, transaction.value())
                .put(
                        Attributes.REFERENCED_SOP_SEQUENCE,
                        objects.stream().map(SopReference::toItem).toList())
                .build();
    }

    static CommitmentRequest of(DataSet information) throws DicomFormatException {
        Uid transaction = CommitmentReport.transaction(information);
        List<SopReference> objects = new ArrayList<>();
        for (DataSet item : information.items(Attributes.REFERENCED_SOP_SEQUENCE)) {
            objects.add(SopReference.of(item));
        }
        if (objects.isEmpty()) {
            throw new DicomFormatException("a commitment request without objects");
        }
        return new CommitmentRequest(transaction, objects);
    }
}
