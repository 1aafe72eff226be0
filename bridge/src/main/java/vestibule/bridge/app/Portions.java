package vestibule.bridge.app;

import java.util.ArrayList;
import java.util.List;

/** What is read in full at a time, so that a card may hold any number of photographs. */
final class Portions {

    /** More than anybody takes of one patient in a sitting, and little enough for any memory. */
    static final int MOST = 1_000;

    private Portions() {}

    /** Parts of a list in its order, none longer than {@link #MOST}. */
    static <T> List<List<T>> of(List<T> all) {
        return of(all, MOST);
    }

    /** Parts of a list in its order, none longer than that. */
    static <T> List<List<T>> of(List<T> all, int most) {
        List<List<T>> portions = new ArrayList<>();
        for (int from = 0; from < all.size(); from += most) {
            portions.add(all.subList(from, Math.min(all.size(), from + most)));
        }
        return portions;
    }
}
