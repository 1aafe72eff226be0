package vestibule.dicom.net;

import java.nio.charset.StandardCharsets;
import vestibule.dicom.data.Bulk;

/**
 * Who the requestor's user is (PS3.7 D.3.3.7).
 *
 * @param type what kind of proof is given
 * @param responseWanted whether the acceptor is asked to answer
 * @param primary name, ticket, assertion or token
 * @param secondary the passcode; empty for other types
 */
public record UserIdentity(Type type, boolean responseWanted, Bulk primary, Bulk secondary) {

    /** The kinds of identity, numbered from 1 (PS3.7 Table D.3-14). */
    public enum Type {
        NAME,
        NAME_AND_PASSCODE,
        KERBEROS_TICKET,
        SAML_ASSERTION,
        JSON_WEB_TOKEN
    }

    /** A user name alone. */
    public static UserIdentity named(String name) {
        return new UserIdentity(Type.NAME, false, utf8(name), Bulk.EMPTY);
    }

    /** A user name with a passcode; it travels as it is, so the connection should be encrypted. */
    public static UserIdentity withPasscode(String name, String passcode) {
        return new UserIdentity(Type.NAME_AND_PASSCODE, false, utf8(name), utf8(passcode));
    }

    /** A ticket, assertion or token, with a wish for an answer. */
    public static UserIdentity of(Type type, Bulk proof) {
        return new UserIdentity(type, true, proof, Bulk.EMPTY);
    }

    /** This identity with a wish for an answer, which tells an acceptor that looked at it from one that did not (PS3.7 D.3.3.7.1). */
    public UserIdentity answered() {
        return new UserIdentity(type, true, primary, secondary);
    }

    private static Bulk utf8(String text) {
        return Bulk.of(text.getBytes(StandardCharsets.UTF_8));
    }

    /** The type only: names and passcodes do not belong in logs. */
    @Override
    public String toString() {
        return "user identity by " + type;
    }
}
