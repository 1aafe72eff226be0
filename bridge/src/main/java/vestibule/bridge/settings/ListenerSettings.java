package vestibule.bridge.settings;

import java.util.List;
import java.util.Optional;

/**
 * Where archives deliver commitment reports, and which may.
 *
 * @param port the TCP port; empty not to listen
 * @param address the address of this computer to listen on; unless said, the loopback address, which no other computer reaches
 * @param callers the AE titles that archives call from; empty for the title the archive is called by
 * @param tls whether callers must use TLS
 */
public record ListenerSettings(Optional<Integer> port, Optional<String> address, List<String> callers, boolean tls) {

    /** Nobody listens. */
    public static final ListenerSettings USUAL =
            new ListenerSettings(Optional.empty(), Optional.empty(), List.of(), false);

    public ListenerSettings {
        callers = List.copyOf(callers);
    }

    static ListenerSettings read(SettingsReader reader) {
        return new ListenerSettings(
                reader.number("listener.port", 1, 65_535),
                reader.value(
                        "listener.address",
                        text -> text.isBlank() ? Optional.empty() : Optional.of(text),
                        "an address of this computer"),
                reader.titles("listener.callers"),
                reader.flag("listener.tls", false));
    }
}
