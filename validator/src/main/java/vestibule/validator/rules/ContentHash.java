package vestibule.validator.rules;

import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.channels.SeekableByteChannel;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import vestibule.dicom.data.Bulk;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Element;
import vestibule.dicom.data.Value;
import vestibule.dicom.dict.Attributes;

/**
 * Numbers that stand for what an object holds: the first 64 bits of SHA-256, enough to tell the objects of a batch apart.
 *
 * @param whole of all attributes
 * @param picture of the pixel data alone; 0 where there is none
 */
public record ContentHash(long whole, long picture) {

    /** Of longer values the start and the length count, so that no file holds a batch up. */
    private static final long LONGEST = 64L << 20;

    private static final int EDGE = 1 << 14;

    static ContentHash of(DataSet dataSet) throws IOException {
        long picture = dataSet.find(Attributes.PIXEL_DATA)
                        .filter(element -> !element.isEmpty())
                        .isPresent()
                ? picture(dataSet.find(Attributes.PIXEL_DATA).orElseThrow())
                : 0;
        MessageDigest digest = sha256();
        digest.update(ByteBuffer.allocate(8).putLong(picture).array());
        update(digest, dataSet);
        return new ContentHash(first(digest), picture);
    }

    /** A number that stands for a text. */
    public static long of(String text) {
        MessageDigest digest = sha256();
        digest.update(text.getBytes(StandardCharsets.UTF_8));
        return first(digest);
    }

    private static long picture(Element pixels) throws IOException {
        MessageDigest digest = sha256();
        update(digest, pixels.value());
        return first(digest);
    }

    private static void update(MessageDigest digest, DataSet dataSet) throws IOException {
        for (Element element : dataSet) {
            digest.update(ByteBuffer.allocate(4).putInt(element.tag().value()).array());
            digest.update(element.vr().name().getBytes(StandardCharsets.US_ASCII));
            if (!element.tag().equals(Attributes.PIXEL_DATA.tag())) {
                update(digest, element.value());
            }
        }
    }

    private static void update(MessageDigest digest, Value value) throws IOException {
        if (value instanceof Value.Texts texts) {
            for (String text : texts.all()) {
                digest.update(text.getBytes(StandardCharsets.UTF_8));
                digest.update((byte) '\\');
            }
        } else if (value instanceof Value.Integers numbers) {
            numbers.all()
                    .forEach(number ->
                            digest.update(ByteBuffer.allocate(8).putLong(number).array()));
        } else if (value instanceof Value.Reals numbers) {
            numbers.all()
                    .forEach(number -> digest.update(
                            ByteBuffer.allocate(8).putDouble(number).array()));
        } else if (value instanceof Value.Binary binary) {
            update(digest, binary.bulk());
        } else if (value instanceof Value.Items items) {
            for (DataSet item : items.all()) {
                update(digest, item);
                digest.update((byte) 0);
            }
        } else if (value instanceof Value.Fragments fragments) {
            updateEdges(digest, Bulk.concat(fragments.fragments()));
        }
    }

    private static void update(MessageDigest digest, Bulk bulk) throws IOException {
        digest.update(ByteBuffer.allocate(8).putLong(bulk.length()).array());
        byte[] chunk = new byte[1 << 16];
        try (InputStream in = bulk.part(0, Math.min(bulk.length(), LONGEST)).open()) {
            for (int count = in.read(chunk); count >= 0; count = in.read(chunk)) {
                digest.update(chunk, 0, count);
            }
        }
    }

    /**
     * Compressed pictures of one length that start and end with the same bytes are the same: their coded data has no two stretches alike.
     * So a batch need not be read from end to end.
     */
    private static void updateEdges(MessageDigest digest, Bulk bulk) throws IOException {
        if (bulk.length() <= 2 * EDGE) {
            update(digest, bulk);
        } else {
            digest.update(ByteBuffer.allocate(8).putLong(bulk.length()).array());
            ByteBuffer edge = ByteBuffer.allocate(EDGE);
            try (SeekableByteChannel channel = bulk.channel()) {
                update(digest, channel, edge);
                channel.position(bulk.length() - EDGE);
                update(digest, channel, edge);
            }
        }
    }

    private static void update(MessageDigest digest, SeekableByteChannel channel, ByteBuffer edge) throws IOException {
        edge.clear();
        int count = 0;
        while (edge.hasRemaining() && count >= 0) {
            count = channel.read(edge);
        }
        digest.update(edge.flip());
    }

    private static long first(MessageDigest digest) {
        return ByteBuffer.wrap(digest.digest()).getLong();
    }

    private static MessageDigest sha256() {
        try {
            return MessageDigest.getInstance("SHA-256");
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java platform has SHA-256", e);
        }
    }
}
