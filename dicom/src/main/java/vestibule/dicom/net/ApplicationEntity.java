package vestibule.dicom.net;

import java.util.Optional;
import vestibule.dicom.net.tls.Tls;

/**
 * Where an application entity is found and what it is called (PS3.8 7.1.1).
 *
 * @param title the title to call it by
 * @param host name or address of its machine
 * @param port TCP port, 1 to 65535
 * @param tls with what to secure the connection; empty for plain TCP
 */
public record ApplicationEntity(AeTitle title, String host, int port, Optional<Tls> tls) {
    public ApplicationEntity {
        if (host.isBlank() || port < 1 || port > 65_535) {
            throw new IllegalArgumentException(
                    "host “%s”, port %d: a name and 1 to 65535 are needed".formatted(host, port));
        }
    }

    /** One that is reached by plain TCP. */
    public ApplicationEntity(AeTitle title, String host, int port) {
        this(title, host, port, Optional.empty());
    }

    /** This one, reached by TLS. */
    public ApplicationEntity withTls(Tls credentials) {
        return new ApplicationEntity(title, host, port, Optional.of(credentials));
    }

    /** Title and address, as sentences about the peer name it: {@code ARCHIVE at localhost:11112}. */
    @Override
    public String toString() {
        return "%s at %s:%d".formatted(title, host, port);
    }
}
