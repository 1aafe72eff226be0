package vestibule.conformance.job;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.color.ColorSpace;
import java.awt.color.ICC_Profile;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import javax.imageio.IIOImage;
import javax.imageio.ImageIO;
import javax.imageio.ImageWriteParam;
import javax.imageio.ImageWriter;
import javax.imageio.stream.MemoryCacheImageOutputStream;

/** A photograph with a word of its own in every place where metadata can lie. */
public final class CanaryPhotograph {
    private static final int ASCII = 2;
    private static final int LONG = 4;
    private static final int UNDEFINED = 7;

    private final Random random;
    private final String word;

    /** The same seed gives the same word and the same file. */
    public CanaryPhotograph(long seed) {
        this.random = new Random(seed);
        this.word = "CANARY%08X".formatted(random.nextInt());
    }

    /** What must not be found again, in any coding of characters. */
    public String word() {
        return word;
    }

    /** The file: baseline, progressive or grey, its segments in any order. */
    public byte[] file() throws IOException {
        return file(1 + random.nextInt(8));
    }

    /** The same with a note of its turn as cameras write it, on which nobody has to look before it is filed. */
    public byte[] ordinaryFile() throws IOException {
        return file(List.of(1, 3, 6, 8).get(random.nextInt(4)));
    }

    private byte[] file(int orientation) throws IOException {
        byte[] stream = picture(random.nextInt(3) == 0, random.nextInt(4) == 0);
        List<byte[]> segments = new ArrayList<>();
        segments.add(segment(0xE1, concat(ascii("Exif\0\0"), exif(orientation))));
        segments.add(segment(0xE1, ascii("http://ns.adobe.com/xap/1.0/\0<x:xmpmeta><a>" + word + "</a></x:xmpmeta>")));
        segments.add(segment(0xE1, concat(ascii("http://ns.adobe.com/xmp/extension/\0"), ascii(word.repeat(3)))));
        segments.add(segment(0xE2, concat(ascii("ICC_PROFILE\0\1\1"), profile())));
        segments.add(segment(0xE2, concat(ascii("MPF\0"), ascii(word), utf16())));
        segments.add(segment(0xED, ascii("Photoshop 3.0\0" + "8BIM\4\4\0\0\0\0\0\22\34\2x\0\16" + word)));
        segments.add(segment(0xFE, ascii("comment " + word)));
        segments.add(segment(0xFE, utf16()));
        segments.add(segment(0xE7, ascii("Maker\0" + word)));
        Collections.shuffle(segments, random);
        ByteArrayOutputStream file = new ByteArrayOutputStream();
        file.write(new byte[] {(byte) 0xFF, (byte) 0xD8});
        file.write(segment(0xE0, concat(ascii("JFIF\0\1\2\0\0\1\0\1\5\1"), ascii(word.substring(0, 14)), new byte[1])));
        file.write(segment(0xE0, concat(ascii("JFXX\0"), new byte[] {0x10}, thumbnail())));
        for (byte[] segment : segments) {
            file.write(segment);
        }
        file.write(withoutStart(stream));
        file.write(thumbnail());
        file.write(utf16());
        return file.toByteArray();
    }

    private static byte[] picture(boolean progressive, boolean grey) throws IOException {
        int type = grey ? BufferedImage.TYPE_BYTE_GRAY : BufferedImage.TYPE_INT_RGB;
        BufferedImage image = new BufferedImage(96, 64, type);
        Graphics2D graphics = image.createGraphics();
        graphics.setColor(Color.PINK);
        graphics.fillOval(10, 10, 70, 40);
        graphics.dispose();
        ImageWriter writer = ImageIO.getImageWritersByFormatName("jpeg").next();
        ImageWriteParam how = writer.getDefaultWriteParam();
        how.setProgressiveMode(progressive ? ImageWriteParam.MODE_DEFAULT : ImageWriteParam.MODE_DISABLED);
        ByteArrayOutputStream target = new ByteArrayOutputStream();
        try (MemoryCacheImageOutputStream out = new MemoryCacheImageOutputStream(target)) {
            writer.setOutput(out);
            writer.write(null, new IIOImage(image, null, null), how);
        } finally {
            writer.dispose();
        }
        return target.toByteArray();
    }

    /** Without SOI and the segments up to the first that is no APPn. */
    private static byte[] withoutStart(byte[] stream) {
        int at = 2;
        while ((stream[at + 1] & 0xF0) == 0xE0) {
            at += 2 + ((stream[at + 2] & 0xFF) << 8 | (stream[at + 3] & 0xFF));
        }
        return java.util.Arrays.copyOfRange(stream, at, stream.length);
    }

    /** A small picture with the word in a comment. */
    private byte[] thumbnail() throws IOException {
        byte[] stream = picture(false, false);
        return concat(new byte[] {(byte) 0xFF, (byte) 0xD8}, segment(0xFE, ascii(word)), withoutStart(stream));
    }

    /** The sRGB profile of the platform with the word as its description and copyright, in both ways of writing text. */
    private byte[] profile() {
        ICC_Profile profile = ICC_Profile.getInstance(
                ICC_Profile.getInstance(ColorSpace.CS_sRGB).getData());
        byte[] text = concat(ascii("text\0\0\0\0" + word), new byte[2]);
        profile.setData(ICC_Profile.icSigCopyrightTag, text);
        byte[] description = ByteBuffer.allocate(90 + word.length() + 1)
                .put(ascii("desc\0\0\0\0"))
                .putInt(word.length() + 1)
                .put(ascii(word))
                .array();
        profile.setData(ICC_Profile.icSigProfileDescriptionTag, description);
        return profile.getData();
    }

    /** Every text, the maker's own block, the owner, serial numbers, the place, and a thumbnail in the second directory. */
    private byte[] exif(int orientation) throws IOException {
        Directory first = new Directory()
                .text(0x010E, word)
                .number(0x0112, orientation)
                .text(0x013B, word)
                .text(0x8298, word)
                .bytes(0x9C9B, 1, utf16());
        Directory second = new Directory()
                .bytes(0x927C, UNDEFINED, concat(ascii("Okulara\0"), ascii(word), utf16()))
                .bytes(0x9286, UNDEFINED, concat(ascii("ASCII\0\0\0"), ascii(word)))
                .text(0xA420, word)
                .text(0xA430, word)
                .text(0xA431, word)
                .text(0xA435, word);
        Directory place = new Directory().text(0x001D, word).bytes(0x001B, UNDEFINED, ascii("ASCII\0\0\0" + word));
        byte[] thumbnail = thumbnail();
        int secondAt = 8 + first.length(2);
        int placeAt = secondAt + second.length(0);
        int thirdAt = placeAt + place.length(0);
        first.number(0x8769, secondAt).number(0x8825, placeAt);
        Directory third = new Directory().number(0x0103, 6);
        int thumbnailAt = thirdAt + third.length(2);
        third.number(0x0201, thumbnailAt).number(0x0202, thumbnail.length);
        ByteArrayOutputStream tiff = new ByteArrayOutputStream();
        tiff.write(ascii("MM\0*\0\0\0\10"));
        tiff.write(first.at(8, thirdAt));
        tiff.write(second.at(secondAt, 0));
        tiff.write(place.at(placeAt, 0));
        tiff.write(third.at(thirdAt, 0));
        tiff.write(thumbnail);
        return tiff.toByteArray();
    }

    /** A TIFF directory in the making (TIFF 6.0, section 2); its values follow it. */
    private static final class Directory {
        private static final class Entry {
            private final int tag;
            private final int type;
            private final byte[] value;

            Entry(int tag, int type, byte[] value) {
                this.tag = tag;
                this.type = type;
                this.value = value;
            }
        }

        private final List<Entry> entries = new ArrayList<>();

        Directory text(int tag, String text) {
            return bytes(tag, ASCII, ascii(text + "\0"));
        }

        Directory number(int tag, int number) {
            return bytes(tag, LONG, ByteBuffer.allocate(4).putInt(number).array());
        }

        Directory bytes(int tag, int type, byte[] value) {
            entries.add(new Entry(tag, type, value));
            return this;
        }

        int length(int furtherNumbers) {
            int values = entries.stream()
                    .mapToInt(entry -> entry.value.length > 4 ? entry.value.length : 0)
                    .sum();
            return 2 + 12 * (entries.size() + furtherNumbers) + 4 + values;
        }

        byte[] at(int offset, int next) throws IOException {
            List<Entry> sorted = new ArrayList<>(entries);
            sorted.sort((one, other) -> Integer.compare(one.tag, other.tag));
            ByteArrayOutputStream bytes = new ByteArrayOutputStream();
            ByteArrayOutputStream values = new ByteArrayOutputStream();
            DataOutputStream out = new DataOutputStream(bytes);
            int valuesAt = offset + 2 + 12 * sorted.size() + 4;
            out.writeShort(sorted.size());
            for (Entry entry : sorted) {
                out.writeShort(entry.tag);
                out.writeShort(entry.type);
                out.writeInt(entry.type == LONG ? 1 : entry.value.length);
                if (entry.value.length > 4) {
                    out.writeInt(valuesAt + values.size());
                    values.write(entry.value);
                } else {
                    out.write(java.util.Arrays.copyOf(entry.value, 4));
                }
            }
            out.writeInt(next);
            out.write(values.toByteArray());
            return bytes.toByteArray();
        }
    }

    private byte[] utf16() {
        return word.getBytes(random.nextBoolean() ? StandardCharsets.UTF_16LE : StandardCharsets.UTF_16BE);
    }

    private static byte[] segment(int marker, byte[] payload) {
        return concat(
                new byte[] {(byte) 0xFF, (byte) marker, (byte) ((payload.length + 2) >> 8), (byte) (payload.length + 2)
                },
                payload);
    }

    private static byte[] ascii(String text) {
        return text.getBytes(StandardCharsets.ISO_8859_1);
    }

    private static byte[] concat(byte[]... parts) {
        ByteArrayOutputStream all = new ByteArrayOutputStream();
        for (byte[] part : parts) {
            all.writeBytes(part);
        }
        return all.toByteArray();
    }
}
