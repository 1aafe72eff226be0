package vestibule.dicom.net.tls;

import java.net.InetAddress;
import java.net.UnknownHostException;
import java.security.cert.CertificateParsingException;
import java.security.cert.X509Certificate;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Date;
import java.util.List;
import javax.security.auth.x500.X500Principal;

/** Certificates in words. What they say comes from outside, so it is cut short and has no control characters. */
final class CertificateWords {

    private static final int LONGEST = 120;
    private static final int MOST_NAMES = 6;
    private static final int DNS_NAME = 2;
    private static final int IP_ADDRESS = 7;

    private CertificateWords() {}

    static String subject(X509Certificate certificate) {
        return quoted(certificate.getSubjectX500Principal());
    }

    static String issuer(X509Certificate certificate) {
        return quoted(certificate.getIssuerX500Principal());
    }

    private static String quoted(X500Principal principal) {
        return "“%s”".formatted(clean(principal.getName()));
    }

    private static String clean(String text) {
        String plain = text.replaceAll("\\p{Cntrl}", "?");
        return plain.length() > LONGEST ? plain.substring(0, LONGEST) + "…" : plain;
    }

    static String day(Date moment) {
        return DateTimeFormatter.ISO_LOCAL_DATE.format(moment.toInstant().atZone(ZoneOffset.UTC));
    }

    /** The hosts that a certificate is for (RFC 5280 4.2.1.6); where it has no such list, nobody believes its common name for an address. */
    static String hosts(X509Certificate certificate) {
        List<String> names = new ArrayList<>();
        try {
            Collection<List<?>> all = certificate.getSubjectAlternativeNames();
            for (List<?> name : all == null ? List.<List<?>>of() : all) {
                boolean host = name.get(0).equals(DNS_NAME) || name.get(0).equals(IP_ADDRESS);
                if (host && names.size() < MOST_NAMES) {
                    names.add(clean(readable(String.valueOf(name.get(1)))));
                }
            }
        } catch (CertificateParsingException e) {
            return "names that cannot be read (" + e.getMessage() + ")";
        }
        return names.isEmpty() ? subject(certificate) + ", without alternative names" : String.join(", ", names);
    }

    /** The JDK writes IPv6 addresses out in full. */
    private static String readable(String name) {
        try {
            return name.indexOf(':') < 0 ? name : InetAddress.getByName(name).getHostAddress();
        } catch (UnknownHostException e) {
            return name;
        }
    }
}
