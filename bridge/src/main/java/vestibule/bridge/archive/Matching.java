package vestibule.bridge.archive;

import java.util.List;
import java.util.regex.Pattern;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Element;
import vestibule.dicom.data.VR;
import vestibule.dicom.data.Value;

/** Whether an object answers a key of a query (PS3.4 C.2.2.2): single value, list of UID, universal, wild card, range, sequence. */
final class Matching {

    private Matching() {}

    /** Whether a data set matches one key of an identifier. */
    static boolean matches(Element key, DataSet object) {
        if (key.isEmpty()) {
            return true;
        }
        Element found = object.find(key.tag()).orElse(null);
        if (key.value() instanceof Value.Items items) {
            return matchesItem(items.all(), found);
        }
        if (!(key.value() instanceof Value.Texts wanted)) {
            return found != null && found.value().equals(key.value());
        }
        boolean anything = wanted.all().stream().allMatch(text -> text.isEmpty() || text.equals("*"));
        if (anything) {
            return true;
        }
        List<String> values = found != null && found.value() instanceof Value.Texts texts ? texts.all() : List.of();
        return wanted.all().stream()
                .anyMatch(text -> values.stream().anyMatch(value -> matches(key.vr(), text.strip(), value.strip())));
    }

    private static boolean matchesItem(List<DataSet> wanted, @org.jspecify.annotations.Nullable Element found) {
        if (wanted.isEmpty() || wanted.get(0).stream().allMatch(Element::isEmpty)) {
            return true;
        }
        List<DataSet> items = found != null && found.value() instanceof Value.Items present ? present.all() : List.of();
        return items.stream().anyMatch(item -> wanted.get(0).stream().allMatch(key -> matches(key, item)));
    }

    private static boolean matches(VR vr, String wanted, String value) {
        return switch (vr) {
            case DA, TM, DT -> isRange(wanted) ? inRange(vr, wanted, value) : value.equals(wanted);
            case UI, IS, DS, AS -> value.equals(wanted);
            default -> wildCard(wanted, vr == VR.PN).matcher(value).matches();
        };
    }

    /** A hyphen parts the ends of a range; in DT one at the fifth place from the end may be an offset from UTC. */
    private static boolean isRange(String wanted) {
        return wanted.indexOf('-') >= 0 && wanted.length() - wanted.indexOf('-') != 5;
    }

    private static boolean inRange(VR vr, String range, String value) {
        int hyphen = range.indexOf('-');
        String from = range.substring(0, hyphen);
        String to = range.substring(hyphen + 1);
        if (value.isEmpty()) {
            return false;
        }
        // A shorter end of a range means everything that starts with it, as 1030 holds 103059.9
        String reach = vr == VR.DA ? to : to + "9".repeat(Math.max(0, 21 - to.length()));
        return (from.isEmpty() || value.compareTo(from) >= 0) && (to.isEmpty() || value.compareTo(reach) <= 0);
    }

    /** {@code *} is any run of characters, {@code ?} any one; names match whatever their case (PS3.4 C.2.2.2.4, C.2.2.2.1). */
    private static Pattern wildCard(String wanted, boolean name) {
        StringBuilder form = new StringBuilder();
        wanted.codePoints()
                .forEach(c -> form.append(c == '*' ? ".*" : c == '?' ? "." : Pattern.quote(Character.toString(c))));
        int flags = Pattern.DOTALL | (name ? Pattern.CASE_INSENSITIVE | Pattern.UNICODE_CASE : 0);
        return Pattern.compile(form.toString(), flags);
    }
}
