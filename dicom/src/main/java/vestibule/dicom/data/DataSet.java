package vestibule.dicom.data;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.Iterator;
import java.util.List;
import java.util.Optional;
import java.util.TreeMap;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * A data set: data elements in ascending order of their tags, each tag once (PS3.5 7.1). Immutable; change comes from a
 * {@linkplain #toBuilder() builder}.
 */
public final class DataSet implements Iterable<Element> {

    /** The data set without elements. */
    public static final DataSet EMPTY = new DataSet(List.of());

    private static final Pattern WHOLE_NUMBER = Pattern.compile("[+-]?[0-9]{1,11}");

    private final List<Element> elements;

    private DataSet(List<Element> sorted) {
        this.elements = sorted;
    }

    /** A builder with nothing in it. */
    public static Builder builder() {
        return new Builder();
    }

    /** A builder that starts from this data set. */
    public Builder toBuilder() {
        Builder builder = new Builder();
        elements.forEach(builder::put);
        return builder;
    }

    /** The element of that tag, if it is there, empty or not. */
    public Optional<Element> find(Tag tag) {
        int low = 0;
        int high = elements.size() - 1;
        while (low <= high) {
            int middle = (low + high) >>> 1;
            int order = elements.get(middle).tag().compareTo(tag);
            if (order == 0) {
                return Optional.of(elements.get(middle));
            }
            if (order < 0) {
                low = middle + 1;
            } else {
                high = middle - 1;
            }
        }
        return Optional.empty();
    }

    /** The element of that attribute, if it is there, empty or not. */
    public Optional<Element> find(Attribute attribute) {
        return find(attribute.tag());
    }

    /**
     * The element of a private creator, in whichever block the creator has reserved (PS3.5 7.8.1).
     *
     * @param group an odd group number
     * @param creator the creator's name
     * @param number the last two digits of the element number
     */
    public Optional<Element> findPrivate(int group, String creator, int number) {
        return elements.stream()
                .filter(element -> element.tag().group() == group && isCreator(element, creator))
                .findFirst()
                .flatMap(element -> find(Tag.of(group, (element.tag().element() << 8) | number)));
    }

    private static boolean isCreator(Element element, String creator) {
        return element.tag().isPrivateCreator()
                && element.value() instanceof Value.Texts texts
                && texts.all().stream().map(String::strip).toList().equals(List.of(creator));
    }

    /** Whether the attribute is there, with a value or empty. */
    public boolean contains(Attribute attribute) {
        return find(attribute.tag()).isPresent();
    }

    /** Whether the attribute is there with a value. */
    public boolean hasValue(Attribute attribute) {
        return find(attribute.tag()).filter(element -> !element.isEmpty()).isPresent();
    }

    /** The values of a text attribute; none if it is absent, empty, or not text. */
    public List<String> texts(Attribute attribute) {
        return find(attribute.tag())
                .map(element -> element.value() instanceof Value.Texts texts ? texts.all() : List.<String>of())
                .orElse(List.of());
    }

    /** The first value of a text attribute without leading and trailing spaces; empty if there is none or it is blank. */
    public Optional<String> text(Attribute attribute) {
        return texts(attribute).stream().findFirst().map(String::strip).filter(text -> !text.isEmpty());
    }

    /** The values of an attribute of binary whole numbers; none if it is absent, empty, or something else. */
    public List<Long> integers(Attribute attribute) {
        return find(attribute.tag())
                .map(element -> element.value() instanceof Value.Integers numbers ? numbers.all() : List.<Long>of())
                .orElse(List.of());
    }

    /** The first value of an attribute of whole numbers, binary (US, UL …) or text (IS); empty if there is none. */
    public Optional<Long> integer(Attribute attribute) {
        Optional<Long> binary = integers(attribute).stream().findFirst();
        return binary.isPresent() ? binary : text(attribute).flatMap(DataSet::wholeNumber);
    }

    private static Optional<Long> wholeNumber(String text) {
        boolean whole = text.length() <= 12 && WHOLE_NUMBER.matcher(text).matches();
        return whole ? Optional.of(Long.parseLong(text)) : Optional.empty();
    }

    /** The items of a sequence; none if it is absent or empty. */
    public List<DataSet> items(Attribute attribute) {
        return find(attribute.tag())
                .map(element -> element.value() instanceof Value.Items items ? items.all() : List.<DataSet>of())
                .orElse(List.of());
    }

    /** All elements in ascending order of their tags. */
    public List<Element> elements() {
        return elements;
    }

    /** All elements in ascending order of their tags. */
    public Stream<Element> stream() {
        return elements.stream();
    }

    /** How many elements there are, those inside items not counted. */
    public int size() {
        return elements.size();
    }

    /** Whether there is no element. */
    public boolean isEmpty() {
        return elements.isEmpty();
    }

    @Override
    public Iterator<Element> iterator() {
        return elements.iterator();
    }

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof DataSet dataSet && elements.equals(dataSet.elements);
    }

    @Override
    public int hashCode() {
        return elements.hashCode();
    }

    /** Number of elements only: values may name a patient and do not belong in logs. */
    @Override
    public String toString() {
        return "data set of " + elements.size() + " elements";
    }

    /** Collects elements; a later one takes the place of an earlier one of the same tag. */
    public static final class Builder {
        private final TreeMap<Tag, Element> elements = new TreeMap<>();

        private Builder() {}

        /** Puts an element as it is. */
        public Builder put(Element element) {
            elements.put(element.tag(), element);
            return this;
        }

        /** Puts text; no string makes the attribute empty. The attribute's representation must be one of text. */
        public Builder put(Attribute attribute, String... values) {
            return put(attribute, VR.Kind.TEXT, new Value.Texts(Arrays.asList(values)));
        }

        /** Puts whole numbers into an attribute of binary numbers. */
        public Builder put(Attribute attribute, long... values) {
            return put(
                    attribute,
                    VR.Kind.INTEGER,
                    new Value.Integers(Arrays.stream(values).boxed().toList()));
        }

        /** Puts items into a sequence; no item makes it empty. */
        public Builder put(Attribute attribute, List<DataSet> items) {
            return put(attribute, VR.Kind.SEQUENCE, new Value.Items(items));
        }

        /** Puts bytes. */
        public Builder put(Attribute attribute, Bulk bytes) {
            return put(attribute, VR.Kind.BINARY, new Value.Binary(bytes));
        }

        /** Puts text if there is some, else leaves the data set as it is: what an attribute of type 3 wants (PS3.5 7.4.5). */
        public Builder putIfKnown(Attribute attribute, Optional<String> value) {
            value.ifPresent(text -> put(attribute, text));
            return this;
        }

        /** Puts text, or the attribute without a value if there is none: what type 2 wants (PS3.5 7.4.3). */
        public Builder putOrEmpty(Attribute attribute, Optional<String> value) {
            return value.isPresent() ? put(attribute, value.get()) : putEmpty(attribute);
        }

        /**
         * Puts a private element into the creator's block, which is reserved first if it is not there (PS3.5 7.8.1).
         *
         * @param group an odd group number
         * @param creator the creator's name
         * @param number the last two digits of the element number
         */
        public Builder putPrivate(int group, String creator, int number, VR vr, Value value) {
            if ((group & 1) == 0 || number < 0 || number > 0xFF) {
                throw new IllegalArgumentException(
                        "no private element: group %04X, number %02X".formatted(group, number));
            }
            int block = reservedBlock(group, creator);
            put(new Element(Tag.of(group, block), VR.LO, new Value.Texts(List.of(creator))));
            return put(new Element(Tag.of(group, (block << 8) | number), vr, value));
        }

        /** The block of that creator, else the first that is free. */
        private int reservedBlock(int group, String creator) {
            int free = 0;
            for (int block = 0xFF; block >= 0x10; block--) {
                Element reserved = elements.get(Tag.of(group, block));
                if (reserved == null) {
                    free = block;
                } else if (isCreator(reserved, creator)) {
                    return block;
                }
            }
            if (free == 0) {
                throw new IllegalArgumentException("all blocks of group %04X are reserved".formatted(group));
            }
            return free;
        }

        /** Puts the attribute without a value. */
        public Builder putEmpty(Attribute attribute) {
            return put(new Element(attribute.tag(), attribute.vr(), noValue(attribute.vr())));
        }

        /** Takes an attribute out. */
        public Builder remove(Attribute attribute) {
            elements.remove(attribute.tag());
            return this;
        }

        /** Puts every element of another data set. */
        public Builder putAll(DataSet others) {
            others.forEach(this::put);
            return this;
        }

        private Builder put(Attribute attribute, VR.Kind kind, Value value) {
            if (attribute.vr().kind() != kind) {
                throw new IllegalArgumentException(
                        "%s is %s, which takes no value of kind %s".formatted(attribute, attribute.vr(), kind));
            }
            return put(new Element(attribute.tag(), attribute.vr(), value));
        }

        private static Value noValue(VR vr) {
            return switch (vr.kind()) {
                case TEXT -> new Value.Texts(List.of());
                case INTEGER -> new Value.Integers(List.of());
                case REAL -> new Value.Reals(List.of());
                case BINARY -> new Value.Binary(Bulk.EMPTY);
                case SEQUENCE -> new Value.Items(List.of());
            };
        }

        /** The data set of what was put. */
        public DataSet build() {
            return elements.isEmpty()
                    ? EMPTY
                    : new DataSet(Collections.unmodifiableList(new ArrayList<>(elements.values())));
        }
    }
}
