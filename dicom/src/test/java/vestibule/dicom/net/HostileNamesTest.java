package vestibule.dicom.net;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import vestibule.dicom.data.Uid;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.net.pdu.Pdu;
import vestibule.dicom.net.pdu.UserInformation;
import vestibule.dicom.service.ServiceProvider;
import vestibule.dicom.service.Status;
import vestibule.dicom.service.StorageProvider;

@DisplayName("Names from outside never become paths (PS3.4 B.2, PS3.5 9.1)")
@Timeout(60)
class HostileNamesTest {

    private static final int STORE = 1;

    @TempDir
    private Path folder;

    static Stream<String> names() {
        return Stream.of(
                "../../outside",
                "/outside",
                "1.2/../../outside",
                "1.2\u0000/../3",
                "..",
                ".",
                "~",
                "C:\\outside",
                "1.2.3.dcm",
                "-rf",
                "1..2");
    }

    private AssociationListener listening() throws IOException {
        Path incoming = Files.createDirectories(folder.resolve("in"));
        StorageProvider storage = new StorageProvider(
                List.of(Uids.VL_PHOTOGRAPHIC_IMAGE_STORAGE),
                List.of(Uids.JPEG_BASELINE8_BIT),
                incoming,
                1 << 20,
                object -> {
                    Files.move(
                            object.file(), incoming.resolve(object.sopInstance().value()));
                    return Status.SUCCESS;
                });
        return new ServiceProvider(List.of(storage))
                .listen(
                        new InetSocketAddress(InetAddress.getLoopbackAddress(), 0),
                        AcceptorSettings.of(new AeTitle("ARCHIVE"), List.of()));
    }

    private static Pdu.AssociateRq request() {
        return new Pdu.AssociateRq(
                1,
                "ARCHIVE",
                "US",
                "",
                Uids.DICOM_APPLICATION_CONTEXT.value(),
                List.of(new Pdu.ProposedItem(
                        STORE, Uids.VL_PHOTOGRAPHIC_IMAGE_STORAGE.value(), List.of(Uids.JPEG_BASELINE8_BIT.value()))),
                UserInformation.of(16_384, "1.2.3", "CALLER"));
    }

    /** Our writer refuses such names, so the bytes of a good one are replaced by those of the hostile one, filled up to an even length. */
    private static byte[] named(String name, CommandMaker maker) throws IOException {
        byte[] hostile = name.getBytes(StandardCharsets.US_ASCII);
        int length = Math.max(4, hostile.length + hostile.length % 2);
        String good = "1." + "1".repeat(length - 2);
        String bytes = new String(Wire.encoded(maker.naming(new Uid(good))), StandardCharsets.ISO_8859_1);
        int at = bytes.lastIndexOf(good);
        String filled = name + "\u0000".repeat(length - hostile.length);
        return (bytes.substring(0, at) + filled + bytes.substring(at + length)).getBytes(StandardCharsets.ISO_8859_1);
    }

    private interface CommandMaker {
        Command naming(Uid instance);
    }

    private static int answer(Wire wire, int context, byte[] command) throws IOException {
        wire.write(Wire.data(context, true, true, command));
        wire.write(Wire.data(context, false, true, new byte[100]));
        return new Command(wire.readCommand()).status();
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("names")
    void objects_of_such_names_are_refused_and_leave_nothing(String name) throws IOException {
        try (AssociationListener listener = listening();
                Wire wire = new Wire(new Socket(
                        InetAddress.getLoopbackAddress(), listener.address().getPort()))) {
            wire.write(request());
            assertThat(wire.read()).isInstanceOf(Pdu.AssociateAc.class);
            byte[] store = named(name, instance -> Command.store(1, Uids.VL_PHOTOGRAPHIC_IMAGE_STORAGE, instance));
            assertThat(answer(wire, STORE, store)).isEqualTo(Status.MALFORMED_SOP_INSTANCE);
            assertThat(files()).isEmpty();
            byte[] good = Wire.encoded(Command.store(3, Uids.VL_PHOTOGRAPHIC_IMAGE_STORAGE, new Uid("2.25.1")));
            assertThat(answer(wire, STORE, good)).as("the association stands").isEqualTo(Status.SUCCESS);
            assertThat(files()).containsExactly(folder.resolve("in").resolve("2.25.1"));
        }
    }

    private List<Path> files() throws IOException {
        try (Stream<Path> all = Files.walk(folder)) {
            return all.filter(Files::isRegularFile).toList();
        }
    }
}
