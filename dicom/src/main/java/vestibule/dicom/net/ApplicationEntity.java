package vestibule.dicom.net;

/**
 * Where an application entity is found and what it is called (PS3.8 7.1.1).
 *
 * @param title the title to call it by
 * @param host name or address of its machine
 * @param port TCP port, 1 to 65535
 */
public record ApplicationEntity(AeTitle title, String host, int port) {
    public ApplicationEntity {
        if (host.isBlank() || port < 1 || port > 65_535) {
            throw new IllegalArgumentException(
                    "host “%s”, port %d: a name and 1 to 65535 are needed".formatted(host, port));
        }
    }

    /** Title and address, as sentences about the peer name it: {@code ARCHIVE at localhost:11112}. */
    @Override
    public String toString() {
        return "%s at %s:%d".formatted(title, host, port);
    }
}
