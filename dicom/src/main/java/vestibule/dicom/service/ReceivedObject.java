package vestibule.dicom.service;

import java.nio.file.Path;
import vestibule.dicom.data.Uid;
import vestibule.dicom.io.TransferSyntax;
import vestibule.dicom.net.AeTitle;

/**
 * An object as it came by C-STORE: a DICOM file whose data set has the bytes that were received, forced to the disk.
 *
 * @param sopClass as the command set names it, equal to the one negotiated
 * @param sopInstance as the command set names it; the data set may say otherwise
 * @param transferSyntax how the data set is encoded
 * @param calling who sent it
 * @param file the file, under a name of no meaning; it is deleted after the handler unless it has been moved away
 * @param dataSetOffset where the data set starts in it, in bytes
 * @param dataSetLength how many bytes the data set has
 */
public record ReceivedObject(
        Uid sopClass,
        Uid sopInstance,
        TransferSyntax transferSyntax,
        AeTitle calling,
        Path file,
        long dataSetOffset,
        long dataSetLength) {}
