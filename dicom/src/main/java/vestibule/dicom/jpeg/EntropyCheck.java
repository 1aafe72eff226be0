package vestibule.dicom.jpeg;

import java.io.IOException;
import java.nio.channels.SeekableByteChannel;
import java.nio.file.Files;
import java.nio.file.Path;

/** Finds out whether the picture is all there: decodes every code of every scan, and keeps nothing. */
public final class EntropyCheck {
    private EntropyCheck() {}

    /** Whether pictures of this kind can be checked: baseline, extended sequential and progressive ones of 8 bits. */
    public static boolean reads(Jpeg jpeg) {
        return Decodable.isKnown(jpeg);
    }

    /**
     * Decodes every code of a baseline, extended 8-bit or progressive picture.
     *
     * @return how many whole bytes of entropy-coded data stand after the last unit of a scan or a restart interval,
     *     where none belong; decoders overlook them
     * @throws JpegFormatException where the data is damaged or cut short, or the picture is of another kind
     */
    public static long surplusBytes(SeekableByteChannel channel, Jpeg jpeg) throws IOException {
        Decodable.check(jpeg);
        Blocks[] blocks = Decodable.blocks(jpeg);
        if (jpeg.frame().type().isProgressive()) {
            ProgressiveScans scans = new ProgressiveScans(channel, jpeg, blocks);
            scans.read(of -> (component, index, block) -> block);
            return scans.surplusBytes();
        }
        SequentialScans scans = new SequentialScans(channel, jpeg);
        scans.read(blocks, new BlockChecker());
        return scans.surplusBytes();
    }

    /** The same for a file. */
    public static long surplusBytes(Path file, JpegLimits limits) throws IOException {
        try (SeekableByteChannel channel = Files.newByteChannel(file)) {
            return surplusBytes(channel, Jpeg.read(channel, limits));
        }
    }
}
