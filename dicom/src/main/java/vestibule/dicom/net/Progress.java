package vestibule.dicom.net;

import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.util.List;
import vestibule.dicom.net.tls.TlsFacts;

/** Hears how far the way to a peer has come, before there is an association. What fails is told by the exception instead. */
public interface Progress {

    /** Nobody listens. */
    Progress UNHEARD = new Progress() {};

    /** The name of the host was resolved. */
    default void resolved(List<InetAddress> addresses) {}

    /** The transport connection stands. */
    default void connected(InetSocketAddress address) {}

    /** The TLS handshake succeeded. */
    default void secured(TlsFacts facts) {}
}
