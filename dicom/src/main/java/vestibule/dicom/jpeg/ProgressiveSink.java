package vestibule.dicom.jpeg;

import java.io.IOException;

/**
 * Takes the blocks of one component of a progressive picture, each once, when all of its scans have had their say. Other
 * components' sinks are called at the same time.
 */
interface ProgressiveSink {
    /** One block that is kept, its AC coefficients in the last argument, its DC value in the component's. */
    void take(Blocks blocks, int index, ProgressiveBlock block) throws IOException;
}
