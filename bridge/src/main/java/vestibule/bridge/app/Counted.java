package vestibule.bridge.app;

/** A number of things, in words that fit the number. */
final class Counted {

    private Counted() {}

    /** As {@code 1 photograph} or {@code 2 photographs}. */
    static String of(long number, String thing) {
        return number + " " + thing + (number == 1 ? "" : "s");
    }
}
