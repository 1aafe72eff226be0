package vestibule.bridge.probe;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;

/** What has become of each step so far; written by the thread that tries, read by the one that waits for it. */
final class Steps {

    private final Map<Step.Part, Step> told = new EnumMap<>(Step.Part.class);
    private Step.Part current = Step.Part.NAME;
    private boolean over;

    synchronized void begin(Step.Part part) {
        current = part;
    }

    void passed(Step.Part part, String sentence) {
        tell(Step.of(part, Step.Result.PASSED, sentence));
    }

    void failed(Step.Part part, String sentence) {
        tell(Step.of(part, Step.Result.FAILED, sentence));
    }

    void notOffered(Step.Part part, String sentence) {
        tell(Step.of(part, Step.Result.NOT_OFFERED, sentence));
    }

    void notAsked(Step.Part part, String sentence) {
        tell(Step.of(part, Step.Result.NOT_ASKED, sentence));
    }

    private synchronized void tell(Step step) {
        if (!over) {
            told.putIfAbsent(step.part(), step);
        }
    }

    /** The step that is being tried has taken too long; what the interrupted thread has to say of it does not count. */
    synchronized void cutOff(String sentence) {
        told.putIfAbsent(current, Step.of(current, Step.Result.FAILED, sentence));
        over = true;
    }

    /** Every step in its order; those not told of are not asked, for that reason. */
    synchronized List<Step> all(String otherwise) {
        List<Step> all = new ArrayList<>();
        for (Step.Part part : Step.Part.values()) {
            all.add(told.getOrDefault(part, Step.of(part, Step.Result.NOT_ASKED, otherwise)));
        }
        return all;
    }
}
