package vestibule.samples.drawing;

/** What a surface is made of. */
@FunctionalInterface
interface Material {
    /** Fills in colour, shine and opacity of the spot, and may roughen its normal; opacity 0 cuts a hole. */
    void paint(Fragment spot);

    /** Whether it leaves holes where it gives opacity 0. */
    default boolean cuts() {
        return false;
    }
}
