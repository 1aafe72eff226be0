package vestibule.bridge.patient;

import java.time.Instant;

/** Why we believe that somebody is on a photograph: what was said, when, and where it stands. */
public sealed interface Evidence {

    /** Whom it names. */
    Identity who();

    /** When it was made or read. */
    Instant at();

    /** Where it stands, without naming anybody: the hash of a card's frame, a pattern, a list, who said it. */
    String origin();

    /** What sort it is, in the words of decisions and reports. */
    String kind();

    /** Whether a machine wrote it, so that no slip of a hand is in it. */
    default boolean written() {
        return true;
    }

    /** A card with our own code, photographed. */
    record PatientCard(Identity who, Instant at, String origin) implements Evidence {
        @Override
        public String kind() {
            return "patient-card";
        }
    }

    /** A code with nothing but an id, photographed. */
    record BareCode(Identity who, Instant at, String origin) implements Evidence {
        @Override
        public String kind() {
            return "id-code";
        }
    }

    /** The name of the file or of a folder it lies in. */
    record FileName(Identity who, Instant at, String origin) implements Evidence {
        @Override
        public String kind() {
            return "file-name";
        }

        @Override
        public boolean written() {
            return false;
        }
    }

    /** A text that the camera wrote into the file. */
    record CameraText(Identity who, Instant at, String origin) implements Evidence {
        @Override
        public String kind() {
            return "camera-text";
        }

        @Override
        public boolean written() {
            return false;
        }
    }

    /** An entry of a list or an archive that knows the person. */
    record Listed(Identity who, Instant at, String origin, Source source) implements Evidence {
        @Override
        public String kind() {
            return source.word();
        }
    }

    /** The word of a person. */
    record Said(Identity who, Instant at, String origin) implements Evidence {
        @Override
        public String kind() {
            return "person";
        }
    }

    /** Who knows patients. */
    enum Source {
        ARCHIVE("archive"),
        WORKLIST("worklist"),
        DAY_LIST("day-list");

        private final String word;

        Source(String word) {
            this.word = word;
        }

        /** The word that decisions and reports use. */
        public String word() {
            return word;
        }
    }
}
