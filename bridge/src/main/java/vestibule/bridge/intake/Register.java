package vestibule.bridge.intake;

import java.io.IOException;
import java.util.List;
import java.util.Optional;

/** Who remembers what was taken in. Whatever returns is remembered for good. */
public interface Register {

    /** What the source is called. */
    String source();

    /** Hears what lies in the source at a look, all of it, before any of it is told of: it may be another memory card than at the last one. */
    void lies(List<Listing.Entry> files) throws IOException;

    /** Whether a photograph of that length has been taken in; if so, its bytes may be known. */
    boolean knowsLength(long bytes) throws IOException;

    /** Whether our copy of the photograph of that hash is recorded, and was never found damaged; else it is copied anew. */
    boolean keeps(String photo) throws IOException;

    /**
     * Remembers a file whose bytes are safe with us.
     *
     * @param seen what a glance saw of the photograph
     * @return whether the photograph is new
     */
    boolean taken(Listing.Entry file, String photo, Optional<String> seen) throws IOException;

    /** Remembers that a file which could not be read for a while is no photograph, and so no patient card. */
    void noCard(Listing.Entry file) throws IOException;

    /** Remembers a file that was not taken in, and why. */
    void leftBehind(Listing.Entry file, String sentence) throws IOException;

    /** Remembers a file that lies there and could not be read yet, and that may be a patient card. */
    void unread(Listing.Entry file) throws IOException;

    /** Forgets files that are no longer there; their photographs stay. */
    void gone(List<String> names) throws IOException;

    /** The names that lay in the source at the last look. */
    List<String> names() throws IOException;

    /** Remembers that a look reached everything and that no file is still awaited. */
    void looked() throws IOException;

    /** Remembers why a look did not reach everything. */
    void trouble(String sentence) throws IOException;
}
