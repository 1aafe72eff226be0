package vestibule.dicom.net.tls;

import java.io.IOException;
import java.nio.file.Path;
import java.security.AlgorithmParameters;
import java.security.GeneralSecurityException;
import java.security.KeyFactory;
import java.security.NoSuchAlgorithmException;
import java.security.PrivateKey;
import java.security.spec.InvalidKeySpecException;
import java.security.spec.PKCS8EncodedKeySpec;
import java.util.Optional;
import javax.crypto.Cipher;
import javax.crypto.EncryptedPrivateKeyInfo;
import javax.crypto.SecretKey;
import javax.crypto.SecretKeyFactory;
import javax.crypto.spec.PBEKeySpec;
import vestibule.dicom.net.tls.CredentialsException.Mistake;

/** Private keys in PEM: PKCS#8, plain or under a pass phrase (RFC 5958, RFC 8018). */
final class PrivateKeys {

    private static final String MAKE_PKCS8 = "; make it PKCS#8 with openssl pkcs8 -topk8 -in THAT-FILE -out NEW-FILE";

    private PrivateKeys() {}

    /**
     * @param certificate the file of the certificate it should belong to
     * @param algorithm of the public key it should belong to
     * @param own whether the file was named as that of the key
     */
    static PrivateKey read(
            CredentialFile file, Path certificate, String algorithm, Optional<char[]> passPhrase, boolean own)
            throws CredentialsException {
        for (PemFile.Block block : file.blocks()) {
            switch (block.label()) {
                case "PRIVATE KEY" -> {
                    return key(file, certificate, algorithm, new PKCS8EncodedKeySpec(block.bytes()));
                }
                case "ENCRYPTED PRIVATE KEY" -> {
                    return key(file, certificate, algorithm, decrypted(file, block.bytes(), passPhrase));
                }
                case "RSA PRIVATE KEY", "EC PRIVATE KEY", "DSA PRIVATE KEY", "OPENSSH PRIVATE KEY" ->
                    throw file.format("has a key in the older form “%s”".formatted(block.label()) + MAKE_PKCS8, null);
                default -> {
                    // Certificates and curve parameters stand beside keys
                }
            }
        }
        if (own && !file.isPem()) {
            throw file.format("holds no PEM key (BEGIN PRIVATE KEY)" + MAKE_PKCS8, null);
        }
        throw new CredentialsException(
                own ? Mistake.NOTHING_IN_IT : Mistake.INCOMPLETE,
                own
                        ? "%s has no private key in it; expected one as PKCS#8 in PEM (BEGIN PRIVATE KEY)"
                                .formatted(file.path())
                        : "%s has our certificate but not its key; name the key in tls.key".formatted(file.path()),
                null);
    }

    private static PrivateKey key(CredentialFile file, Path certificate, String algorithm, PKCS8EncodedKeySpec spec)
            throws CredentialsException {
        try {
            return KeyFactory.getInstance(algorithm).generatePrivate(spec);
        } catch (InvalidKeySpecException e) {
            throw isKeyOfAnyKind(spec)
                    ? OwnIdentity.otherKey(certificate, file.path(), e)
                    : file.format("has a private key that cannot be read; copy the file again", e);
        } catch (NoSuchAlgorithmException e) {
            throw file.format(
                    "belongs to a certificate with a key of the kind %s, which is not known here".formatted(algorithm),
                    e);
        }
    }

    private static boolean isKeyOfAnyKind(PKCS8EncodedKeySpec spec) {
        return isKey("RSA", spec) || isKey("EC", spec) || isKey("EdDSA", spec);
    }

    private static boolean isKey(String algorithm, PKCS8EncodedKeySpec spec) {
        try {
            return KeyFactory.getInstance(algorithm).generatePrivate(spec) != null;
        } catch (GeneralSecurityException notOfThatKind) {
            return false;
        }
    }

    private static PKCS8EncodedKeySpec decrypted(CredentialFile file, byte[] der, Optional<char[]> passPhrase)
            throws CredentialsException {
        if (passPhrase.isEmpty()) {
            throw file.noPassPhrase(null);
        }
        EncryptedPrivateKeyInfo info;
        AlgorithmParameters parameters;
        SecretKey secret;
        String scheme;
        try {
            info = new EncryptedPrivateKeyInfo(der);
            parameters = info.getAlgParameters();
            // For PBES2 the JDK 17 gives the whole scheme only as the text of the parameters
            scheme = info.getAlgName().startsWith("PBEWith") ? info.getAlgName() : String.valueOf(parameters);
            secret = SecretKeyFactory.getInstance(scheme).generateSecret(new PBEKeySpec(passPhrase.get()));
        } catch (IOException | GeneralSecurityException e) {
            throw file.format(
                    "is encrypted by a scheme that is not known here; encrypt it by openssl pkcs8 -topk8 -v2 aes256",
                    e);
        }
        try {
            Cipher cipher = Cipher.getInstance(scheme);
            cipher.init(Cipher.DECRYPT_MODE, secret, parameters);
            return info.getKeySpec(cipher);
        } catch (GeneralSecurityException e) {
            throw file.wrongPassPhrase(e);
        }
    }
}
