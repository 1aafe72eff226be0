package vestibule.validator;

import java.util.Locale;

/** Whether a finding follows from the bytes alone or is a judgement that a person may overrule. */
public enum Confidence {
    /** The bytes prove it. */
    CERTAIN,
    /** It is likely; somebody should look. */
    JUDGEMENT;

    /** The word that reports use: {@code certain}, {@code judgement}. */
    public String word() {
        return name().toLowerCase(Locale.ROOT);
    }
}
