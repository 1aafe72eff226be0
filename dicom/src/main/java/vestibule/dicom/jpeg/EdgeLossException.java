package vestibule.dicom.jpeg;

import java.io.IOException;

/** Says that a turn cannot be made without leaving pixels off, and how many. */
public final class EdgeLossException extends IOException {
    private static final long serialVersionUID = 1L;

    private final transient EdgeLoss loss;

    EdgeLossException(EdgeLoss loss, String sentence) {
        super(sentence);
        this.loss = loss;
    }

    /** What would have to be left off. */
    public EdgeLoss loss() {
        return loss;
    }
}
