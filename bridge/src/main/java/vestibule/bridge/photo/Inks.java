package vestibule.bridge.photo;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/** What to do with a picture of four inks (CMYK, YCCK), which no VL Photographic Image can hold (PS3.3 C.8.12.1.1.1). */
public enum Inks {
    /** Refuse it. */
    REFUSE,
    /** Make red, green and blue of them by the plain rule, each ink dimming its light; the object says that it is derived. */
    CONVERT;

    /** The choice of that word, if there is one. */
    public static Optional<Inks> parse(String word) {
        return Arrays.stream(values())
                .filter(one -> one.name().toLowerCase(Locale.ROOT).equals(word))
                .findFirst();
    }
}
