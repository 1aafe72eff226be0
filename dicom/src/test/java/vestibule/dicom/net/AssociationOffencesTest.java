package vestibule.dicom.net;

import static org.assertj.core.api.Assertions.assertThat;
import static vestibule.dicom.net.ScriptedUse.AMPLE;
import static vestibule.dicom.net.ScriptedUse.echo;
import static vestibule.dicom.net.ScriptedUse.echoAnswer;
import static vestibule.dicom.net.ScriptedUse.failure;
import static vestibule.dicom.net.Wire.data;
import static vestibule.dicom.net.Wire.encoded;

import java.nio.charset.StandardCharsets;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.Timeout;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.net.AssociationException.ProtocolViolation;
import vestibule.dicom.net.pdu.Pdu;

@DisplayName("A requestor whose peer breaks the protocol (PS3.8 9.2, PS3.7 6.3.1)")
@Timeout(60)
class AssociationOffencesTest {

    private record Offence(String name, int abortCode, ScriptedPeer.Script script) {}

    private static ScriptedPeer.Script afterRequest(ScriptedPeer.Script script) {
        return wire -> {
            wire.accept();
            wire.readCommand();
            script.play(wire);
        };
    }

    @TestFactory
    @DisplayName("what the protocol does not allow is aborted with the reason, and told")
    Stream<DynamicTest> offences() {
        Command echo = Command.echo(1, Uids.VERIFICATION);
        return Stream.of(
                        new Offence("a web server's answer", 1, wire -> {
                            wire.read();
                            wire.bytes("HTTP/1.1 400 Bad Request\r\n\r\n".getBytes(StandardCharsets.US_ASCII));
                        }),
                        new Offence("an acceptance that declares 4 GB", 6, wire -> {
                            wire.read();
                            wire.hex("02 00 FFFFFFFF 00 01");
                        }),
                        new Offence("an item that reaches beyond its PDU", 6, wire -> {
                            wire.read();
                            wire.hex("02 00 0000004A 0001 0000" + "20".repeat(32) + "00".repeat(32)
                                    + "10 00 0003 31 32");
                        }),
                        new Offence("a request instead of an answer", 2, wire -> wire.write(wire.read())),
                        new Offence("data before the answer", 2, wire -> {
                            wire.read();
                            wire.write(data(1, true, true, echoAnswer()));
                        }),
                        new Offence("a peer that takes PDUs of five bytes", 6, wire -> wire.accept(5)),
                        new Offence(
                                "a second acceptance",
                                2,
                                afterRequest(wire ->
                                        wire.hex("02 00 00000044 0001 0000" + "20".repeat(32) + "00".repeat(32)))),
                        new Offence(
                                "data of more bytes than we take", 6, afterRequest(wire -> wire.hex("04 00 00030000"))),
                        new Offence(
                                "a value that reaches beyond its PDU",
                                6,
                                afterRequest(wire -> wire.hex("04 00 00000008 00000100 01 03 0000"))),
                        new Offence(
                                "a value of one byte",
                                6,
                                afterRequest(wire -> wire.hex("04 00 00000006 00000001 01 03"))),
                        new Offence("data without a value", 6, afterRequest(wire -> wire.hex("04 00 00000000"))),
                        new Offence(
                                "a presentation context that was not accepted",
                                6,
                                afterRequest(wire -> wire.write(data(3, true, true, echoAnswer())))),
                        new Offence(
                                "a data set without a command set",
                                6,
                                afterRequest(wire -> wire.write(data(1, false, true, echoAnswer())))),
                        new Offence(
                                "a command set of noise",
                                6,
                                afterRequest(wire -> wire.write(data(1, true, true, new byte[] {1, 2, 3, 4, 5})))),
                        new Offence(
                                "an empty command set",
                                6,
                                afterRequest(wire -> wire.write(data(1, true, true, new byte[0])))),
                        new Offence(
                                "a command set without a status",
                                6,
                                afterRequest(wire -> wire.write(data(
                                        1,
                                        true,
                                        true,
                                        encoded(new Command(echo.response(0, false).elements().toBuilder()
                                                .remove(Attributes.STATUS)
                                                .build())))))),
                        new Offence(
                                "an answer to another message",
                                6,
                                afterRequest(wire -> wire.write(data(
                                        1,
                                        true,
                                        true,
                                        encoded(Command.echo(2, Uids.VERIFICATION)
                                                .response(0, false)))))),
                        new Offence(
                                "a request while an answer is due",
                                6,
                                afterRequest(wire -> wire.write(data(1, true, true, encoded(echo))))),
                        new Offence("a command set that never ends", 6, afterRequest(wire -> {
                            for (int i = 0; i < 20; i++) {
                                wire.write(data(1, true, false, new byte[4096]));
                            }
                        })))
                .map(offence -> DynamicTest.dynamicTest(offence.name, () -> {
                    ProtocolViolation violation = failure(
                            ProtocolViolation.class,
                            AMPLE,
                            wire -> {
                                offence.script.play(wire);
                                assertThat(wire.untilClosed()).contains(new Pdu.Abort(2, offence.abortCode));
                            },
                            ScriptedUse::echo);
                    assertThat(violation).hasMessageStartingWith("SCRIPTED at 127.0.0.1");
                }));
    }
}
