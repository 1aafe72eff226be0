package vestibule.dicom.data;

import java.util.List;

/** The value of a data element: one of these, and nothing else exists (PS3.5 6.2 and A.4). */
public sealed interface Value {

    /** Whether the value field has zero length. */
    boolean isEmpty();

    /** How many values there are, as value multiplicity counts them (PS3.5 6.4). */
    int count();

    /**
     * Characters, one string for each value, without the padding of the value field.
     *
     * @param all the values in order; no value is an empty list
     */
    record Texts(List<String> all) implements Value {
        public Texts {
            all = List.copyOf(all);
        }

        @Override
        public boolean isEmpty() {
            return all.isEmpty();
        }

        @Override
        public int count() {
            return all.size();
        }
    }

    /**
     * Whole binary numbers; UV beyond the signed range shows as negative, AT as the tag's 32 bits.
     *
     * @param all the values in order
     */
    record Integers(List<Long> all) implements Value {
        public Integers {
            all = List.copyOf(all);
        }

        @Override
        public boolean isEmpty() {
            return all.isEmpty();
        }

        @Override
        public int count() {
            return all.size();
        }
    }

    /**
     * Binary floating point numbers.
     *
     * @param all the values in order
     */
    record Reals(List<Double> all) implements Value {
        public Reals {
            all = List.copyOf(all);
        }

        @Override
        public boolean isEmpty() {
            return all.isEmpty();
        }

        @Override
        public int count() {
            return all.size();
        }
    }

    /**
     * A run of bytes, in little endian byte order whatever order they were read from.
     *
     * @param bulk where the bytes are
     */
    record Binary(Bulk bulk) implements Value {
        @Override
        public boolean isEmpty() {
            return bulk.length() == 0;
        }

        @Override
        public int count() {
            return isEmpty() ? 0 : 1;
        }
    }

    /**
     * The items of a sequence (PS3.5 7.5).
     *
     * @param all the items in order
     */
    record Items(List<DataSet> all) implements Value {
        public Items {
            all = List.copyOf(all);
        }

        @Override
        public boolean isEmpty() {
            return all.isEmpty();
        }

        @Override
        public int count() {
            return all.isEmpty() ? 0 : 1;
        }
    }

    /**
     * Encapsulated pixel data (PS3.5 A.4): the bytes stay in the file they came from.
     *
     * @param offsetTable the Basic Offset Table as it stands in the first item; empty where that item is
     * @param fragments the fragments in order, each without the padding that a writer adds
     */
    record Fragments(List<Long> offsetTable, List<Bulk> fragments) implements Value {
        public Fragments {
            offsetTable = List.copyOf(offsetTable);
            fragments = List.copyOf(fragments);
        }

        @Override
        public boolean isEmpty() {
            return fragments.isEmpty();
        }

        @Override
        public int count() {
            return fragments.isEmpty() ? 0 : 1;
        }
    }
}
