package vestibule.dicom.jpeg;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;

/** Writes small JPEG streams segment by segment, right or wrong on purpose. */
final class StreamBuilder {
    private final ByteArrayOutputStream bytes = new ByteArrayOutputStream();

    /** A grey picture of 8 x 8 pixels that every decoder takes: one block, its DC difference 0, then end of block. */
    static byte[] greyBlock() {
        return start().quantization(0, 1)
                .frame(0xC0, 8, 8, 8, 1, 0x11, 0)
                .tinyHuffman(0)
                .scan(1)
                .data(0x3F)
                .end();
    }

    /** SOI. */
    static StreamBuilder start() {
        return new StreamBuilder().raw(0xFF, 0xD8);
    }

    StreamBuilder raw(int... values) {
        for (int value : values) {
            bytes.write(value);
        }
        return this;
    }

    StreamBuilder segment(int marker, int... payload) {
        raw(0xFF, marker, (payload.length + 2) >> 8, (payload.length + 2) & 0xFF);
        return raw(payload);
    }

    StreamBuilder application(int number, String identifier, int... rest) {
        byte[] name = identifier.getBytes(StandardCharsets.US_ASCII);
        int[] payload = new int[name.length + rest.length];
        for (int index = 0; index < name.length; index++) {
            payload[index] = name[index];
        }
        System.arraycopy(rest, 0, payload, name.length, rest.length);
        return segment(0xE0 + number, payload);
    }

    StreamBuilder jfif() {
        return application(0, "JFIF\0", 1, 1, 0, 0, 1, 0, 1, 0, 0);
    }

    StreamBuilder adobe(int transform) {
        return application(14, "Adobe", 0, 100, 0, 0, 0, 0, transform);
    }

    /** An 8-bit quantization table with the same element 64 times. */
    StreamBuilder quantization(int selector, int element) {
        int[] payload = new int[65];
        Arrays.fill(payload, element);
        payload[0] = selector;
        return segment(0xDB, payload);
    }

    /** A frame header; three numbers for each component: identifier, sampling factors in one byte, table. */
    StreamBuilder frame(int marker, int precision, int lines, int columns, int... components) {
        int[] payload = new int[6 + components.length];
        payload[0] = precision;
        payload[1] = lines >> 8;
        payload[2] = lines & 0xFF;
        payload[3] = columns >> 8;
        payload[4] = columns & 0xFF;
        payload[5] = components.length / 3;
        System.arraycopy(components, 0, payload, 6, components.length);
        return segment(marker, payload);
    }

    /** A baseline frame of three components in 4:4:4 with these identifiers. */
    StreamBuilder colorFrame(int first, int second, int third) {
        return frame(0xC0, 8, 8, 8, first, 0x11, 0, second, 0x11, 0, third, 0x11, 0);
    }

    /** DC and AC tables with the one code 0: for DC category 0, for AC end of block. */
    StreamBuilder tinyHuffman(int selector) {
        return huffman(selector).huffman(0x10 | selector);
    }

    private StreamBuilder huffman(int classAndSelector) {
        int[] payload = new int[18];
        payload[0] = classAndSelector;
        payload[1] = 1;
        return segment(0xC4, payload);
    }

    /** A sequential scan of these component identifiers, all with the tables 0. */
    StreamBuilder scan(int... identifiers) {
        return scanWith(0, 63, 0, identifiers);
    }

    StreamBuilder scanWith(int start, int end, int approximation, int... identifiers) {
        int[] payload = new int[4 + 2 * identifiers.length];
        payload[0] = identifiers.length;
        for (int index = 0; index < identifiers.length; index++) {
            payload[1 + 2 * index] = identifiers[index];
        }
        payload[1 + 2 * identifiers.length] = start;
        payload[2 + 2 * identifiers.length] = end;
        payload[3 + 2 * identifiers.length] = approximation;
        return segment(0xDA, payload);
    }

    /** Entropy-coded bytes; FF is not stuffed. */
    StreamBuilder data(int... values) {
        return raw(values);
    }

    /** EOI, and the whole stream. */
    byte[] end() {
        return raw(0xFF, 0xD9).bytes();
    }

    byte[] bytes() {
        return bytes.toByteArray();
    }
}
