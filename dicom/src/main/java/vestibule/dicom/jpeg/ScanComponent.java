package vestibule.dicom.jpeg;

/**
 * One component of a scan (T.81 B.2.3).
 *
 * @param index which component of the frame, from 0
 * @param dcTable the DC entropy table selector Td
 * @param acTable the AC entropy table selector Ta
 */
public record ScanComponent(int index, int dcTable, int acTable) {}
