package vestibule.validator.rules;

import java.util.Optional;
import java.util.OptionalLong;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.dict.Attributes;

/** What the attributes say of the pixels, worked out. */
final class Pixels {

    private Pixels() {}

    /** Number of Frames, else 1. */
    static long frames(DataSet dataSet) {
        return dataSet.integer(Attributes.NUMBER_OF_FRAMES)
                .filter(number -> number > 0)
                .orElse(1L);
    }

    /** The bytes of all frames without compression (PS3.5 8.1.1), where the attributes say enough and 4:2:2 is not in play. */
    static OptionalLong nativeLength(DataSet dataSet) {
        Optional<Long> rows = dataSet.integer(Attributes.ROWS);
        Optional<Long> columns = dataSet.integer(Attributes.COLUMNS);
        Optional<Long> samples = dataSet.integer(Attributes.SAMPLES_PER_PIXEL);
        Optional<Long> bits = dataSet.integer(Attributes.BITS_ALLOCATED);
        boolean subsampled = dataSet.text(Attributes.PHOTOMETRIC_INTERPRETATION)
                .filter(value -> value.endsWith("_422") || value.endsWith("_420"))
                .isPresent();
        if (rows.isEmpty() || columns.isEmpty() || samples.isEmpty() || bits.isEmpty() || subsampled) {
            return OptionalLong.empty();
        }
        // 16 bits each, and frames of at most 31: below 2^95 only in theory, so the frames are bounded
        long one = rows.get() * columns.get() * Math.min(samples.get(), 4) * Math.min(bits.get(), 64);
        long frames = Math.min(frames(dataSet), 1L << 16);
        return OptionalLong.of((one * frames + 7) / 8);
    }
}
