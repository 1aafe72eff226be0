package vestibule.dicom.net.tls;

import java.net.Socket;
import java.security.Principal;
import java.security.PrivateKey;
import java.security.cert.X509Certificate;
import java.util.Optional;
import javax.net.ssl.SSLEngine;
import javax.net.ssl.X509ExtendedKeyManager;
import org.jspecify.annotations.Nullable;

/**
 * Shows our one certificate where it fits, and remembers whether the peer asked for it. It is shown to a peer even if the peer's list of
 * authorities lacks ours: the refusal then has a name, silence has none.
 */
final class OwnKeys extends X509ExtendedKeyManager {

    private static final String ALIAS = "own";

    private final Optional<OwnIdentity> identity;
    private boolean asked;

    OwnKeys(Optional<OwnIdentity> identity) {
        this.identity = identity;
    }

    /** Whether the peer asked who we are. */
    boolean wasAsked() {
        return asked;
    }

    boolean isEmpty() {
        return identity.isEmpty();
    }

    private @Nullable String alias(String... keyTypes) {
        boolean fits = identity.isPresent()
                && java.util.Arrays.stream(keyTypes)
                        .anyMatch(type -> type.startsWith(identity.get().key().getAlgorithm()));
        return fits ? ALIAS : null;
    }

    @Override
    public @Nullable String chooseEngineClientAlias(
            String[] keyTypes, Principal @Nullable [] issuers, @Nullable SSLEngine engine) {
        asked = true;
        return alias(keyTypes);
    }

    @Override
    public @Nullable String chooseEngineServerAlias(
            String keyType, Principal @Nullable [] issuers, @Nullable SSLEngine engine) {
        return alias(keyType);
    }

    @Override
    public @Nullable String chooseClientAlias(
            String[] keyTypes, Principal @Nullable [] issuers, @Nullable Socket socket) {
        return chooseEngineClientAlias(keyTypes, issuers, null);
    }

    @Override
    public @Nullable String chooseServerAlias(String keyType, Principal @Nullable [] issuers, @Nullable Socket socket) {
        return alias(keyType);
    }

    @Override
    public String @Nullable [] getClientAliases(String keyType, Principal @Nullable [] issuers) {
        return alias(keyType) == null ? null : new String[] {ALIAS};
    }

    @Override
    public String @Nullable [] getServerAliases(String keyType, Principal @Nullable [] issuers) {
        return getClientAliases(keyType, issuers);
    }

    @Override
    public X509Certificate @Nullable [] getCertificateChain(String alias) {
        return identity.map(own -> own.chain().toArray(X509Certificate[]::new)).orElse(null);
    }

    @Override
    public @Nullable PrivateKey getPrivateKey(String alias) {
        return identity.map(OwnIdentity::key).orElse(null);
    }
}
