package vestibule.dicom.jpeg;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.ByteBuffer;
import java.nio.channels.NonWritableChannelException;
import java.nio.channels.SeekableByteChannel;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

@DisplayName("The limits of reading")
class JpegLimitsTest {
    private static final long LONG = 300L << 20;

    private static void refused(byte[] stream, JpegLimits limits, String words) {
        assertThatThrownBy(() -> Jpeg.read(stream, limits))
                .isInstanceOf(JpegFormatException.class)
                .hasMessageContaining(words);
    }

    @Test
    @DisplayName("bound the file, the segments, the scans and the pixels")
    void bounds() {
        byte[] stream = StreamBuilder.greyBlock();
        refused(stream, JpegLimits.DEFAULT.withMaxFileBytes(stream.length - 1L), "more than the limit");
        refused(stream, JpegLimits.DEFAULT.withMaxSegments(3), "limit of 3 segments");
        refused(stream, JpegLimits.DEFAULT.withMaxPixels(63), "limit of 63");
        byte[] twoScans = StreamBuilder.start()
                .quantization(0, 1)
                .frame(0xC0, 8, 8, 8, 1, 0x11, 0, 2, 0x11, 0)
                .tinyHuffman(0)
                .scan(1)
                .data(0x3F)
                .scan(2)
                .data(0x3F)
                .end();
        refused(twoScans, JpegLimits.DEFAULT.withMaxScans(1), "limit of 1 scans");
    }

    @Test
    @DisplayName("of zero are a mistake of the program")
    void zero() {
        assertThatThrownBy(() -> JpegLimits.DEFAULT.withMaxScans(0)).isInstanceOf(IllegalArgumentException.class);
    }

    @Test
    @DisplayName("let a picture longer than the memory be read, since the file is never held")
    void longFile() throws Exception {
        assertThat(LONG).isGreaterThan(Runtime.getRuntime().maxMemory());
        byte[] head = StreamBuilder.start()
                .quantization(0, 1)
                .frame(0xC0, 8, 8, 8, 1, 0x11, 0)
                .tinyHuffman(0)
                .scan(1)
                .bytes();

        Jpeg jpeg = Jpeg.read(new Padded(head), JpegLimits.DEFAULT);

        assertThat(jpeg.scans().get(0).data()).isEqualTo(new ByteRange(head.length, LONG - head.length - 2));
        assertThat(jpeg.trailingBytes()).isZero();
    }

    /** A stream that exists only while it is read: a head, then zeros, then EOI. */
    private static final class Padded implements SeekableByteChannel {
        private final byte[] head;
        private long position;

        Padded(byte[] head) {
            this.head = head;
        }

        @Override
        public int read(ByteBuffer target) {
            int count = 0;
            while (target.hasRemaining() && position < LONG) {
                target.put(at(position++));
                count++;
            }
            return count == 0 ? -1 : count;
        }

        private byte at(long offset) {
            if (offset < head.length) {
                return head[(int) offset];
            }
            return (byte) (offset < LONG - 2 ? 0 : offset == LONG - 2 ? 0xFF : 0xD9);
        }

        @Override
        public int write(ByteBuffer source) {
            throw new NonWritableChannelException();
        }

        @Override
        public long position() {
            return position;
        }

        @Override
        public SeekableByteChannel position(long newPosition) {
            position = newPosition;
            return this;
        }

        @Override
        public long size() {
            return LONG;
        }

        @Override
        public SeekableByteChannel truncate(long size) {
            throw new NonWritableChannelException();
        }

        @Override
        public boolean isOpen() {
            return true;
        }

        @Override
        public void close() {
            position = LONG;
        }
    }
}
