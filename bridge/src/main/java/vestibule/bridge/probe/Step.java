package vestibule.bridge.probe;

/**
 * One step of the way to an archive.
 *
 * @param part which one
 * @param result what became of it
 * @param sentence what was found, and what to change
 * @param needed whether photographs can be stored without it
 */
public record Step(Part part, Result result, String sentence, boolean needed) {

    /** The steps, in their order. */
    public enum Part {
        NAME("name", true),
        CONNECTION("connection", true),
        TLS("TLS", true),
        ASSOCIATION("association", true),
        ECHO("echo", true),
        PHOTOGRAPHS("photographs", true),
        UNPACKED("unpacked photographs", false),
        IMPLICIT("photographs in implicit VR", false),
        QUERY("query", false),
        WORKLIST("worklist", false),
        TEST_OBJECT("test object", true),
        COMMITMENT("commitment", false),
        WAY_BACK("way back", false);

        private final String words;
        private final boolean needed;

        Part(String words, boolean needed) {
            this.words = words;
            this.needed = needed;
        }

        /** As reports name it. */
        public String words() {
            return words;
        }
    }

    /** What became of a step. */
    public enum Result {
        PASSED("passed"),
        FAILED("failed"),
        /** The archive said at the start that it has no such service, which is no fault of the link. */
        NOT_OFFERED("not offered"),
        NOT_ASKED("not asked");

        private final String words;

        Result(String words) {
            this.words = words;
        }

        /** As reports name it. */
        public String words() {
            return words;
        }
    }

    static Step of(Part part, Result result, String sentence) {
        return new Step(part, result, sentence, part.needed);
    }

    /** Whether photographs cannot be stored because of it. */
    public boolean stops() {
        return needed && result == Result.FAILED;
    }
}
