package vestibule.bridge.app;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.UnknownHostException;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import vestibule.bridge.delivery.Destination;
import vestibule.bridge.probe.Wishes;
import vestibule.bridge.settings.ListenerSettings;
import vestibule.bridge.settings.Settings;
import vestibule.dicom.net.AeTitle;
import vestibule.dicom.net.tls.Tls;

/** Where commitment reports come in on associations that the archive opens, the same for the service and for its rehearsal by {@code probe}. */
final class WayBack {

    private WayBack() {}

    /** The way back of the settings, if they name a port. */
    static Optional<Wishes.Listener> of(Settings settings, Destination archive) throws Failure, IOException {
        Optional<Integer> port = settings.listener().port();
        return port.isPresent() ? Optional.of(of(settings, archive, port.get())) : Optional.empty();
    }

    /** The same on that port. */
    static Wishes.Listener of(Settings settings, Destination archive, int port) throws Failure, IOException {
        ListenerSettings listener = settings.listener();
        Optional<Tls> tls = listener.tls() ? Optional.of(Credentials.server(settings.tls())) : Optional.empty();
        List<String> callers = listener.callers().isEmpty() ? List.of(archive.calledAe()) : listener.callers();
        return new Wishes.Listener(
                address(listener, port), callers.stream().map(AeTitle::new).collect(Collectors.toSet()), tls);
    }

    private static InetSocketAddress address(ListenerSettings listener, int port) throws Failure {
        if (listener.address().isEmpty()) {
            return new InetSocketAddress(InetAddress.getLoopbackAddress(), port);
        }
        try {
            return new InetSocketAddress(
                    InetAddress.getByName(listener.address().get()), port);
        } catch (UnknownHostException e) {
            throw new Failure(
                    Exit.WRONG_SETTINGS,
                    "listener.address is %s, which is no address of this computer; write \"0.0.0.0\" to listen on all."
                            .formatted(listener.address().get()));
        }
    }
}
