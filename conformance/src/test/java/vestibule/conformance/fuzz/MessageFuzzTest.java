package vestibule.conformance.fuzz;

import static org.assertj.core.api.Assertions.assertThat;

import com.code_intelligence.jazzer.junit.FuzzTest;
import java.io.IOException;
import java.nio.ByteBuffer;
import org.junit.jupiter.api.DisplayName;
import vestibule.dicom.io.DataSetCodec;
import vestibule.dicom.io.DicomFormatException;
import vestibule.dicom.io.TransferSyntax;
import vestibule.dicom.net.Command;
import vestibule.dicom.net.CommandField;
import vestibule.dicom.net.pdu.Pdu;
import vestibule.dicom.net.pdu.PduCodec;

@DisplayName("Fuzz: protocol data units and commands")
class MessageFuzzTest {

    private static final int HEADER = 6;

    @FuzzTest
    @DisplayName("a PDU is read or refused; written again it is the same")
    void pdu(byte[] bytes) {
        if (bytes.length == 0) {
            return;
        }
        int type = 1 + (bytes[0] & 0xFF) % 7;
        try {
            Pdu pdu = PduCodec.read(
                    type, ByteBuffer.wrap(bytes, 1, bytes.length - 1).slice());
            if (pdu instanceof Pdu.PData) {
                // Data goes out by another way, fragment by fragment
                return;
            }
            ByteBuffer written = PduCodec.write(pdu);
            written.position(written.position() + HEADER);
            assertThat(PduCodec.read(type, written.slice())).isEqualTo(pdu);
        } catch (DicomFormatException refused) {
            assertThat(refused).hasMessageNotContaining("null");
        }
    }

    @FuzzTest
    @DisplayName("a command set is read or refused; what is read can be asked everything and answered")
    void command(byte[] bytes) throws IOException {
        Command command;
        try {
            command = Command.received(DataSetCodec.decode(bytes, TransferSyntax.IMPLICIT_VR_LITTLE_ENDIAN));
        } catch (DicomFormatException refused) {
            assertThat(refused).hasMessageNotContaining("null");
            return;
        }
        assertThat(command.toString()).isNotEmpty();
        command.sopClass();
        command.sopInstance();
        assertThat(command.comment()).isNotNull();
        assertThat(command.hasDataSet()).isIn(true, false);
        if (command.field().isResponse()) {
            assertThat(command.status()).isBetween(0, 0xFFFF);
        } else if (command.field() == CommandField.C_CANCEL_RQ) {
            assertThat(command.respondedTo()).isBetween(0, 0xFFFF);
        } else {
            Command answer = command.response(0, false).withComment(command.comment());
            DataSetCodec.encode(
                    answer.elements(), TransferSyntax.IMPLICIT_VR_LITTLE_ENDIAN, DataSetCodec.Strictness.OBJECT);
        }
    }
}
