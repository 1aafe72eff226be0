package vestibule.dicom.net;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static vestibule.dicom.net.Wire.encoded;

import java.io.IOException;
import java.time.Duration;
import java.util.List;
import vestibule.dicom.dict.Uids;

/** One use of an association against a scripted peer, and how it must fail. */
final class ScriptedUse {

    private ScriptedUse() {}

    static final Deadlines SHORT = Deadlines.all(Duration.ofMillis(300));
    static final Deadlines AMPLE = Deadlines.all(Duration.ofSeconds(15));
    static final AssociationRequest ECHO = AssociationRequest.of(
            new AeTitle("US"), List.of(ProposedContext.of(Uids.VERIFICATION, Uids.IMPLICIT_VR_LITTLE_ENDIAN)));

    interface Use {
        void use(Association association) throws IOException;
    }

    static <T extends AssociationException> T failure(
            Class<T> type, Deadlines deadlines, ScriptedPeer.Script script, Use use) throws IOException {
        try (ScriptedPeer peer = ScriptedPeer.playing(script)) {
            return catchThrowableOfType(type, () -> {
                try (Association association = Association.open(ECHO, peer.entity(), deadlines)) {
                    use.use(association);
                }
            });
        }
    }

    static <T extends AssociationException> T openingFails(
            Class<T> type, Deadlines deadlines, ScriptedPeer.Script script) throws IOException {
        return failure(
                type,
                deadlines,
                script,
                association -> assertThat(association).as("no association").isNull());
    }

    static void echo(Association association) throws IOException {
        NegotiatedContext context = association.accepted(Uids.VERIFICATION).orElseThrow();
        Command request = Command.echo(association.nextMessageId(), Uids.VERIFICATION);
        association.send(context, request);
        assertThat(association.answerTo(request).command().status()).isZero();
    }

    static byte[] echoAnswer() throws IOException {
        return encoded(Command.echo(1, Uids.VERIFICATION).response(0, false));
    }
}
