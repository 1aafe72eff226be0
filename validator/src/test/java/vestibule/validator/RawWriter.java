package vestibule.validator;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import vestibule.dicom.data.Bulk;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Element;
import vestibule.dicom.data.Uid;
import vestibule.dicom.data.Value;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.io.DicomFile;
import vestibule.dicom.io.TransferSyntax;

/** Writes files in Explicit VR Little Endian without asking whether they are right: text in UTF-8, whatever the data set declares. */
final class RawWriter {

    private final ByteArrayOutputStream bytes = new ByteArrayOutputStream();

    private RawWriter() {}

    static void write(Path file, DataSet dataSet, TransferSyntax syntax) throws IOException {
        DataSet meta = DicomFile.metaInformation(Uids.VL_PHOTOGRAPHIC_IMAGE_STORAGE, new Uid("2.25.1003"), syntax);
        write(file, meta, dataSet);
    }

    static void write(Path file, DataSet meta, DataSet dataSet) throws IOException {
        Files.write(file, file(new byte[128], meta, encode(dataSet)));
    }

    static byte[] file(byte[] preamble, DataSet meta, byte[] dataSet) throws IOException {
        byte[] group = encode(meta);
        RawWriter all = new RawWriter();
        all.bytes.writeBytes(preamble);
        all.bytes.writeBytes("DICM".getBytes(StandardCharsets.US_ASCII));
        all.number(0x0002, 2).number(0, 2).letters("UL").number(4, 2).number(group.length, 4);
        all.bytes.writeBytes(group);
        all.bytes.writeBytes(dataSet);
        return all.bytes.toByteArray();
    }

    static byte[] encode(DataSet dataSet) throws IOException {
        RawWriter writer = new RawWriter();
        for (Element element : dataSet) {
            writer.element(element);
        }
        return writer.bytes.toByteArray();
    }

    private void element(Element element) throws IOException {
        number(element.tag().group(), 2)
                .number(element.tag().element(), 2)
                .letters(element.vr().name());
        if (element.value() instanceof Value.Fragments fragments) {
            number(0, 2).number(0xFFFFFFFFL, 4).number(0xE000FFFEL, 4);
            number(4L * fragments.offsetTable().size(), 4);
            fragments.offsetTable().forEach(offset -> number(offset, 4));
            for (Bulk fragment : fragments.fragments()) {
                byte[] content = even(fragment.bytes(1 << 20), (byte) 0);
                number(0xE000FFFEL, 4).number(content.length, 4).bytes.writeBytes(content);
            }
            number(0xE0DDFFFEL, 4).number(0, 4);
            return;
        }
        byte[] content = even(value(element), element.vr().padding());
        if (element.vr().longForm()) {
            number(0, 2).number(content.length, 4);
        } else {
            number(content.length, 2);
        }
        bytes.writeBytes(content);
    }

    private static byte[] value(Element element) throws IOException {
        RawWriter value = new RawWriter();
        if (element.value() instanceof Value.Texts texts) {
            return String.join("\\", texts.all()).getBytes(StandardCharsets.UTF_8);
        } else if (element.value() instanceof Value.Integers numbers) {
            numbers.all().forEach(number -> value.number(number, element.vr().unitBytes()));
        } else if (element.value() instanceof Value.Reals numbers) {
            boolean single = element.vr().unitBytes() == 4;
            numbers.all()
                    .forEach(number -> value.number(
                            single ? Float.floatToIntBits(number.floatValue()) : Double.doubleToLongBits(number),
                            single ? 4 : 8));
        } else if (element.value() instanceof Value.Binary binary) {
            return binary.bulk().bytes(1 << 20);
        } else if (element.value() instanceof Value.Items items) {
            for (DataSet item : items.all()) {
                byte[] content = encode(item);
                value.number(0xE000FFFEL, 4).number(content.length, 4).bytes.writeBytes(content);
            }
        }
        return value.bytes.toByteArray();
    }

    private static byte[] even(byte[] content, byte padding) {
        if (content.length % 2 == 0) {
            return content;
        }
        byte[] padded = java.util.Arrays.copyOf(content, content.length + 1);
        padded[content.length] = padding;
        return padded;
    }

    private RawWriter number(long number, int size) {
        for (int i = 0; i < size; i++) {
            bytes.write((int) (number >> (8 * i)));
        }
        return this;
    }

    private RawWriter letters(String text) {
        bytes.writeBytes(text.getBytes(StandardCharsets.US_ASCII));
        return this;
    }
}
