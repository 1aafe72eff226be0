package vestibule.validator;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import vestibule.dicom.data.Attribute;
import vestibule.dicom.data.Bulk;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Element;
import vestibule.dicom.data.VR;
import vestibule.dicom.data.Value;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.io.TransferSyntax;

/** For each rule of pixels, stream and privacy, a file that breaks it. */
final class StreamExamples {

    private static final int APP0 = 0xE0;
    private static final int APP2 = 0xE2;
    private static final int COMMENT = 0xFE;

    private StreamExamples() {}

    static void addTo(Map<String, Example> all) {
        addPacking(all);
        addStream(all);
        addDecoded(all);
        addProfile(all);
        addPrivacy(all);
    }

    private static DataSet fragments(List<Long> offsets, byte[]... fragments) {
        return Photographs.good().toBuilder()
                .put(new Element(
                        Attributes.PIXEL_DATA.tag(),
                        VR.OB,
                        new Value.Fragments(
                                offsets, Arrays.stream(fragments).map(Bulk::of).toList())))
                .build();
    }

    private static DataSet stream(byte[] stream) {
        return Photographs.withPixels(Photographs.good(), stream);
    }

    private static DataSet with(Attribute attribute, long value) {
        return Photographs.good().toBuilder().put(attribute, value).build();
    }

    private static DataSet nativePixels(int bytes) {
        return Photographs.good().toBuilder()
                .put(Attributes.PIXEL_DATA, Bulk.of(new byte[bytes]))
                .put(Attributes.PHOTOMETRIC_INTERPRETATION, "RGB")
                .build();
    }

    private static void addPacking(Map<String, Example> all) {
        byte[] good = TinyJpeg.colour();
        int half = good.length / 4 * 2;
        all.put("JPG-001", Example.of(nativePixels(768)));
        all.put("JPG-002", Example.of(fragments(List.of())));
        all.put(
                "JPG-003",
                Example.of(
                        fragments(List.of(), Arrays.copyOf(good, half), Arrays.copyOfRange(good, half, good.length))));
        all.put("JPG-004", Example.of(fragments(List.of(8L), good)));
        all.put("JPG-005", Example.of(nativePixels(700), TransferSyntax.EXPLICIT_VR_LITTLE_ENDIAN));
        all.put(
                "JPG-006",
                Example.of(Photographs.good().toBuilder()
                        .put(Attributes.ENCAPSULATED_PIXEL_DATA_VALUE_TOTAL_LENGTH, 12L)
                        .build()));
        all.put("JPG-010", Example.of(stream(Arrays.copyOf(good, good.length - 8))));
        all.put("JPG-011", StreamExamples::writeLong);
    }

    /** A fragment of more than 512 MiB that takes no room on the disk. */
    private static void writeLong(Path file) throws IOException {
        DataSet without =
                Photographs.good().toBuilder().remove(Attributes.PIXEL_DATA).build();
        RawWriter.write(file, without, TransferSyntax.JPEG_BASELINE);
        int length = (512 << 20) + 2;
        ByteBuffer start = ByteBuffer.allocate(28).order(ByteOrder.LITTLE_ENDIAN);
        start.putShort((short) 0x7FE0).putShort((short) 0x0010).put("OB".getBytes(StandardCharsets.US_ASCII));
        start.putShort((short) 0)
                .putInt(-1)
                .putInt(0xE000FFFE)
                .putInt(0)
                .putInt(0xE000FFFE)
                .putInt(length);
        ByteBuffer end = ByteBuffer.allocate(8)
                .order(ByteOrder.LITTLE_ENDIAN)
                .putInt(0xE0DDFFFE)
                .putInt(0);
        try (RandomAccessFile target = new RandomAccessFile(file.toFile(), "rw")) {
            target.seek(Files.size(file));
            target.write(start.array());
            target.seek(target.getFilePointer() + length);
            target.write(end.array());
        }
    }

    private static void addStream(Map<String, Example> all) {
        all.put("JPG-012", Example.of(stream(TinyJpeg.colour(0xC1, 16, 16))));
        all.put("JPG-013", Example.of(with(Attributes.ROWS, 17)));
        all.put("JPG-014", Example.of(with(Attributes.COLUMNS, 15)));
        all.put("JPG-015", Example.of(with(Attributes.SAMPLES_PER_PIXEL, 1)));
        all.put("JPG-016", Example.of(with(Attributes.BITS_STORED, 7)));
        // Adobe, transform 0: the components are RGB
        byte[] rgb = {'A', 'd', 'o', 'b', 'e', 0, 100, 0, 0, 0, 0, 0};
        all.put("JPG-017", Example.of(stream(TinyJpeg.colourWith(0xEE, rgb))));
        all.put("JPG-018", Example.of(stream(TinyJpeg.abbreviated())));
        all.put("JPG-019", Example.of(stream(longer(TinyJpeg.colour(), 40))));
        all.put("JPG-020", Example.of(stream(TinyJpeg.colourAfter(new byte[] {1, 2}))));
        all.put("JPG-021", Example.of(stream(TinyJpeg.colourWith(ExifSegment.APP1, ExifSegment.orientation(6)))));
        all.put(
                "JPG-022",
                Example.of(stream(TinyJpeg.colourWith(APP2, chunk(profile("mntr", "RGB ")))).toBuilder()
                        .put(Attributes.ICC_PROFILE, Bulk.of(profile("scnr", "RGB ")))
                        .build()));
        all.put(
                "JPG-023",
                Example.of(Photographs.good().toBuilder()
                        .put(Attributes.LOSSY_IMAGE_COMPRESSION_METHOD, "ISO_15444_1")
                        .build()));
        all.put(
                "JPG-024",
                Example.of(stream(TinyJpeg.colour(0xC0, 512, 512)).toBuilder()
                        .put(Attributes.ROWS, 512)
                        .put(Attributes.COLUMNS, 512)
                        .put(Attributes.LOSSY_IMAGE_COMPRESSION_RATIO, "7.2")
                        .build()));
    }

    private static void addDecoded(Map<String, Example> all) {
        all.put("JPG-035", Example.of(stream(TinyJpeg.colour(0xC9, 16, 16))));
        all.put("JPG-036", Example.of(stream(TinyJpeg.colourAndMore(new byte[] {1, 2, 3}))));
        all.put(
                "JPG-025",
                Example.of(Photographs.good().toBuilder()
                        .put(Attributes.PHOTOMETRIC_INTERPRETATION, "RGB")
                        .build()));
    }

    private static byte[] longer(byte[] stream, int by) {
        return Arrays.copyOf(stream, stream.length + by);
    }

    private static void addProfile(Map<String, Example> all) {
        all.put("JPG-030", Example.of(profiled(new byte[200])));
        all.put("JPG-031", Example.of(profiled(profile("mntr", "RGB "))));
        all.put("JPG-032", Example.of(profiled(profile("scnr", "CMYK"))));
        byte[] secondOfTwo = chunk(profile("mntr", "RGB "));
        secondOfTwo[12] = 2;
        secondOfTwo[13] = 2;
        all.put("JPG-033", Example.of(stream(TinyJpeg.colourWith(APP2, secondOfTwo))));
        all.put("JPG-034", Example.of(stream(TinyJpeg.colourWith(APP2, chunk(profile("mntr", "RGB "))))));
    }

    private static DataSet profiled(byte[] profile) {
        return Photographs.good().toBuilder()
                .put(Attributes.ICC_PROFILE, Bulk.of(profile))
                .build();
    }

    /** The header of an ICC profile (ICC.1 7.2) and an empty table of tags. */
    private static byte[] profile(String deviceClass, String space) {
        ByteBuffer profile = ByteBuffer.allocate(132);
        profile.putInt(132).position(12);
        profile.put((deviceClass + space + "XYZ ").getBytes(StandardCharsets.US_ASCII));
        profile.position(36);
        profile.put("acsp".getBytes(StandardCharsets.US_ASCII));
        return profile.array();
    }

    /** One chunk of one (ICC.1 Annex B.4). */
    private static byte[] chunk(byte[] profile) {
        return ByteBuffer.allocate(14 + profile.length)
                .put("ICC_PROFILE\0".getBytes(StandardCharsets.US_ASCII))
                .put((byte) 1)
                .put((byte) 1)
                .put(profile)
                .array();
    }

    private static void addPrivacy(Map<String, Example> all) {
        all.put("PRV-001", segment(ExifSegment.APP1, ExifSegment.position()));
        all.put("PRV-002", segment(ExifSegment.APP1, ExifSegment.tag(0xA431)));
        all.put("PRV-003", segment(ExifSegment.APP1, ExifSegment.tag(0x927C)));
        all.put("PRV-004", segment(ExifSegment.APP1, ExifSegment.thumbnail()));
        all.put("PRV-005", segment(COMMENT, ascii("taken in room 2")));
        all.put("PRV-006", segment(APP2, ascii("MPF\0II*\0")));
        all.put("PRV-007", segment(ExifSegment.APP1, ascii("http://ns.adobe.com/xap/1.0/\0<x/>")));
        all.put("PRV-008", segment(ExifSegment.APP1, ExifSegment.tag(0x0110)));
        byte[] two = Arrays.copyOf(TinyJpeg.colour(), 2 * TinyJpeg.colour().length);
        System.arraycopy(TinyJpeg.colour(), 0, two, two.length / 2, two.length / 2);
        all.put("PRV-006 after the end", Example.of(stream(two)));
        all.put("PRV-004 in JFXX", segment(APP0, ascii("JFXX\0\u0010 ")));
    }

    private static Example segment(int marker, byte[] content) {
        return Example.of(stream(TinyJpeg.colourWith(marker, content)));
    }

    private static byte[] ascii(String text) {
        return text.getBytes(StandardCharsets.US_ASCII);
    }
}
