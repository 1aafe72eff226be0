package vestibule.bridge.delivery;

import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import vestibule.dicom.data.TextForm;
import vestibule.dicom.data.VR;
import vestibule.dicom.net.AeTitle;
import vestibule.dicom.net.ApplicationEntity;
import vestibule.dicom.net.tls.Tls;

/**
 * An archive as the command line names it: {@code dicom://HOST:PORT/CALLED_AE}, or {@code dicoms} for TLS.
 *
 * @param host name or address; an IPv6 address without its brackets
 * @param port TCP port
 * @param calledAe the archive's application entity title
 * @param tls with what to secure the connection; empty for {@code dicom}
 */
public record Destination(String host, int port, String calledAe, Optional<Tls> tls) {

    private static final Pattern URL =
            Pattern.compile("(dicoms?)://(\\[[0-9A-Fa-f:.]+\\]|[^/:\\[\\]]+):([0-9]{1,5})/([^/]+)");

    /**
     * Reads a URL.
     *
     * @throws DestinationException if it is not of that form; the message says what is
     */
    public static Destination parse(String url) throws DestinationException {
        Matcher form = URL.matcher(url);
        if (!form.matches()) {
            throw new DestinationException(
                    "%s: expected dicom://HOST:PORT/CALLED_AE, or dicoms:// for TLS, as dicom://127.0.0.1:11112/ARCHIVE"
                            .formatted(url));
        }
        int port = Integer.parseInt(form.group(3));
        if (port < 1 || port > 65_535) {
            throw new DestinationException("%s: the port is %d, expected 1 to 65535".formatted(url, port));
        }
        String title = form.group(4);
        if (TextForm.problem(VR.AE, title).isPresent()) {
            throw new DestinationException(
                    "%s: the called AE title has %d characters, expected 1 to 16 printable ones without backslash"
                            .formatted(url, title.length()));
        }
        String host = form.group(2).replace("[", "").replace("]", "");
        Optional<Tls> tls = form.group(1).equals("dicoms") ? Optional.of(Tls.usual()) : Optional.empty();
        return new Destination(host, port, title, tls);
    }

    /** Whether it is reached by TLS. */
    public boolean isSecure() {
        return tls.isPresent();
    }

    /** This one, reached by TLS with those credentials. */
    public Destination withTls(Tls credentials) {
        return new Destination(host, port, calledAe, Optional.of(credentials));
    }

    /** The archive as the network sees it. */
    public ApplicationEntity entity() {
        return new ApplicationEntity(new AeTitle(calledAe), host, port, tls);
    }

    /** The URL. */
    @Override
    public String toString() {
        return "%s://%s:%d/%s"
                .formatted(
                        isSecure() ? "dicoms" : "dicom",
                        host.indexOf(':') < 0 ? host : "[" + host + "]",
                        port,
                        calledAe);
    }
}
