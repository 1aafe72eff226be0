package vestibule.dicom.io;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Arrays;
import java.util.List;
import java.util.zip.Deflater;
import java.util.zip.DeflaterOutputStream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Element;
import vestibule.dicom.data.Tag;
import vestibule.dicom.data.VR;
import vestibule.dicom.data.Value;
import vestibule.samples.Hex;

@DisplayName("What the reader forgives and notes, settles afterwards, or bounds")
class ForgivenTest {

    private static final String NATIVE = "0800 6000 \"CS\" 0200 \"XC\" E07F 1000 \"OB\" 0000 02000000 0102 ";

    @TempDir
    private Path folder;

    private DicomFile read(String hex) throws IOException {
        return DicomFile.read(Files.write(folder.resolve("file.dcm"), Hex.read(hex)));
    }

    private static List<ReadNote.Kind> kinds(DicomFile file) {
        return file.notes().stream()
                .map(ReadNote::kind)
                .filter(kind -> kind != ReadNote.Kind.NO_PREAMBLE && kind != ReadNote.Kind.NO_TRANSFER_SYNTAX)
                .toList();
    }

    @ParameterizedTest
    @DisplayName("bytes after pixel data that start no element are noted, and the image is read")
    @ValueSource(
            strings = {
                "00",
                "0A",
                "0D0A",
                "\"-----BEGIN SOMETHING-----\"",
                "FEFF 0DE0 00000000",
                "0800 6000 \"CS\" 0200 \"XC\"",
                "00000000 00000000 00000000 00000000 00"
            })
    void trailingBytes(String after) throws IOException {
        DicomFile file = read(NATIVE + after);
        assertThat(kinds(file)).containsExactly(ReadNote.Kind.TRAILING_BYTES);
        assertThat(file.notes().get(file.notes().size() - 1).offset()).isEqualTo(Hex.read(NATIVE).length);
        assertThat(file.dataSet()).hasSize(2);
    }

    @Test
    @DisplayName("zeros are noted after any element, other bytes before the pixel data are damage and refused")
    void zeros() throws IOException {
        String header = "0800 6000 \"CS\" 0200 \"XC\" ";
        assertThat(kinds(read(header + "00".repeat(5000)))).containsExactly(ReadNote.Kind.TRAILING_BYTES);
        assertThatThrownBy(() -> read(header + "00".repeat(5000) + "01")).isInstanceOf(DicomFormatException.class);
        assertThatThrownBy(() -> read(header + "2000 1000")).isInstanceOf(DicomFormatException.class);
    }

    @Test
    @DisplayName(
            "an element after the pixel data is read like any other, and pixel data cut short is no trailing matter")
    void elementsAfterPixels() throws IOException {
        DicomFile file = read(NATIVE + "FCFF FCFF \"OB\" 0000 04000000 00000000");
        assertThat(kinds(file)).isEmpty();
        assertThat(file.dataSet()).hasSize(3);
        assertThatThrownBy(() -> read("0800 6000 \"CS\" 0200 \"XC\" E07F 1000 \"OB\" 0000 04000000 0102"))
                .isInstanceOf(DicomFormatException.class)
                .hasMessageContaining("a length of 4 bytes");
    }

    @Test
    @DisplayName("after a deflated data set one byte of padding is as it should be, more is noted (PS3.5 A.5)")
    void afterDeflated() throws IOException {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        bytes.writeBytes(HandAssembled.file("0200 1000 \"UI\" 1600 \"1.2.840.10008.1.2.1.99\""));
        try (DeflaterOutputStream deflater = new DeflaterOutputStream(bytes, new Deflater(9, true))) {
            deflater.write(Hex.read("0800 6000 \"CS\" 0200 \"XC\""));
        }
        Path file = Files.write(folder.resolve("deflated.dcm"), bytes.toByteArray());
        assertThat(DicomFile.read(file).notes()).isEmpty();
        bytes.write(0);
        Files.write(file, bytes.toByteArray());
        assertThat(DicomFile.read(file).notes()).isEmpty();
        bytes.write(7);
        Files.write(file, bytes.toByteArray());
        assertThat(DicomFile.read(file).notes())
                .extracting(ReadNote::kind)
                .containsExactly(ReadNote.Kind.TRAILING_BYTES);
    }

    @Test
    @DisplayName(
            "US or SS in Implicit VR follows Pixel Representation, of its own data set or of the one around it, wherever it stands")
    void pixelRepresentation() throws IOException {
        // (0018,9810) Zero Velocity Pixel Value stands before, (0028,0106) behind (0028,0103); (0028,3002) in an item
        String item = "2800 0230 06000000 0001 00FF 1000";
        String whole = """
                1800 1098 02000000 FFFF
                2800 0301 02000000 0100
                2800 0601 02000000 FEFF
                2800 0030 16000000 FEFF 00E0 0E000000 %s
                """.formatted(item);
        DataSet dataSet = DataSetCodec.decode(Hex.read(whole), TransferSyntax.IMPLICIT_VR_LITTLE_ENDIAN);
        assertThat(dataSet.find(Tag.of(0x0018, 0x9810)).orElseThrow().vr()).isEqualTo(VR.SS);
        assertThat(values(dataSet, 0x0018, 0x9810)).containsExactly(-1L);
        assertThat(values(dataSet, 0x0028, 0x0106)).containsExactly(-2L);
        assertThat(values(dataSet, 0x0028, 0x0103)).containsExactly(1L);
        DataSet lut = ((Value.Items)
                        dataSet.find(Tag.of(0x0028, 0x3000)).orElseThrow().value())
                .all()
                .get(0);
        assertThat(values(lut, 0x0028, 0x3002)).containsExactly(256L, -256L, 16L);
        assertThat(DataSetCodec.encode(
                        dataSet, TransferSyntax.IMPLICIT_VR_LITTLE_ENDIAN, DataSetCodec.Strictness.QUERY))
                .isEqualTo(Hex.read(whole));
        DataSet unsigned = DataSetCodec.decode(
                Hex.read(whole.replace("2800 0301 02000000 0100", "2800 0301 02000000 0000")),
                TransferSyntax.IMPLICIT_VR_LITTLE_ENDIAN);
        assertThat(values(unsigned, 0x0028, 0x0106)).containsExactly(0xFFFEL);
    }

    private static List<Long> values(DataSet dataSet, int group, int element) {
        return ((Value.Integers)
                        dataSet.find(Tag.of(group, element)).orElseThrow().value())
                .all();
    }

    @Test
    @DisplayName("a private element is found by its creator, in whichever block that has reserved (PS3.5 7.8.1)")
    void privateBlocks() throws IOException {
        DataSet dataSet = DataSetCodec.decode(Hex.read("""
                        1100 1000 "LO" 0600 "OTHER "
                        1100 2200 "LO" 0400 "ACME"
                        1100 0110 "SH" 0200 "a "
                        1100 0122 "SH" 0200 "b "
                        """), TransferSyntax.EXPLICIT_VR_LITTLE_ENDIAN);
        Element found = dataSet.findPrivate(0x0011, "ACME", 0x01).orElseThrow();
        assertThat(found.value()).isEqualTo(new Value.Texts(List.of("b")));
        assertThat(dataSet.findPrivate(0x0011, "NOBODY", 0x01)).isEmpty();
        DataSet more = dataSet.toBuilder()
                .putPrivate(0x0011, "ACME", 0x02, VR.SH, new Value.Texts(List.of("c")))
                .putPrivate(0x0011, "NEW", 0x01, VR.SH, new Value.Texts(List.of("d")))
                .build();
        assertThat(more.find(Tag.of(0x0011, 0x2202))).isPresent();
        assertThat(more.find(Tag.of(0x0011, 0x0011)).orElseThrow().value()).isEqualTo(new Value.Texts(List.of("NEW")));
        assertThat(more.findPrivate(0x0011, "NEW", 0x01).orElseThrow().tag()).isEqualTo(Tag.of(0x0011, 0x1101));
    }

    @Test
    @DisplayName("a private element that no creator has reserved is not written into an object")
    void unreserved() {
        DataSet dataSet = DataSet.builder()
                .put(new Element(Tag.of(0x0011, 0x1001), VR.SH, new Value.Texts(List.of("x"))))
                .build();
        assertThatThrownBy(() -> DataSetCodec.encode(
                        dataSet, TransferSyntax.EXPLICIT_VR_LITTLE_ENDIAN, DataSetCodec.Strictness.OBJECT))
                .isInstanceOf(DicomFormatException.class)
                .hasMessageContaining("no private creator");
    }

    @Test
    @DisplayName("reading ends when its time is over")
    void time() {
        Limits hurried = new Limits(64, 200_000, 4 << 20, 64 << 20, 32 << 20, 100_000, Duration.ofNanos(1));
        byte[] bytes = Hex.read("0800 6000 \"CS\" 0000 ".repeat(1000));
        assertThatThrownBy(() -> DataSetCodec.decode(bytes, TransferSyntax.EXPLICIT_VR_LITTLE_ENDIAN, hurried))
                .isInstanceOf(DicomFormatException.class)
                .hasMessageContaining("not read after");
    }

    @Test
    @DisplayName("128 levels of items are one level too many for whoever counts them, and a typed error")
    void depth() {
        String level = "0800 1511 \"SQ\" 0000 FFFFFFFF FEFF 00E0 FFFFFFFF ";
        String end = "FEFF 0DE0 00000000 FEFF DDE0 00000000 ";
        byte[] bytes = Hex.read(level.repeat(128) + end.repeat(128));
        assertThatThrownBy(() -> DataSetCodec.decode(bytes, TransferSyntax.EXPLICIT_VR_LITTLE_ENDIAN))
                .isInstanceOf(DicomFormatException.class)
                .hasMessageContaining("nested deeper than 64");
    }

    @ParameterizedTest
    @DisplayName("what is held stays below twice the file and 16 MB, whatever the file is made of")
    @ValueSource(
            strings = {
                "0800 6000 \"CS\" 0000",
                "0800 6000 \"CS\" 0200 5C5C",
                "2800 1000 \"US\" 0200 0102",
                "2800 1000 \"US\" F0FF",
                "0800 6000 \"CS\" F0FF",
                "1000 1000 \"PN\" 0200 \"a \"",
                "0900 0110 \"UN\" 0000 02000000 0000"
            })
    void memory(String element) throws IOException {
        byte[] one = Hex.read(element);
        int declared = (one[6] & 0xFF) | (one[7] & 0xFF) << 8;
        int value = one.length == 8 ? declared : one.length - 8;
        ByteArrayOutputStream items = new ByteArrayOutputStream();
        byte[] filling = new byte[value];
        Arrays.fill(filling, (byte) (element.startsWith("0800") ? 0x5C : 0x31));
        int count = 0;
        while (items.size() < 3 << 20 && count < 190_000) {
            int length = 8 + value;
            items.writeBytes(new byte[] {(byte) 0xFE, (byte) 0xFF, 0, (byte) 0xE0});
            items.writeBytes(
                    new byte[] {(byte) length, (byte) (length >> 8), (byte) (length >> 16), (byte) (length >> 24)});
            items.write(one, 0, 8);
            items.writeBytes(one.length == 8 ? filling : Arrays.copyOfRange(one, 8, one.length));
            count += 2;
        }
        ByteArrayOutputStream file = new ByteArrayOutputStream();
        file.writeBytes(Hex.read("0800 6000 \"CS\" 0200 \"XC\" 0800 1511 \"SQ\" 0000 FFFFFFFF"));
        items.writeTo(file);
        file.writeBytes(Hex.read("FEFF DDE0 00000000"));
        Path path = Files.write(folder.resolve("large.dcm"), file.toByteArray());
        int size = file.size();
        long before = used();
        Object held;
        try {
            held = DicomFile.read(path);
        } catch (DicomFormatException refused) {
            assertThat(refused).hasMessageContaining("fill the memory");
            held = refused;
        }
        assertThat(used() - before).as("held for %d bytes", size).isLessThan(2L * size + (16 << 20));
        assertThat(held).isNotNull();
    }

    /** What is in use once nothing is left to collect. */
    private static long used() {
        for (int i = 0; i < 3; i++) {
            System.gc();
        }
        Runtime runtime = Runtime.getRuntime();
        return runtime.totalMemory() - runtime.freeMemory();
    }
}
