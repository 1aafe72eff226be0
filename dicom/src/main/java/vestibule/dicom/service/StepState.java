package vestibule.dicom.service;

import java.util.Optional;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.dict.Attributes;

/** Performed Procedure Step Status (0040,0252) (PS3.4 F.7). */
public enum StepState {
    IN_PROGRESS,
    COMPLETED,
    DISCONTINUED;

    /**
     * The state a data set names.
     *
     * @return empty if the attribute is not there
     * @throws RefusedException if it is there and names no state
     */
    public static Optional<StepState> of(DataSet attributes) throws RefusedException {
        if (!attributes.contains(Attributes.PERFORMED_PROCEDURE_STEP_STATUS)) {
            return Optional.empty();
        }
        Optional<String> term = attributes.text(Attributes.PERFORMED_PROCEDURE_STEP_STATUS);
        if (term.isEmpty()) {
            throw new RefusedException(Status.MISSING_ATTRIBUTE_VALUE, "PerformedProcedureStepStatus has no value");
        }
        for (StepState state : values()) {
            if (term.get().equals(state.term())) {
                return Optional.of(state);
            }
        }
        throw new RefusedException(Status.INVALID_ATTRIBUTE_VALUE, "PerformedProcedureStepStatus names no state");
    }

    /** The word of the standard. */
    public String term() {
        return name().replace('_', ' ');
    }

    /** Whether the step is over and may not be changed. */
    public boolean isFinal() {
        return this != IN_PROGRESS;
    }
}
