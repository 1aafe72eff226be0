package vestibule.dicom.dict;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import vestibule.dicom.data.Attribute;
import vestibule.dicom.data.Multiplicity;
import vestibule.dicom.data.Tag;
import vestibule.dicom.data.Uid;
import vestibule.dicom.data.VR;

/**
 * The data dictionary (PS3.6 6 to 9, A; PS3.7 E.1), read once from the committed tables. Repeating groups such as {@code (60xx,3000)}
 * are found by any of their members.
 */
public final class Dictionary {

    /**
     * One row for an attribute.
     *
     * @param attribute number (of a repeating group: with zeros for the free digits), first representation, multiplicity, keyword
     * @param representations every representation the dictionary allows
     * @param name the name in words
     * @param retired whether the standard no longer supports it
     */
    public record AttributeEntry(Attribute attribute, List<VR> representations, String name, boolean retired) {
        public AttributeEntry {
            representations = List.copyOf(representations);
        }
    }

    /**
     * One row for a unique identifier.
     *
     * @param uid the identifier
     * @param type what it identifies, as {@code SOP Class} or {@code Transfer Syntax}
     * @param keyword its name without blanks
     * @param name its name in words
     * @param retired whether the standard no longer supports it
     */
    public record UidEntry(Uid uid, String type, String keyword, String name, boolean retired) {}

    private record Repeating(int mask, int bits, AttributeEntry entry) {}

    private static final Dictionary STANDARD = new Dictionary();

    private final Map<Tag, AttributeEntry> byTag = new HashMap<>(8192);
    private final Map<String, AttributeEntry> byKeyword = new HashMap<>(8192);
    private final List<Repeating> repeating = new java.util.ArrayList<>();
    private final Map<Uid, UidEntry> byUid = new HashMap<>();
    private final Map<String, UidEntry> uidByKeyword = new HashMap<>();
    private final String edition;

    private Dictionary() {
        Table attributes = Table.read("attributes.tsv", 6);
        // Thousands of rows share some dozens of these, and the start of every program waits for the dictionary
        Map<String, List<VR>> representations = new HashMap<>();
        Map<String, Multiplicity> multiplicities = new HashMap<>();
        for (String[] row : attributes.rows()) {
            addAttribute(
                    row,
                    representations.computeIfAbsent(row[1], Dictionary::representations),
                    multiplicities.computeIfAbsent(row[2], Multiplicity::parse));
        }
        edition = attributes.edition();
        Table.read("uids.tsv", 5).rows().forEach(this::addUid);
    }

    /** The dictionary of the standard, in the edition that {@link #edition()} names. */
    public static Dictionary standard() {
        return STANDARD;
    }

    /** Which edition of PS3.6 the attributes come from. */
    public String edition() {
        return edition;
    }

    /** The row for an attribute, if the standard has it; private attributes are never found. */
    public Optional<AttributeEntry> find(Tag tag) {
        AttributeEntry exact = byTag.get(tag);
        if (exact != null) {
            return Optional.of(exact);
        }
        if (tag.isPrivate()) {
            return Optional.empty();
        }
        return repeating.stream()
                .filter(row -> (tag.value() & row.mask) == row.bits)
                .map(Repeating::entry)
                .findFirst();
    }

    /** The row for an attribute by its keyword. */
    public Optional<AttributeEntry> find(String keyword) {
        return Optional.ofNullable(byKeyword.get(keyword));
    }

    /** The row for a unique identifier, if the standard has it. */
    public Optional<UidEntry> find(Uid uid) {
        return Optional.ofNullable(byUid.get(uid));
    }

    /** The row for a unique identifier by its keyword. */
    public Optional<UidEntry> findUid(String keyword) {
        return Optional.ofNullable(uidByKeyword.get(keyword));
    }

    /** The rows for unique identifiers of one type, as {@code SOP Class} or {@code Transfer Syntax}, those not retired, in their order. */
    public List<UidEntry> uids(String type) {
        return byUid.values().stream()
                .filter(entry -> entry.type().equals(type) && !entry.retired())
                .sorted(java.util.Comparator.comparing(entry -> entry.uid().value()))
                .toList();
    }

    /** Number and keyword of an attribute for a person to read; the number alone where the standard does not have it. */
    public String describe(Tag tag) {
        return find(tag).map(entry -> tag + " " + entry.attribute().keyword()).orElse(tag.toString());
    }

    private static List<VR> representations(String text) {
        return java.util.Arrays.stream(text.split("/")).map(VR::valueOf).toList();
    }

    private void addAttribute(String[] row, List<VR> representations, Multiplicity multiplicity) {
        String digits = row[0];
        int bits = Integer.parseUnsignedInt(digits.replace('x', '0'), 16);
        Attribute attribute = new Attribute(new Tag(bits), representations.get(0), multiplicity, row[3]);
        AttributeEntry entry = new AttributeEntry(attribute, representations, row[4], row[5].equals("R"));
        if (digits.indexOf('x') < 0) {
            byTag.put(attribute.tag(), entry);
        } else {
            int mask =
                    Integer.parseUnsignedInt(digits.replaceAll("[0-9A-F]", "F").replace('x', '0'), 16);
            repeating.add(new Repeating(mask, bits, entry));
        }
        byKeyword.put(row[3], entry);
    }

    private void addUid(String[] row) {
        UidEntry entry = new UidEntry(new Uid(row[0]), row[1], row[2], row[3], row[4].equals("R"));
        byUid.put(entry.uid(), entry);
        if (!row[2].isEmpty()) {
            uidByKeyword.put(row[2], entry);
        }
    }
}
