package vestibule.bridge.patient;

import java.nio.charset.StandardCharsets;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.zip.CRC32;
import vestibule.dicom.data.PersonName;
import vestibule.dicom.data.TextForm;
import vestibule.dicom.data.VR;

/**
 * The text in the code of a patient card: our own small open form, described in {@code docs/patient-card.md}. Lines in a fixed order,
 * the last one a check over the others.
 */
public final class CardText {

    /** How every card begins, whatever its version. */
    static final String MARK = "VESTIBULE-CARD:";

    private static final String VERSION = "1";
    private static final int LONGEST = 600;
    private static final List<String> KEYS = List.of("id", "issuer", "name", "born", "check");

    private CardText() {}

    /** The text of a patient's card. */
    public static String write(Patient patient) {
        StringBuilder text = new StringBuilder(MARK + VERSION + "\n");
        text.append("id=").append(patient.id()).append('\n');
        patient.issuer()
                .ifPresent(issuer -> text.append("issuer=").append(issuer).append('\n'));
        text.append("name=").append(patient.name()).append('\n');
        patient.birthDate().ifPresent(day -> text.append("born=").append(day).append('\n'));
        return text + "check=" + check(text.toString());
    }

    /** Whether a text means to be a card, of whatever version and in whatever state. */
    static boolean claimsToBe(String text) {
        return text.startsWith(MARK);
    }

    /** Whom a card names; empty if it is of another version, broken, or holds what no card holds. */
    static Optional<Identity> read(String text) {
        List<String> lines = Arrays.asList(text.split("\n", -1));
        int last = text.lastIndexOf("check=");
        if (text.length() > LONGEST || !lines.get(0).equals(MARK + VERSION) || last < 0) {
            return Optional.empty();
        }
        List<String> keys = new ArrayList<>();
        for (String line : lines.subList(1, lines.size())) {
            keys.add(line.substring(0, Math.max(0, line.indexOf('='))));
        }
        boolean known = keys.stream().distinct().count() == keys.size()
                && KEYS.stream().filter(keys::contains).toList().equals(keys)
                && keys.containsAll(List.of("id", "name", "check"));
        if (!known || !text.substring(last).equals("check=" + check(text.substring(0, last)))) {
            return Optional.empty();
        }
        return identity(lines);
    }

    private static Optional<Identity> identity(List<String> lines) {
        Optional<String> id = value(lines, "id").filter(text -> fits(text, VR.LO));
        Optional<String> issuer = value(lines, "issuer");
        Optional<PersonName> name = value(lines, "name").flatMap(PersonName::parse);
        Optional<String> born = value(lines, "born");
        Optional<LocalDate> day = born.flatMap(CardText::day);
        boolean whole = id.isPresent()
                && issuer.map(text -> fits(text, VR.LO)).orElse(true)
                && name.isPresent()
                && born.isPresent() == day.isPresent();
        return whole
                ? Optional.of(new Identity(id, issuer, name.filter(one -> !one.isEmpty()), day, Optional.empty()))
                : Optional.empty();
    }

    private static Optional<String> value(List<String> lines, String key) {
        return lines.stream()
                .filter(line -> line.startsWith(key + "="))
                .map(line -> line.substring(key.length() + 1))
                .findFirst();
    }

    private static boolean fits(String text, VR vr) {
        return !text.isBlank() && TextForm.problem(vr, text).isEmpty();
    }

    private static Optional<LocalDate> day(String text) {
        try {
            return Optional.of(LocalDate.parse(text));
        } catch (DateTimeException noDay) {
            return Optional.empty();
        }
    }

    private static String check(String text) {
        CRC32 check = new CRC32();
        check.update(text.getBytes(StandardCharsets.UTF_8));
        return "%08X".formatted(check.getValue());
    }
}
