package vestibule.dicom.jpeg;

import java.io.IOException;

/** Takes the blocks of a scan in their order. */
interface BlockVisitor {
    /** One block of the scan's n-th component; index -1 is one beyond the component's edge. */
    void visit(int component, int blockIndex) throws IOException;

    /** The blocks of a scan of one component, from one index up to another. */
    default void visitRange(int from, int end) throws IOException {
        for (int index = from; index < end; index++) {
            visit(0, index);
        }
    }

    /** The scan or another restart interval begins: predictions start anew. */
    void restart() throws IOException;

    /** A restart interval, or the scan, has had its last block. */
    default void endInterval() throws IOException {}
}
