package vestibule.dicom.jpeg;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayOutputStream;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

@DisplayName("A JPEG stream")
class JpegTest {
    private static Jpeg read(byte[] stream) throws JpegFormatException {
        return Jpeg.read(stream, JpegLimits.DEFAULT);
    }

    private static void refused(byte[] stream, String... words) {
        assertThatThrownBy(() -> read(stream))
                .isInstanceOf(JpegFormatException.class)
                .hasMessageStartingWith("At byte ")
                .hasMessageContainingAll(words);
    }

    private static StreamBuilder greyHead() {
        return StreamBuilder.start()
                .quantization(0, 1)
                .frame(0xC0, 8, 8, 8, 1, 0x11, 0)
                .tinyHuffman(0);
    }

    private static byte[] essential(byte[] stream) throws JpegFormatException {
        ByteArrayOutputStream kept = new ByteArrayOutputStream();
        for (ByteRange range : read(stream).essential().ranges()) {
            kept.write(stream, (int) range.offset(), (int) range.length());
        }
        return kept.toByteArray();
    }

    @Test
    @DisplayName("of one grey block is read, and is fit for JPEG Baseline")
    void greyBlock() throws Exception {
        Jpeg jpeg = read(StreamBuilder.greyBlock());

        assertThat(jpeg.frame()).isEqualTo(new Frame(FrameType.BASELINE, 8, 8, 8, List.of(new Component(1, 1, 1, 0))));
        assertThat(jpeg.color().coding()).isEqualTo(ColorCoding.GREY);
        assertThat(jpeg.fitness().hindrances()).isEmpty();
        assertThat(jpeg.notes()).isEmpty();
        assertThat(jpeg.trailingBytes()).isZero();
        assertThat(jpeg.essential().ranges()).containsExactly(new ByteRange(0, jpeg.length()));
    }

    @Test
    @DisplayName("loses comments, application segments, bytes between segments and bytes after EOI, and nothing else")
    void essentialBytes() throws Exception {
        byte[] full = StreamBuilder.start()
                .jfif()
                .application(1, "Exif\0\0", 'M', 'M')
                .segment(0xFE, 'h', 'i')
                .raw(0xFF, 0xFF)
                .segment(0xFE)
                .raw(1, 2, 3)
                .quantization(0, 1)
                .raw(0xFF)
                .frame(0xC0, 8, 8, 8, 1, 0x11, 0)
                .tinyHuffman(0)
                .application(7, "anything")
                .scan(1)
                .data(0x3F, 0xFF)
                .raw(0xFF, 0xD9, 'm', 'o', 'r', 'e')
                .bytes();
        byte[] bare = StreamBuilder.start()
                .quantization(0, 1)
                .raw(0xFF)
                .frame(0xC0, 8, 8, 8, 1, 0x11, 0)
                .tinyHuffman(0)
                .scan(1)
                .data(0x3F, 0xFF)
                .end();

        assertThat(essential(full)).isEqualTo(bare);
        assertThat(read(full).notes()).hasSize(2);
        assertThat(read(full).trailingBytes()).isEqualTo(4);
    }

    @Test
    @DisplayName("gives the first Exif block with its identifier")
    void exifBlock() throws Exception {
        byte[] stream = greyHead()
                .application(1, "Exif\0\0", 'I', 'I', 42, 0)
                .application(1, "Exif\0\0", 'M', 'M')
                .scan(1)
                .data(0x3F)
                .end();

        assertThat(read(stream).exifBlock().orElseThrow()).containsExactly('E', 'x', 'i', 'f', 0, 0, 'I', 'I', 42, 0);
        assertThat(read(stream).count(SegmentKind.EXIF)).isEqualTo(2);
    }

    @Test
    @DisplayName("may have fill bytes before a marker (T.81 B.1.1.2)")
    void fillBytes() throws Exception {
        Jpeg jpeg = read(greyHead().scan(1).data(0x3F, 0xFF, 0xFF).end());

        Segment last = jpeg.segments().get(jpeg.segments().size() - 1);
        assertThat(last.fillBytes()).isEqualTo(2);
        assertThat(jpeg.scans().get(0).data().length()).isEqualTo(1);
        assertThat(jpeg.notes()).isEmpty();
    }

    @Test
    @DisplayName("that is empty, or another kind of file, is no JPEG")
    void noJpeg() {
        refused(new byte[0], "byte 0", "no SOI marker");
        refused(new byte[] {(byte) 0x89, 'P', 'N', 'G'}, "no SOI marker");
    }

    @Test
    @DisplayName("cut at any byte is refused")
    void cutAnywhere() {
        byte[] whole = StreamBuilder.greyBlock();
        for (int length = 0; length < whole.length; length++) {
            refused(Arrays.copyOf(whole, length), "JPEG stream");
        }
    }

    @Test
    @DisplayName("with any one byte changed is read or refused, and nothing else happens")
    void oneByteChanged() throws Exception {
        byte[] whole = StreamBuilder.greyBlock();
        int read = 0;
        for (int at = 0; at < whole.length; at++) {
            for (int value = 0; value < 256; value++) {
                byte[] changed = whole.clone();
                changed[at] = (byte) value;
                try {
                    assertThat(read(changed).fitness()).isNotNull();
                    read++;
                } catch (JpegFormatException refused) {
                    assertThat(refused).hasMessageStartingWith("At byte ");
                }
            }
        }
        assertThat(read).isGreaterThan(whole.length);
    }

    @Test
    @DisplayName("whose frame leaves the height to a DNL segment is refused (T.81 B.2.5)")
    void heightFromDnl() {
        refused(StreamBuilder.start().frame(0xC0, 8, 0, 8, 1, 0x11, 0).end(), "0 lines", "DNL");
    }

    @Test
    @DisplayName("with a DNL segment that repeats the height is read, with another height refused")
    void repeatedHeight() throws Exception {
        assertThat(read(greyHead().scan(1).data(0x3F).segment(0xDC, 0, 8).end()).has(SegmentKind.NUMBER_OF_LINES))
                .isTrue();
        refused(greyHead().scan(1).data(0x3F).segment(0xDC, 0, 9).end(), "9 lines", "8");
    }

    @Test
    @DisplayName("that declares more pixels than the limit is refused before its data is looked at")
    void tooManyPixels() {
        refused(StreamBuilder.start().frame(0xC0, 8, 65500, 65500, 1, 0x11, 0).bytes(), "65500 x 65500", "limit");
    }

    @Test
    @DisplayName("that declares more pixels than its data can hold is refused")
    void bomb() {
        byte[] bomb = StreamBuilder.start()
                .quantization(0, 1)
                .frame(0xC0, 8, 8000, 8000, 1, 0x11, 0)
                .tinyHuffman(0)
                .scan(1)
                .data(0, 0, 0, 0)
                .end();

        refused(bomb, "4 bytes of data", "at least 250000");
    }

    @ParameterizedTest
    @ValueSource(ints = {0x02, 0xBF, 0xC8, 0xD8, 0xF0, 0xF7, 0xFD})
    @DisplayName("with a marker that has no place in a T.81 picture is refused")
    void strangeMarker(int marker) {
        refused(greyHead().segment(marker, 1, 2).scan(1).data(0x3F).end(), String.format("FF%02X", marker));
    }

    @Test
    @DisplayName("whose segment length is below 2 or beyond the file is refused")
    void segmentLengths() {
        refused(StreamBuilder.start().raw(0xFF, 0xFE, 0, 1, 0xFF, 0xD9).bytes(), "COM", "length of 1");
        refused(StreamBuilder.start().raw(0xFF, 0xE1, 0xFF, 0xFF, 0xFF, 0xD9).bytes(), "APP1", "65535", "only 4");
    }

    @Test
    @DisplayName("without a frame or without a scan is refused")
    void nothingInIt() {
        refused(StreamBuilder.start().end(), "before it had a frame");
        refused(greyHead().end(), "before it had a scan");
        refused(StreamBuilder.start().tinyHuffman(0).scan(1).data(0x3F).end(), "frame header was expected first");
    }

    @Test
    @DisplayName("with two frames is refused, unless it is hierarchical")
    void twoFrames() throws Exception {
        refused(greyHead().frame(0xC0, 8, 8, 8, 1, 0x11, 0).scan(1).data(0x3F).end(), "second frame");
        Jpeg hierarchical = read(greyHead()
                .scan(1)
                .data(0x3F)
                .frame(0xC5, 8, 8, 8, 1, 0x11, 0)
                .scan(1)
                .data(0x3F)
                .end()
                .clone());
        assertThat(hierarchical.hierarchical()).isTrue();
        assertThat(hierarchical.frameCount()).isEqualTo(2);
    }

    @Test
    @DisplayName("whose frame header contradicts itself is refused (T.81 B.2.2)")
    void frameHeaders() {
        refused(StreamBuilder.start().frame(0xC0, 12, 8, 8, 1, 0x11, 0).end(), "12 bits", "baseline");
        refused(StreamBuilder.start().frame(0xC0, 8, 8, 0, 1, 0x11, 0).end(), "0 samples per line");
        refused(StreamBuilder.start().frame(0xC0, 8, 8, 8, 1, 0x51, 0).end(), "5x1");
        refused(StreamBuilder.start().frame(0xC0, 8, 8, 8, 1, 0x10, 0).end(), "1x0");
        refused(StreamBuilder.start().frame(0xC0, 8, 8, 8, 1, 0x11, 4).end(), "quantization table 4");
        refused(
                StreamBuilder.start()
                        .frame(0xC0, 8, 8, 8, 1, 0x11, 0, 1, 0x11, 0)
                        .end(),
                "identifier 1");
        refused(StreamBuilder.start().frame(0xC0, 8, 8, 8).end(), "0 components");
        refused(StreamBuilder.start().segment(0xC0, 8, 0, 8, 0, 8, 1, 1, 0x11).end(), "8 bytes", "9");
    }

    @Test
    @DisplayName("whose scan header contradicts the frame is refused (T.81 B.2.3)")
    void scanHeaders() {
        refused(greyHead().scan(2).data(0x3F).end(), "names the component 2");
        refused(greyHead().scan().data(0x3F).end(), "0 components");
        refused(greyHead().segment(0xDA, 1, 1, 0x40, 0, 63, 0).data(0x3F).end(), "tables 4 and 0");
        refused(StreamBuilder.start().colorFrame(1, 2, 3).scan(1, 2, 2).data(0).end(), "component 2 twice");
        refused(
                StreamBuilder.start()
                        .frame(0xC0, 8, 8, 8, 1, 0x42, 0, 2, 0x21, 0, 3, 0x11, 0)
                        .scan(1, 2, 3)
                        .data(0)
                        .end(),
                "11 blocks",
                "10");
    }

    @Test
    @DisplayName("whose scans leave a component out, or code it twice, is refused")
    void coverage() {
        StreamBuilder two =
                StreamBuilder.start().quantization(0, 1).colorFrame(1, 2, 3).tinyHuffman(0);
        refused(two.scan(1, 2).data(0x0F).end(), "without a scan of component 3");
        refused(greyHead().scan(1).data(0x3F).scan(1).data(0x3F).end(), "second time");
    }

    @Test
    @DisplayName("whose progression skips a step is refused (T.81 G.1.1.1)")
    void progressions() {
        StreamBuilder acFirst = StreamBuilder.start().frame(0xC2, 8, 8, 8, 1, 0x11, 0);
        refused(acFirst.scanWith(1, 5, 0, 1).data(0).end(), "DC coefficients were expected first");
        StreamBuilder refinement = StreamBuilder.start().frame(0xC2, 8, 8, 8, 1, 0x11, 0);
        refused(refinement.scanWith(0, 0, 0x10, 1).data(0).end(), "out of its order");
        StreamBuilder band = StreamBuilder.start().frame(0xC2, 8, 8, 8, 1, 0x11, 0);
        refused(band.scanWith(0, 5, 0, 1).data(0).end(), "Ss 0, Se 5");
    }

    @Test
    @DisplayName("with tables of a wrong shape is refused (T.81 B.2.4)")
    void tables() {
        int[] crowded = new int[17 + 3];
        crowded[1] = 3;
        refused(StreamBuilder.start().segment(0xC4, crowded).end(), "more codes of some length");
        int[] allOnes = new int[17 + 2];
        allOnes[1] = 2;
        refused(StreamBuilder.start().segment(0xC4, allOnes).end(), "more codes of some length");
        int[] announced = new int[17 + 1];
        announced[2] = 2;
        refused(StreamBuilder.start().segment(0xC4, announced).end(), "announces 2 codes and 1 bytes");
        int[] category = new int[17 + 1];
        category[1] = 1;
        category[17] = 17;
        refused(StreamBuilder.start().segment(0xC4, category).end(), "category 17");
        refused(StreamBuilder.start().segment(0xC4, 0x20, 0).end(), "class 2");
        refused(StreamBuilder.start().quantization(0, 0).end(), "is 0");
        refused(StreamBuilder.start().quantization(4, 1).end(), "destination 4");
        refused(StreamBuilder.start().segment(0xDB, 0, 1, 1).end(), "2 bytes", "64");
    }

    @Test
    @DisplayName("whose restart markers are missing or out of order is refused (T.81 E.1.4)")
    void restarts() throws Exception {
        StreamBuilder head = StreamBuilder.start().quantization(0, 1).frame(0xC0, 8, 8, 24, 1, 0x11, 0);
        byte[] start = head.tinyHuffman(0).segment(0xDD, 0, 1).scan(1).bytes();

        byte[] good = append(start, 0x3F, 0xFF, 0xD0, 0x3F, 0xFF, 0xD1, 0x3F, 0xFF, 0xD9);
        assertThat(read(good).scans().get(0).restarts()).isEqualTo(2);
        assertThat(read(good).restartInterval()).isEqualTo(1);
        refused(append(start, 0x3F, 0xFF, 0xD1, 0x3F, 0xFF, 0xD0, 0x3F, 0xFF, 0xD9), "RST1", "RST0");
        refused(append(start, 0x3F, 0x3F, 0x3F, 0xFF, 0xD9), "0 restart markers", "2 were expected");
        byte[] oneMore = append(start, 0x3F, 0xFF, 0xD0, 0x3F, 0xFF, 0xD1, 0x3F, 0xFF, 0xD2, 0xFF, 0xD9);
        assertThat(read(oneMore).notes()).hasSize(1);
    }

    private static byte[] append(byte[] start, int... more) {
        return new StreamBuilder().raw(unsigned(start)).raw(more).bytes();
    }

    private static int[] unsigned(byte[] bytes) {
        int[] values = new int[bytes.length];
        for (int index = 0; index < bytes.length; index++) {
            values[index] = bytes[index] & 0xFF;
        }
        return values;
    }
}
