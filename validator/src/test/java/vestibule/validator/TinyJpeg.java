package vestibule.validator;

import java.io.ByteArrayOutputStream;

/**
 * The smallest honest JPEG streams, put together from their segments (ISO/IEC 10918-1 Annex B): every quantisation value is 1, each
 * Huffman table has one code of one bit, and every block is "no difference, end of block".
 */
final class TinyJpeg {

    private final ByteArrayOutputStream bytes = new ByteArrayOutputStream();

    private TinyJpeg() {}

    /** A baseline stream in colour, 4:2:0, one block of 16 × 16. */
    static byte[] colour() {
        return colour(0xC0, 16, 16);
    }

    /** A stream in colour with another frame marker or size in its frame header. */
    static byte[] colour(int frameMarker, int rows, int columns) {
        TinyJpeg jpeg = new TinyJpeg()
                .start()
                .tables()
                .frame(frameMarker, rows, columns, 3)
                .scan(3);
        int blocks = (rows + 15) / 16 * ((columns + 15) / 16) * 6;
        // the scan has room for one block of 16 × 16: the others follow, two bits each
        for (int i = 8; i < blocks; i += 4) {
            jpeg.put(0);
        }
        return jpeg.end();
    }

    /** A baseline stream in grey, 8 × 8. */
    static byte[] grey() {
        return new TinyJpeg().start().tables().frame(0xC0, 8, 8, 1).scan(1).end();
    }

    /** A baseline stream in colour with segments after SOI. */
    static byte[] colourWith(int marker, byte[]... contents) {
        TinyJpeg jpeg = new TinyJpeg().start();
        for (byte[] content : contents) {
            jpeg.put(0xFF, marker, (content.length + 2) >> 8, (content.length + 2) & 0xFF);
            jpeg.bytes.writeBytes(content);
        }
        return jpeg.tables().frame(0xC0, 16, 16, 3).scan(3).end();
    }

    /** A baseline stream in colour without Huffman tables (abbreviated format, T.81 B.4). */
    static byte[] abbreviated() {
        return new TinyJpeg()
                .start()
                .quantization()
                .frame(0xC0, 16, 16, 3)
                .scan(3)
                .end();
    }

    /** A baseline stream in colour with bytes between two segments. */
    static byte[] colourAfter(byte[] stray) {
        TinyJpeg jpeg = new TinyJpeg().start().tables();
        jpeg.bytes.writeBytes(stray);
        return jpeg.frame(0xC0, 16, 16, 3).scan(3).end();
    }

    /** A baseline stream in colour with bytes after the last block, before the end. */
    static byte[] colourAndMore(byte[] more) {
        TinyJpeg jpeg = new TinyJpeg().start().tables().frame(0xC0, 16, 16, 3).scan(3);
        jpeg.bytes.writeBytes(more);
        return jpeg.end();
    }

    private TinyJpeg start() {
        return put(0xFF, 0xD8);
    }

    private TinyJpeg quantization() {
        put(0xFF, 0xDB, 0, 67, 0);
        for (int i = 0; i < 64; i++) {
            put(1);
        }
        return this;
    }

    private TinyJpeg tables() {
        quantization();
        // DHT, DC table 0 then AC table 0: one code of length 1, symbol 0
        for (int kind : new int[] {0x00, 0x10}) {
            put(0xFF, 0xC4, 0, 20, kind, 1);
            put(0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0);
        }
        return this;
    }

    private TinyJpeg frame(int marker, int rows, int columns, int components) {
        put(0xFF, marker, 0, 8 + 3 * components, 8, rows >> 8, rows & 0xFF, columns >> 8, columns & 0xFF, components);
        for (int i = 1; i <= components; i++) {
            put(i, i == 1 && components == 3 ? 0x22 : 0x11, 0);
        }
        return this;
    }

    private TinyJpeg scan(int components) {
        put(0xFF, 0xDA, 0, 6 + 2 * components, components);
        for (int i = 1; i <= components; i++) {
            put(i, 0);
        }
        put(0, 63, 0);
        // two bits a block, filled up with ones
        return components == 3 ? put(0x00, 0x0F) : put(0x3F);
    }

    private byte[] end() {
        put(0xFF, 0xD9);
        return bytes.toByteArray();
    }

    private TinyJpeg put(int... values) {
        for (int value : values) {
            bytes.write(value);
        }
        return this;
    }
}
