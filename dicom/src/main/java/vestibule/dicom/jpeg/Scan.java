package vestibule.dicom.jpeg;

import java.util.List;

/**
 * One scan: its header (T.81 B.2.3) and where its entropy-coded data lies.
 *
 * @param components in the order of the header
 * @param spectralStart Ss; in lossless frames the predictor
 * @param spectralEnd Se
 * @param approximationHigh Ah
 * @param approximationLow Al; in lossless frames the point transform
 * @param restartInterval MCUs between restart markers, 0 for none
 * @param restarts how many restart markers the data holds
 * @param data from the byte after the header to the byte before the next marker or its fill bytes
 */
public record Scan(
        List<ScanComponent> components,
        int spectralStart,
        int spectralEnd,
        int approximationHigh,
        int approximationLow,
        int restartInterval,
        int restarts,
        ByteRange data) {
    /** Keeps its own copy of the list. */
    public Scan {
        components = List.copyOf(components);
    }
}
