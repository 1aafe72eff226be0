package vestibule.dicom.data;

import java.math.BigInteger;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Optional;
import java.util.random.RandomGenerator;

/**
 * A unique identifier (PS3.5 9.1): digits in components parted by dots, 64 characters at most, no component with a leading zero.
 *
 * @param value the characters, without padding
 */
public record Uid(String value) {

    private static final int LONGEST = 64;

    /** @throws IllegalArgumentException if the text is no unique identifier; foreign text goes through {@link #parse} */
    public Uid {
        if (!isWellFormed(value)) {
            throw new IllegalArgumentException("no unique identifier: " + value);
        }
    }

    /** The identifier that the text is, if it is one. */
    public static Optional<Uid> parse(String text) {
        return isWellFormed(text) ? Optional.of(new Uid(text)) : Optional.empty();
    }

    /** Whether the text has the form of a unique identifier (PS3.5 9.1). */
    public static boolean isWellFormed(String text) {
        if (text.length() > LONGEST) {
            return false;
        }
        int start = 0;
        int components = 0;
        for (int i = 0; i <= text.length(); i++) {
            if (i == text.length() || text.charAt(i) == '.') {
                boolean leadingZero = i - start > 1 && text.charAt(start) == '0';
                if (i == start || leadingZero) {
                    return false;
                }
                components++;
                start = i + 1;
            } else if (text.charAt(i) < '0' || text.charAt(i) > '9') {
                return false;
            }
        }
        return components > 1;
    }

    /** As a record's own, without what that costs once in each program before its first use: the dictionary is a table by identifiers. */
    @Override
    public boolean equals(Object other) {
        return other instanceof Uid uid && value.equals(uid.value);
    }

    @Override
    public int hashCode() {
        return value.hashCode();
    }

    /** A new identifier under {@code 2.25.} from 122 random bits (PS3.5 B.2; ISO/IEC 9834-8, UUID version 4). */
    public static Uid random(RandomGenerator random) {
        return ofUuid(random.nextLong(), random.nextLong(), 4);
    }

    /**
     * The identifier under {@code 2.25.} that belongs to a name, the same one every time (PS3.5 B.2; ISO/IEC 9834-8, UUID version 5).
     *
     * @param namespace keeps names of different kinds apart
     * @param name anything; the whole text counts
     */
    public static Uid ofName(Uid namespace, String name) {
        MessageDigest digest = sha1();
        digest.update(namespace.value.getBytes(StandardCharsets.US_ASCII));
        digest.update((byte) 0);
        ByteBuffer hash = ByteBuffer.wrap(digest.digest(name.getBytes(StandardCharsets.UTF_8)));
        return ofUuid(hash.getLong(), hash.getLong(), 5);
    }

    private static MessageDigest sha1() {
        try {
            return MessageDigest.getInstance("SHA-1");
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java platform has SHA-1", e);
        }
    }

    private static Uid ofUuid(long high, long low, int version) {
        long versioned = (high & 0xFFFF_FFFF_FFFF_0FFFL) | ((long) version << 12);
        long variant = (low & 0x3FFF_FFFF_FFFF_FFFFL) | 0x8000_0000_0000_0000L;
        byte[] bits =
                ByteBuffer.allocate(16).putLong(versioned).putLong(variant).array();
        return new Uid("2.25." + new BigInteger(1, bits));
    }

    @Override
    public String toString() {
        return value;
    }
}
