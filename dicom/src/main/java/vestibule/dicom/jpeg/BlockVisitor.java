package vestibule.dicom.jpeg;

import java.io.IOException;

/** Takes the blocks of a scan in their order. */
interface BlockVisitor {
    /** One block of the scan's n-th component; index -1 is one beyond the component's edge. */
    void visit(int component, int blockIndex) throws IOException;

    /** The scan or another restart interval begins: predictions start anew. */
    void restart() throws IOException;

    /** A restart interval, or the scan, has had its last block. */
    default void endInterval() throws IOException {}
}
