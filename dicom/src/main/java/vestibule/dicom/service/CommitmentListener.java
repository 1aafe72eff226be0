package vestibule.dicom.service;

import java.io.IOException;
import java.net.InetSocketAddress;
import java.util.List;
import java.util.Set;
import java.util.function.Consumer;
import vestibule.dicom.net.AcceptorSettings;
import vestibule.dicom.net.AeTitle;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.AssociationListener;

/**
 * The door of a practice for commitment reports: archives that are named may deliver them, and nothing else is offered to anybody. It is
 * the way back of commitment (PS3.4 J.3.3), where an archive answers on an association of its own.
 */
public final class CommitmentListener implements AutoCloseable {

    private final AssociationListener listener;

    private CommitmentListener(AssociationListener listener) {
        this.listener = listener;
    }

    /**
     * Starts to listen.
     *
     * @param address where; port 0 for any free one
     * @param settings our title, limits and credentials; contexts and callers are replaced
     * @param archives the titles that archives call from; all others are rejected
     * @param reports keeps what comes, called by several threads
     * @param turnedAway hears of callers that got no association, or lost it
     * @throws IOException if the address cannot be listened on
     */
    public static CommitmentListener open(
            InetSocketAddress address,
            AcceptorSettings settings,
            Set<AeTitle> archives,
            CommitmentReceiver.Handler reports,
            Consumer<IOException> turnedAway)
            throws IOException {
        if (archives.isEmpty()) {
            throw new IllegalArgumentException("a commitment listener serves archives that are named, at least one");
        }
        ServiceProvider services = new ServiceProvider(List.of(new CommitmentReceiver(reports)));
        AssociationListener.Server server = new AssociationListener.Server() {
            @Override
            public void serve(Association association) throws IOException {
                services.serve(association);
            }

            @Override
            public void endedEarly(IOException why) {
                turnedAway.accept(why);
            }
        };
        return new CommitmentListener(AssociationListener.open(
                address, settings.withCallers(archives).withContexts(services.contexts()), server));
    }

    /** Where it listens. */
    public InetSocketAddress address() {
        return listener.address();
    }

    /** Ends; a report that is being kept is answered before. */
    @Override
    public void close() {
        listener.close();
    }
}
