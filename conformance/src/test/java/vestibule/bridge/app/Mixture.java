package vestibule.bridge.app;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.LongStream;
import vestibule.conformance.fault.SourcePhotos;

/**
 * Whose the photographs of a proof are and how each was taken, by the number in its name: two patients take turns, and every third picture
 * was taken by mirror, so that two objects are made of it. So one that is filed under the other patient shows, and so does half a pair.
 */
final class Mixture {

    static final List<String> PATIENTS = List.of("PG-0001", "PG-0002");

    private static final int BY_MIRROR = 3;
    private static final Pattern NUMBER = Pattern.compile("(\\d+)\\D*$");

    private Mixture() {}

    static String patientOf(long number) {
        return PATIENTS.get((int) (number % PATIENTS.size()));
    }

    static String patientOf(String name) {
        return patientOf(numberOf(name));
    }

    static boolean isByMirror(long number) {
        return number % BY_MIRROR == BY_MIRROR - 1;
    }

    static boolean isByMirror(String name) {
        return isByMirror(numberOf(name));
    }

    /** How many objects are made of so many photographs from that number on. */
    static int objects(long from, int count) {
        return count
                + (int) LongStream.range(from, from + count)
                        .filter(Mixture::isByMirror)
                        .count();
    }

    /** What the judge compares the end with. */
    static SourcePhotos on(Path card) throws IOException {
        return SourcePhotos.in(card, file -> patientOf(file.toString()), file -> isByMirror(file.toString()) ? 2 : 1);
    }

    private static long numberOf(String name) {
        Matcher number = NUMBER.matcher(name);
        return number.find() ? Long.parseLong(number.group(1)) : 0;
    }
}
