package vestibule.dicom.jpeg;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Collects the ICC_PROFILE chunks of a stream and puts the profile together (ICC.1 Annex B.4). */
final class ProfileChunks {
    static final int HEADER_LENGTH = 14;
    private static final int PROFILE_HEADER_LENGTH = 128;
    private static final int SIGNATURE_OFFSET = 36;

    /** The numbers of one chunk and the place of its data. */
    record Chunk(int sequence, int count, ByteRange data) {}

    private final List<Chunk> chunks = new ArrayList<>();
    private byte @Nullable [] profile;

    void add(Chunk chunk) {
        chunks.add(chunk);
    }

    int count() {
        return chunks.size();
    }

    boolean outOfOrder() {
        for (int index = 0; index < chunks.size(); index++) {
            if (chunks.get(index).sequence() != index + 1) {
                return true;
            }
        }
        return false;
    }

    byte @Nullable [] profile() {
        return profile;
    }

    /** Judges the chunks and, when they are complete and within the limit, reads the profile. */
    ProfileCondition assemble(StreamReader reader, int maxBytes) throws IOException {
        if (chunks.isEmpty()) {
            return ProfileCondition.NONE;
        }
        int count = chunks.get(0).count();
        @Nullable Chunk[] inOrder = new @Nullable Chunk[256];
        long total = 0;
        for (Chunk chunk : chunks) {
            int sequence = chunk.sequence();
            if (chunk.count() != count || sequence == 0 || sequence > count || inOrder[sequence] != null) {
                return ProfileCondition.MISNUMBERED;
            }
            inOrder[sequence] = chunk;
            total += chunk.data().length();
        }
        if (chunks.size() < count) {
            return ProfileCondition.MISSING_CHUNKS;
        }
        if (total > maxBytes) {
            return ProfileCondition.TOO_LARGE;
        }
        return read(reader, inOrder, (int) total);
    }

    private ProfileCondition read(StreamReader reader, @Nullable Chunk[] inOrder, int total) throws IOException {
        byte[] bytes = new byte[total];
        int done = 0;
        for (Chunk chunk : inOrder) {
            if (chunk != null) {
                int length = (int) chunk.data().length();
                System.arraycopy(reader.bytes(chunk.data().offset(), length), 0, bytes, done, length);
                done += length;
            }
        }
        if (!looksLikeProfile(bytes)) {
            return ProfileCondition.NOT_A_PROFILE;
        }
        profile = bytes;
        return ProfileCondition.COMPLETE;
    }

    /** Signature "acsp" at byte 36 and a size that the bytes can hold (ICC.1 7.2). */
    private static boolean looksLikeProfile(byte[] bytes) {
        if (bytes.length < PROFILE_HEADER_LENGTH) {
            return false;
        }
        long size = (bytes[0] & 0xFFL) << 24 | (bytes[1] & 0xFF) << 16 | (bytes[2] & 0xFF) << 8 | (bytes[3] & 0xFF);
        return size <= bytes.length
                && bytes[SIGNATURE_OFFSET] == 'a'
                && bytes[SIGNATURE_OFFSET + 1] == 'c'
                && bytes[SIGNATURE_OFFSET + 2] == 's'
                && bytes[SIGNATURE_OFFSET + 3] == 'p';
    }
}
