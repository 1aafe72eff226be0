package vestibule.dicom.net.pdu;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import vestibule.dicom.data.Bulk;
import vestibule.dicom.io.DicomFormatException;

@DisplayName("Protocol data units (PS3.8 9.3)")
class PduCodecTest {

    /** Bytes typed from PS3.8 Tables 9-11 to 9-16 and PS3.7 Tables D.3-1 to D.3-14; words after two blanks are remarks. */
    private static byte[] hex(String text) {
        return HexFormat.of()
                .parseHex(text.replaceAll("(?m)\\s{2,}[A-Za-z(].*$", "").replaceAll("\\s", ""));
    }

    private static Pdu read(byte[] pdu) throws DicomFormatException {
        ByteBuffer all = ByteBuffer.wrap(pdu);
        int type = all.get(0);
        assertThat(all.getInt(2)).as("PDU length").isEqualTo(pdu.length - 6);
        return PduCodec.read(type, all.slice(6, pdu.length - 6));
    }

    private static byte[] written(Pdu pdu) {
        return PduCodec.write(pdu).array();
    }

    @Test
    @DisplayName("A-ASSOCIATE-RQ, byte for byte")
    void request() throws DicomFormatException {
        byte[] bytes = hex("""
                01 00 000000A0                                       A-ASSOCIATE-RQ
                0001 0000                                            protocol version
                41524348495645202020202020202020                     called
                56455354494255 4C45 20202020202020                   calling
                00000000000000000000000000000000                     reserved
                00000000000000000000000000000000                     reserved
                10 00 0015 312E322E3834302E31303030382E332E312E312E31  application context
                20 00 002E 01 00 00 00                               presentation context 1
                30 00 0011 312E322E3834302E31303030382E312E31        Verification
                40 00 0011 312E322E3834302E31303030382E312E32        Implicit VR Little Endian
                50 00 000D                                           user information
                51 00 0004 00020000                                  maximum length 131072
                52 00 0001 31                                        implementation class
                """);
        Pdu.AssociateRq expected = new Pdu.AssociateRq(
                1,
                "ARCHIVE         ",
                "VESTIBULE       ",
                "\0".repeat(32),
                "1.2.840.10008.3.1.1.1",
                List.of(new Pdu.ProposedItem(1, "1.2.840.10008.1.1", List.of("1.2.840.10008.1.2"))),
                UserInformation.of(131_072, "1", ""));
        assertThat(read(bytes)).isEqualTo(expected);
        assertThat(HexFormat.of().formatHex(written(expected)))
                .isEqualTo(HexFormat.of().formatHex(bytes));
    }

    @Test
    @DisplayName("every sub-item of user information, byte for byte (PS3.7 D.3.3)")
    void userInformation() throws DicomFormatException {
        byte[] accept = hex("""
                02 00 000000B0                                       A-ASSOCIATE-AC
                0001 0000
                41202020202020202020202020202020                     called
                42202020202020202020202020202020                     calling
                00000000000000000000000000000000
                00000000000000000000000000000000
                21 00 0008 03 00 04 00                               context 3, result 4
                40 00 0000                                           transfer syntax, not significant
                50 00 005C                                           user information
                51 00 0004 00004000                                  maximum length
                52 00 0003 312E32                                    implementation class
                53 00 0004 0001 0002                                 asynchronous operations window
                54 00 0007 0003 312E33 00 01                         role selection
                55 00 0001 56                                        implementation version
                56 00 0007 0003 312E34 01 02                         extended negotiation
                57 00 0012 0003 312E34 0003 312E35 0006 0004 312E3237  common extended negotiation
                58 00 0009 02 01 0001 75 0002 7077                   user identity
                59 00 0003 0001 21                                   user identity response
                """);
        Pdu.AssociateAc read = (Pdu.AssociateAc) read(accept);
        UserInformation user = new UserInformation(
                16_384,
                "1.2",
                "V",
                Optional.of(new UserInformation.AsynchronousWindow(1, 2)),
                List.of(new UserInformation.Role("1.3", false, true)),
                List.of(new UserInformation.Extended("1.4", Bulk.of(new byte[] {1, 2}))),
                List.of(new UserInformation.CommonExtended("1.4", "1.5", List.of("1.27"))),
                Optional.of(new UserInformation.Identity(2, true, ascii("u"), ascii("pw"))),
                Optional.of(ascii("!")));
        assertThat(read.contexts()).containsExactly(new Pdu.ResultItem(3, 4, ""));
        assertThat(read.user()).isEqualTo(user);
        assertThat(read.user().identity().orElseThrow()).asString().doesNotContain("pw");
        assertThat(read(written(read))).isEqualTo(read);
    }

    private static Bulk ascii(String text) {
        return Bulk.of(text.getBytes(StandardCharsets.US_ASCII));
    }

    @Test
    @DisplayName("the short PDUs, byte for byte")
    void shortPdus() throws DicomFormatException {
        assertThat(written(new Pdu.AssociateRj(1, 2, 3))).isEqualTo(hex("03 00 00000004 00 01 02 03"));
        assertThat(written(new Pdu.ReleaseRq())).isEqualTo(hex("05 00 00000004 00000000"));
        assertThat(written(new Pdu.ReleaseRp())).isEqualTo(hex("06 00 00000004 00000000"));
        assertThat(written(new Pdu.Abort(2, 6))).isEqualTo(hex("07 00 00000004 00 00 02 06"));
        assertThat(read(hex("03 FF 00000004 FF 01 02 03"))).isEqualTo(new Pdu.AssociateRj(1, 2, 3));
        assertThat(read(hex("05 FF 00000004 01020304"))).isEqualTo(new Pdu.ReleaseRq());
        assertThat(read(hex("06 00 00000004 00000000"))).isEqualTo(new Pdu.ReleaseRp());
        assertThat(read(hex("07 00 00000004 FF FF 00 05"))).isEqualTo(new Pdu.Abort(0, 5));
    }

    @Test
    @DisplayName("P-DATA-TF with two values of one PDU; bits 2 to 7 of the message control header are not tested")
    void data() throws DicomFormatException {
        Pdu.PData data = (Pdu.PData) read(hex("04 00 00000010 00000004 01 FF ABCD 00000004 03 FC 0102"));
        assertThat(data.values()).hasSize(2);
        assertThat(data.values().get(0)).isEqualTo(new Pdu.Pdv(1, true, true, ByteBuffer.wrap(new byte[] {
            (byte) 0xAB, (byte) 0xCD
        })));
        assertThat(data.values().get(1)).isEqualTo(new Pdu.Pdv(3, false, false, ByteBuffer.wrap(new byte[] {1, 2})));
        assertThat(written(data)).isEqualTo(hex("04 00 00000010 00000004 01 03 ABCD 00000004 03 00 0102"));
    }

    @Test
    @DisplayName("items and sub-items of unknown type are skipped, padding after identifiers is taken off")
    void unknownItems() throws DicomFormatException {
        Pdu.AssociateAc read = (Pdu.AssociateAc) read(hex("""
                02 00 00000063
                0001 0000
                41202020202020202020202020202020
                42202020202020202020202020202020
                00000000000000000000000000000000
                00000000000000000000000000000000
                10 00 0004 312E3200                                  application context with a NUL
                77 00 0003 010203                                    unknown item
                50 00 000C                                           user information
                7F 00 0002 0102                                      unknown sub-item
                52 00 0002 3120                                      implementation class with a space
                """));
        assertThat(read.applicationContext()).isEqualTo("1.2");
        assertThat(read.user().implementationClass()).isEqualTo("1");
        assertThat(read.user().maximumLength())
                .as("of a peer that says nothing")
                .isEqualTo(UserInformation.MAXIMUM_LENGTH_IF_ABSENT);
    }

    @ParameterizedTest(name = "{0}")
    @DisplayName("lengths that reach too far, and numbers that cannot be, are refused")
    @ValueSource(
            strings = {
                "20 00 FFFF 01000000",
                "20 00 0003 010000",
                "20 00 0004 02000000",
                "20 00 0004 01000000 20 00 0004 01000000",
                "50 00 0004 51 00 0003",
                "50 00 0007 51 00 0003 000000",
                "50 00 0008 54 00 0004 0009 3132",
                "50 00 0009 58 00 0005 01 01 0100 00",
                "50 00 000A 57 00 0006 0000 0000 0009",
                "50 00 0006 59 00 0002 0001",
                "10 00",
                "10"
            })
    void lengths(String items) {
        byte[] fixed = hex("0001 0000" + "20".repeat(32) + "00".repeat(32));
        byte[] rest = hex(items);
        ByteBuffer body = ByteBuffer.allocate(fixed.length + rest.length)
                .put(fixed)
                .put(rest)
                .flip();
        assertThatThrownBy(() -> PduCodec.read(1, body.duplicate())).isInstanceOf(DicomFormatException.class);
        assertThatThrownBy(() -> PduCodec.read(2, body.duplicate())).isInstanceOf(Exception.class);
    }

    @Test
    @DisplayName("a request of items without end is refused, not collected")
    void tooManyItems() {
        byte[] fixed = hex("0001 0000" + "20".repeat(32) + "00".repeat(32));
        ByteBuffer body = ByteBuffer.allocate(PduCodec.LONGEST_ASSOCIATE);
        body.put(fixed);
        while (body.remaining() >= 4) {
            body.putInt(0x77000000);
        }
        body.flip();
        assertThatThrownBy(() -> PduCodec.read(1, body))
                .isInstanceOf(DicomFormatException.class)
                .hasMessageContaining("items");
    }

    @Test
    @DisplayName("whatever decodes encodes and decodes to the same; whatever does not is refused by the one exception")
    void roundTrips() throws IOException {
        long seed = 20_261_125;
        Random random = new Random(seed);
        List<byte[]> samples = samples();
        int decoded = 0;
        for (int round = 0; round < 40_000; round++) {
            byte[] bytes = samples.get(random.nextInt(samples.size())).clone();
            for (int change = random.nextInt(4); change > 0; change--) {
                bytes[6 + random.nextInt(bytes.length - 6)] = (byte) random.nextInt(256);
            }
            int type = bytes[0];
            try {
                Pdu first = PduCodec.read(
                        type, ByteBuffer.wrap(bytes, 6, bytes.length - 6).slice());
                Pdu second = read(written(first));
                assertThat(second).as("round %d of seed %d", round, seed).isEqualTo(first);
                decoded++;
            } catch (DicomFormatException expected) {
                assertThat(expected.getMessage()).isNotBlank();
            }
        }
        assertThat(decoded).isGreaterThan(10_000);
    }

    private static List<byte[]> samples() {
        UserInformation user = new UserInformation(
                16_384,
                "1.2",
                "V",
                Optional.of(new UserInformation.AsynchronousWindow(1, 1)),
                List.of(new UserInformation.Role("1.3", true, true)),
                List.of(new UserInformation.Extended("1.4", Bulk.of(new byte[] {1, 2}))),
                List.of(new UserInformation.CommonExtended("1.4", "1.5", List.of("1.2", "1.6"))),
                Optional.of(new UserInformation.Identity(1, false, ascii("user"), Bulk.EMPTY)),
                Optional.of(ascii("ok")));
        String reserved = "\0".repeat(32);
        List<byte[]> samples = new ArrayList<>();
        samples.add(written(new Pdu.AssociateRq(
                1,
                "A               ",
                "B               ",
                reserved,
                "1.2",
                List.of(
                        new Pdu.ProposedItem(1, "1.3", List.of("1.4", "1.5")),
                        new Pdu.ProposedItem(3, "1", List.of("2"))),
                user)));
        samples.add(written(new Pdu.AssociateAc(
                1,
                "A               ",
                "B               ",
                reserved,
                "1.2",
                List.of(new Pdu.ResultItem(1, 0, "1.4"), new Pdu.ResultItem(3, 3, "")),
                user)));
        samples.add(written(new Pdu.PData(List.of(
                new Pdu.Pdv(1, true, true, ByteBuffer.wrap(new byte[20])),
                new Pdu.Pdv(1, false, true, ByteBuffer.wrap(new byte[8]))))));
        samples.add(written(new Pdu.AssociateRj(1, 1, 1)));
        return samples;
    }
}
