package vestibule.validator;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Element;
import vestibule.dicom.data.Value;
import vestibule.dicom.io.DicomFile;

/**
 * What can happen to the bytes of an object: bits flipped, bytes replaced, runs cut out or put in, the end cut off, and, at the places
 * where elements start, tags exchanged, representations exchanged and lengths changed. Up to six of these at once.
 */
final class Damage {

    private static final int MOST_AT_ONCE = 6;
    private static final int LONGEST_RUN = 64;
    private static final int[] TELLING = {0x00, 0x5C, 0x7F, 0x80, 0xFF};
    private static final long[] LENGTHS = {
        0, 1, 2, 0x7FFF, 0xFFFE, 0xFFFF, 0x10000, 0x7FFFFFFFL, 0xFFFFFFFEL, 0xFFFFFFFFL
    };

    /** A whole object: its bytes, and where its elements start, at every depth. */
    static final class Whole {
        private final byte[] bytes;
        private final List<Integer> elements;

        private Whole(byte[] bytes, List<Integer> elements) {
            this.bytes = bytes;
            this.elements = List.copyOf(elements);
        }

        /** Whether an element was found in it. */
        boolean hasElements() {
            return !elements.isEmpty();
        }

        static Whole of(Path file) throws IOException {
            byte[] bytes = Files.readAllBytes(file);
            List<Integer> elements = new ArrayList<>();
            DicomFile read = DicomFile.read(file);
            add(read.meta(), bytes.length, elements);
            add(read.dataSet(), bytes.length, elements);
            return new Whole(bytes, elements);
        }

        private static void add(DataSet dataSet, int length, List<Integer> places) {
            for (Element element : dataSet) {
                if (element.encoded() != null && element.encoded().offset() + 12 <= length) {
                    places.add((int) element.encoded().offset());
                }
                if (element.value() instanceof Value.Items items) {
                    items.all().forEach(item -> add(item, length, places));
                }
            }
        }
    }

    private final Random random;

    Damage(Random random) {
        this.random = random;
    }

    /** The bytes of a damaged copy. */
    byte[] of(Whole whole) {
        byte[] bytes = whole.bytes.clone();
        // most often one thing or two, so that much stays readable and reaches the rules
        int times = random.nextInt(3) == 0 ? 1 + random.nextInt(MOST_AT_ONCE) : 1 + random.nextInt(2);
        for (int i = 0; i < times; i++) {
            bytes = once(bytes, whole.elements);
        }
        return bytes;
    }

    private byte[] once(byte[] bytes, List<Integer> elements) {
        if (bytes.length < LONGEST_RUN) {
            return bytes;
        }
        return switch (random.nextInt(16)) {
            case 0 -> withoutRun(bytes);
            case 1 -> withRun(bytes);
            case 2 -> Arrays.copyOf(bytes, random.nextInt(bytes.length));
            case 3, 4 -> exchanged(bytes, elements, 0, 4);
            case 5, 6 -> exchanged(bytes, elements, 4, 2);
            case 7, 8 -> withLength(bytes, elements);
            case 9, 10, 11 -> replaced(bytes);
            default -> flipped(bytes);
        };
    }

    private byte[] flipped(byte[] bytes) {
        for (int i = random.nextInt(3); i >= 0; i--) {
            bytes[random.nextInt(bytes.length)] ^= (byte) (1 << random.nextInt(8));
        }
        return bytes;
    }

    private byte[] replaced(byte[] bytes) {
        bytes[random.nextInt(bytes.length)] =
                (byte) (random.nextBoolean() ? random.nextInt(256) : TELLING[random.nextInt(TELLING.length)]);
        return bytes;
    }

    private byte[] withoutRun(byte[] bytes) {
        int length = 1 + random.nextInt(LONGEST_RUN - 1);
        int start = random.nextInt(bytes.length - length);
        byte[] less = Arrays.copyOf(bytes, bytes.length - length);
        System.arraycopy(bytes, start + length, less, start, less.length - start);
        return less;
    }

    /** A run of noise, or of the object's own bytes. */
    private byte[] withRun(byte[] bytes) {
        byte[] run = new byte[1 + random.nextInt(LONGEST_RUN - 1)];
        if (random.nextBoolean()) {
            random.nextBytes(run);
        } else {
            System.arraycopy(bytes, random.nextInt(bytes.length - run.length), run, 0, run.length);
        }
        int start = random.nextInt(bytes.length);
        byte[] more = Arrays.copyOf(bytes, bytes.length + run.length);
        System.arraycopy(run, 0, more, start, run.length);
        System.arraycopy(bytes, start, more, start + run.length, bytes.length - start);
        return more;
    }

    /** Tags, or representations, of two elements change places. */
    private byte[] exchanged(byte[] bytes, List<Integer> elements, int from, int length) {
        int one = place(bytes, elements) + from;
        int other = place(bytes, elements) + from;
        byte[] kept = Arrays.copyOfRange(bytes, one, one + length);
        System.arraycopy(bytes, other, bytes, one, length);
        System.arraycopy(kept, 0, bytes, other, length);
        return bytes;
    }

    private byte[] withLength(byte[] bytes, List<Integer> elements) {
        int place = place(bytes, elements);
        int field = place + List.of(4, 6, 8).get(random.nextInt(3));
        int size = random.nextBoolean() ? 2 : 4;
        if (random.nextBoolean()) {
            bytes[field] += (byte) (random.nextInt(5) - 2);
            return bytes;
        }
        long length = LENGTHS[random.nextInt(LENGTHS.length)];
        for (int i = 0; i < size; i++) {
            bytes[field + i] = (byte) (length >> (8 * i));
        }
        return bytes;
    }

    /** Where an element starts, or did before runs were put in and cut out. */
    private int place(byte[] bytes, List<Integer> elements) {
        int place = elements.get(random.nextInt(elements.size()));
        return Math.min(place, bytes.length - 12);
    }
}
