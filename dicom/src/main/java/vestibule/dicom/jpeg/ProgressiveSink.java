package vestibule.dicom.jpeg;

import java.io.IOException;

/**
 * Takes the blocks of one component of a progressive picture, each once, when all of its scans have had their say. Other
 * components' sinks are called at the same time.
 */
interface ProgressiveSink {
    /**
     * One block that is kept, its AC coefficients in the last argument, its DC value in the component's; returns the one to put
     * the next coefficients in, which is another one where these are still needed.
     */
    ProgressiveBlock take(Blocks blocks, int index, ProgressiveBlock block) throws IOException;

    /** The component has had its last block. */
    default void finish() throws IOException {}
}
