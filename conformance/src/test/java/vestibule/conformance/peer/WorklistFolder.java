package vestibule.conformance.peer;

import java.io.IOException;
import java.nio.file.Path;
import vestibule.dicom.data.Bulk;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Uid;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.io.DataSetCodec;
import vestibule.dicom.io.DicomFile;
import vestibule.dicom.io.TransferSyntax;

/** A folder of worklist items, a file each, which DCMTK's worklist server and Orthanc's worklist plug-in read alike. */
public final class WorklistFolder {

    private final Path folder;
    private int count;

    /** A folder that exists. */
    public WorklistFolder(Path folder) {
        this.folder = folder;
    }

    /** Adds an item, in the character set that it names itself. */
    public void add(DataSet item) throws IOException {
        count++;
        DataSet meta = DicomFile.metaInformation(
                Uids.MODALITY_WORKLIST_INFORMATION_MODEL_FIND,
                new Uid("2.25." + count),
                TransferSyntax.EXPLICIT_VR_LITTLE_ENDIAN);
        byte[] bytes =
                DataSetCodec.encode(item, TransferSyntax.EXPLICIT_VR_LITTLE_ENDIAN, DataSetCodec.Strictness.OBJECT);
        DicomFile.writeReceived(folder.resolve(count + ".wl"), meta, Bulk.of(bytes));
    }
}
