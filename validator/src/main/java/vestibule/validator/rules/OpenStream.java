package vestibule.validator.rules;

import java.io.Closeable;
import java.io.EOFException;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.SeekableByteChannel;
import vestibule.dicom.data.Bulk;

/** The stream of one object while it is looked at; its file is opened once, however many places are read. */
final class OpenStream implements Closeable {

    private final SeekableByteChannel channel;
    private final long length;

    OpenStream(Bulk stream) {
        this.channel = stream.channel();
        this.length = stream.length();
    }

    SeekableByteChannel channel() {
        return channel;
    }

    long length() {
        return length;
    }

    /**
     * Some bytes of it.
     *
     * @throws EOFException if they reach beyond its end, or its file has become shorter
     */
    byte[] bytes(long offset, int count) throws IOException {
        ByteBuffer bytes = ByteBuffer.allocate(count);
        channel.position(offset);
        while (bytes.hasRemaining()) {
            if (channel.read(bytes) < 0) {
                throw new EOFException(
                        "the stream ends before byte %d, and %d bytes there were to be read".formatted(offset, count));
            }
        }
        return bytes.array();
    }

    @Override
    public void close() throws IOException {
        channel.close();
    }
}
