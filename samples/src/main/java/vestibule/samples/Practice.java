package vestibule.samples;

import java.time.LocalDate;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import vestibule.samples.drawing.Likeness;
import vestibule.samples.drawing.ToothState;

/** Who comes to the invented practice, and what they look like. */
final class Practice {
    static final String NAME = "Practice at the Painted Gate (invented)";
    private static final String ISSUER = "PAINTED-GATE";

    static final SamplePatient ZOE =
            new SamplePatient("PG-0001", ISSUER, "Exempel^Zoë^Åsa", LocalDate.of(1987, 2, 28), "F", "ISO_IR 100");
    static final SamplePatient LEA = new SamplePatient(
            "PG-0002", ISSUER, "Échantillon^Léa^Noémie^Mme", LocalDate.of(1951, 12, 9), "F", "ISO_IR 100");
    static final SamplePatient NINA =
            new SamplePatient("PG-0003", ISSUER, "Примерова^Нина", LocalDate.of(1994, 7, 1), "F", "ISO_IR 144");
    static final SamplePatient MYRON =
            new SamplePatient("PG-0004", ISSUER, "Δείγματος^Μύρων", LocalDate.of(1968, 10, 31), "M", "ISO_IR 126");
    static final SamplePatient HANAKO = new SamplePatient(
            "PG-0005", ISSUER, "Mihon^Hanako=見本^花子=みほん^はなこ", LocalDate.of(2000, 2, 29), "F", "ISO_IR 192");
    static final SamplePatient TONIK =
            new SamplePatient("PG-0006", ISSUER, "Vzorek^Toník", LocalDate.of(2020, 5, 17), "M", "ISO_IR 101");
    static final SamplePatient NEMO = new SamplePatient("PG-0007", ISSUER, "Nobody^At-All", null, "O", "");

    private static final Map<SamplePatient, Likeness> LIKENESS = likenesses();

    private Practice() {}

    static List<SamplePatient> patients() {
        return List.of(ZOE, LEA, NINA, MYRON, HANAKO, TONIK, NEMO);
    }

    static Likeness likeness(SamplePatient patient) {
        Likeness likeness = LIKENESS.get(patient);
        if (likeness == null) {
            throw new IllegalArgumentException("this patient is not one of the invented practice");
        }
        return likeness;
    }

    private static Map<SamplePatient, Likeness> likenesses() {
        Map<SamplePatient, Likeness> map = new LinkedHashMap<>();
        map.put(ZOE, adult(0xe6b99b, 0x6b4526, true, 0x3f7096, 0xebdfc6, 0x39506b, Map.of()));
        map.put(LEA, adult(0xe8c4ae, 0xa9a7a4, false, 0x5d7a5a, 0xdcc9a2, 0x6b3a4a, Map.of(46, ToothState.MISSING)));
        map.put(NINA, adult(0xefc9b0, 0x9a7440, true, 0x6d8b8f, 0xede4d0, 0x3f5f4d, Map.of(33, ToothState.ROTATED)));
        map.put(MYRON, adult(0xc99872, 0x2b211b, false, 0x5a3d22, 0xdfcfab, 0x4a4a52, Map.of(45, ToothState.MISSING)));
        map.put(HANAKO, adult(0xe9c09a, 0x191413, true, 0x3a2617, 0xe9dec4, 0x2f5d62, Map.of(32, ToothState.ROTATED)));
        map.put(TONIK, child());
        map.put(NEMO, adult(0x8d5a3c, 0x15100d, false, 0x2c1b10, 0xefe6d2, 0x6b5b2e, Map.of(23, ToothState.MISSING)));
        return map;
    }

    private static Likeness adult(
            int skin, int hair, boolean longHair, int iris, int enamel, int clothes, Map<Integer, ToothState> own) {
        Map<Integer, ToothState> teeth = new LinkedHashMap<>(own);
        teeth.put(16, ToothState.GOLD_CROWN);
        teeth.put(36, ToothState.AMALGAM);
        teeth.put(12, ToothState.JEWEL);
        return new Likeness(skin, hair, longHair, iris, enamel, clothes, false, teeth);
    }

    private static Likeness child() {
        Map<Integer, ToothState> teeth =
                Map.of(55, ToothState.GOLD_CROWN, 75, ToothState.AMALGAM, 52, ToothState.JEWEL);
        return new Likeness(0xf0c8ad, 0xb58a4e, false, 0x4f7ea3, 0xf3ecdc, 0x4c7a3a, true, teeth);
    }
}
