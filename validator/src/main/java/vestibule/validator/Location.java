package vestibule.validator;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalLong;
import java.util.stream.Collectors;
import vestibule.dicom.data.Tag;
import vestibule.dicom.dict.Dictionary;

/**
 * Where in an object: {@code (0008,2218) AnatomicRegionSequence > item 1 > (0008,0100) CodeValue}, or a part of the file by name.
 *
 * @param path the way there from the outermost data set; empty for the object as a whole
 * @param offset the byte in the file, where it is known
 */
public record Location(List<Step> path, OptionalLong offset) implements Comparable<Location> {

    /** One step of the way. */
    public sealed interface Step extends Comparable<Step> {

        @Override
        default int compareTo(Step other) {
            if (this instanceof Part here && other instanceof Part there) {
                return here.name.compareTo(there.name);
            }
            if (this instanceof Attribute here && other instanceof Attribute there) {
                return here.tag.compareTo(there.tag);
            }
            if (this instanceof Item here && other instanceof Item there) {
                return Integer.compare(here.number, there.number);
            }
            return Integer.compare(rank(), other.rank());
        }

        /** Parts of the file come before attributes. */
        private int rank() {
            return this instanceof Part ? 0 : this instanceof Attribute ? 1 : 2;
        }
    }

    /** A part of the file that is no attribute, as {@code preamble}. */
    public record Part(String name) implements Step {
        @Override
        public String toString() {
            return name;
        }
    }

    /** An attribute. */
    public record Attribute(Tag tag) implements Step {
        @Override
        public String toString() {
            return Dictionary.standard().describe(tag);
        }
    }

    /** An item of a sequence, counted from 1. */
    public record Item(int number) implements Step {
        @Override
        public String toString() {
            return "item " + number;
        }
    }

    /** The object as a whole. */
    public static final Location OBJECT = new Location(List.of(), OptionalLong.empty());

    public Location {
        path = List.copyOf(path);
    }

    /** A part of the file by its name, as {@code preamble}. */
    public static Location part(String name) {
        return OBJECT.step(new Part(name));
    }

    /** An attribute of the outermost data set. */
    public static Location of(vestibule.dicom.data.Attribute attribute) {
        return OBJECT.at(attribute.tag());
    }

    /** An attribute of the data set that this is. */
    public Location at(Tag tag) {
        return step(new Attribute(tag));
    }

    /** An item of the sequence that this is, counted from 1. */
    public Location item(int number) {
        return step(new Item(number));
    }

    /** The same place with its byte in the file. */
    public Location atByte(long position) {
        return new Location(path, OptionalLong.of(position));
    }

    private Location step(Step step) {
        List<Step> longer = new ArrayList<>(path);
        longer.add(step);
        return new Location(longer, OptionalLong.empty());
    }

    @Override
    public int compareTo(Location other) {
        for (int i = 0; i < Math.min(path.size(), other.path.size()); i++) {
            int order = path.get(i).compareTo(other.path.get(i));
            if (order != 0) {
                return order;
            }
        }
        int order = Integer.compare(path.size(), other.path.size());
        return order != 0 ? order : Long.compare(offset.orElse(-1), other.offset.orElse(-1));
    }

    @Override
    public String toString() {
        return path.isEmpty() ? "object" : path.stream().map(Step::toString).collect(Collectors.joining(" > "));
    }
}
