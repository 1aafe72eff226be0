package vestibule.dicom.data;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * A person name (PS3.5 6.2.1): up to three component groups, each with up to five components.
 *
 * @param alphabetic the group in an alphabet, the one most readers show
 * @param ideographic the group in ideographs, empty where there is none
 * @param phonetic the group in a phonetic script, empty where there is none
 */
public record PersonName(Group alphabetic, Group ideographic, Group phonetic) {

    private static final int GROUP_LENGTH = 64;

    /**
     * One component group. Components that are not there are empty strings.
     *
     * @param family family name complex
     * @param given given name complex
     * @param middle middle name
     * @param prefix name prefix
     * @param suffix name suffix
     */
    public record Group(String family, String given, String middle, String prefix, String suffix) {

        /** The group without components. */
        public static final Group NONE = new Group("", "", "", "", "");

        /** Whether no component is there. */
        public boolean isEmpty() {
            return (family + given + middle + prefix + suffix).isEmpty();
        }

        /** Components joined by carets, trailing ones left out. */
        @Override
        public String toString() {
            return joined("^", List.of(family, given, middle, prefix, suffix));
        }
    }

    /** A name with an alphabetic group only. */
    public static PersonName of(String family, String given) {
        return new PersonName(new Group(family, given, "", "", ""), Group.NONE, Group.NONE);
    }

    /**
     * Reads {@code family^given^middle^prefix^suffix=…=…}.
     *
     * @return empty if there are more than two equals signs, more than four carets in a group, more than 64 characters in a group, or
     *     a backslash or control character
     */
    public static Optional<PersonName> parse(String text) {
        String[] groups = text.split("=", -1);
        if (groups.length > 3 || text.chars().anyMatch(c -> c == '\\' || Character.isISOControl(c))) {
            return Optional.empty();
        }
        List<Group> read = new ArrayList<>();
        for (String group : groups) {
            String[] parts = group.split("\\^", -1);
            if (parts.length > 5 || group.codePointCount(0, group.length()) > GROUP_LENGTH) {
                return Optional.empty();
            }
            read.add(new Group(part(parts, 0), part(parts, 1), part(parts, 2), part(parts, 3), part(parts, 4)));
        }
        while (read.size() < 3) {
            read.add(Group.NONE);
        }
        return Optional.of(new PersonName(read.get(0), read.get(1), read.get(2)));
    }

    private static String part(String[] parts, int index) {
        return index < parts.length ? parts[index].strip() : "";
    }

    /** Whether no component is there. */
    public boolean isEmpty() {
        return alphabetic.isEmpty() && ideographic.isEmpty() && phonetic.isEmpty();
    }

    /** The form of the value field: groups joined by equals signs, trailing ones left out. */
    @Override
    public String toString() {
        return joined("=", List.of(alphabetic.toString(), ideographic.toString(), phonetic.toString()));
    }

    private static String joined(String delimiter, List<String> parts) {
        int used = parts.size();
        while (used > 0 && parts.get(used - 1).isEmpty()) {
            used--;
        }
        return String.join(delimiter, parts.subList(0, used));
    }
}
