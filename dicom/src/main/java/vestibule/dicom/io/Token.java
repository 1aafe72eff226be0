package vestibule.dicom.io;

import vestibule.dicom.data.Bulk;
import vestibule.dicom.data.Tag;
import vestibule.dicom.data.VR;

/** What an encoded data set is, read from front to back (PS3.5 7). */
sealed interface Token {

    /**
     * An element with a value that is no sequence and not encapsulated.
     *
     * @param writtenVr the two letters as written, empty where none are
     */
    record Leaf(Tag tag, VR vr, String writtenVr, long offset, long length, Bulk bytes) implements Token {}

    /** The start of a sequence, of defined or undefined length. */
    record SequenceStart(Tag tag, String writtenVr, long offset, long length) implements Token {}

    /** The end of the innermost sequence. */
    record SequenceEnd() implements Token {}

    /** The start of an item. */
    record ItemStart(long offset, long length) implements Token {}

    /** The end of the innermost item. */
    record ItemEnd() implements Token {}

    /** The start of encapsulated pixel data. */
    record FragmentsStart(Tag tag, VR vr, String writtenVr, long offset) implements Token {}

    /** One fragment; the first of them is the Basic Offset Table. */
    record Fragment(Bulk bytes) implements Token {}

    /** The end of encapsulated pixel data. */
    record FragmentsEnd() implements Token {}

    /** The end of the outermost data set. */
    record End() implements Token {}
}
