package vestibule.conformance.crosscheck;

import java.io.IOException;
import java.security.DigestInputStream;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import vestibule.dicom.data.Bulk;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Element;
import vestibule.dicom.data.VR;
import vestibule.dicom.data.Value;

/**
 * A data set as lines that readings of different programs can be compared by: a path such as {@code (0040,A730)[1].(0008,0100)}, the
 * representation, and the values without insignificant spaces. Bytes are told as their number and SHA-256.
 *
 * @param lines by path
 */
public record Flat(Map<String, Line> lines) {

    /** One element. */
    public record Line(String vr, List<String> values) {
        @Override
        public String toString() {
            return vr + " " + values;
        }
    }

    /** Our own reading. */
    public static Flat of(DataSet... dataSets) throws IOException {
        Map<String, Line> lines = new LinkedHashMap<>();
        for (DataSet dataSet : dataSets) {
            add(lines, "", dataSet);
        }
        return new Flat(lines);
    }

    private static void add(Map<String, Line> lines, String path, DataSet dataSet) throws IOException {
        for (Element element : dataSet) {
            String here = path + element.tag();
            if (element.value() instanceof Value.Items items) {
                lines.put(
                        here, new Line("SQ", List.of(String.valueOf(items.all().size()))));
                for (int i = 0; i < items.all().size(); i++) {
                    add(lines, "%s[%d].".formatted(here, i + 1), items.all().get(i));
                }
            } else {
                lines.put(here, new Line(element.vr().name(), normal(element.vr(), values(element.value()))));
            }
        }
    }

    private static List<String> values(Value value) throws IOException {
        if (value instanceof Value.Texts texts) {
            return texts.all();
        }
        if (value instanceof Value.Integers numbers) {
            return numbers.all().stream().map(String::valueOf).toList();
        }
        if (value instanceof Value.Reals numbers) {
            return numbers.all().stream().map(String::valueOf).toList();
        }
        if (value instanceof Value.Binary binary) {
            return binary.isEmpty() ? List.of() : List.of(told(binary.bulk()));
        }
        Value.Fragments fragments = (Value.Fragments) value;
        List<String> told = new ArrayList<>();
        told.add("offsets "
                + String.join(
                        " ",
                        fragments.offsetTable().stream().map(String::valueOf).toList()));
        for (Bulk fragment : fragments.fragments()) {
            told.add(told(fragment));
        }
        return told;
    }

    /** Bytes as their number and SHA-256. */
    public static String told(Bulk bytes) throws IOException {
        try (DigestInputStream in = new DigestInputStream(bytes.open(), MessageDigest.getInstance("SHA-256"))) {
            in.transferTo(java.io.OutputStream.nullOutputStream());
            return bytes.length() + " bytes "
                    + HexFormat.of().formatHex(in.getMessageDigest().digest());
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java platform has SHA-256", e);
        }
    }

    /** Values in one spelling: numbers as numbers, names without empty groups at the end, text without the spaces that do not count. */
    static List<String> normal(VR vr, List<String> values) {
        List<String> normal = values.stream().map(value -> normal(vr, value)).toList();
        return normal.equals(List.of("")) ? List.of() : normal;
    }

    private static String normal(VR vr, String value) {
        return switch (vr) {
            case DS, IS, FL, FD -> number(value.strip());
            case PN -> value.strip().replaceAll("[=^ ]+(?==|$)", "").replaceAll("=+$", "");
            case ST, LT, UT, UR -> value.stripTrailing();
            default -> value.strip();
        };
    }

    private static String number(String value) {
        try {
            return String.valueOf(Double.parseDouble(value));
        } catch (NumberFormatException notANumber) {
            return value;
        }
    }

    /** The differences to another reading, one sentence each; this one is ours. */
    public List<String> differences(Flat theirs) {
        List<String> differences = new ArrayList<>();
        TreeSet<String> paths = new TreeSet<>(lines.keySet());
        paths.addAll(theirs.lines.keySet());
        for (String path : paths) {
            Line our = lines.get(path);
            Line their = theirs.lines.get(path);
            if (our == null || their == null) {
                differences.add(
                        "%s: only %s %s".formatted(path, our == null ? "theirs" : "ours", our == null ? their : our));
            } else if (!our.equals(their)) {
                differences.add("%s: ours %s, theirs %s".formatted(path, our, their));
            }
        }
        return differences;
    }
}
