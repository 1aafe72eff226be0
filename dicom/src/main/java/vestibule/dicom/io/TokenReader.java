package vestibule.dicom.io;

import java.io.EOFException;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import vestibule.dicom.data.Bulk;
import vestibule.dicom.data.Element.Encoded;
import vestibule.dicom.data.Tag;
import vestibule.dicom.data.VR;
import vestibule.dicom.dict.Dictionary;

/** Cuts bytes into tokens (PS3.5 7.1, 7.5, A.4), under limits, and notes what it forgives. */
final class TokenReader {

    private static final Tag PIXEL_DATA = Tag.of(0x7FE0, 0x0010);
    private static final int SHORTEST_ELEMENT = 8;

    /** About what one element or item takes in memory beside its value. */
    private static final int ELEMENT_BYTES = 256;

    /** What a reader may hold beside twice the bytes it reads. */
    private static final long HELD_ALWAYS = 12L << 20;

    private enum Kind {
        ROOT,
        ITEM,
        SEQUENCE,
        FRAGMENTS
    }

    /** @param end where it ends, or -1 if a delimitation item will say so */
    private record Container(Kind kind, long end, boolean explicit) {}

    private final ByteSource source;
    private final Limits limits;
    private final List<ReadNote> notes;
    private final Deque<Container> open = new ArrayDeque<>();
    private final long budget;
    private final long deadline;
    private Tag lastAtRoot = new Tag(0);
    private int elements;
    private int fragments;
    private long held;

    TokenReader(ByteSource source, long end, boolean explicit, Limits limits, List<ReadNote> notes) {
        this.source = source;
        this.limits = limits;
        this.notes = notes;
        this.budget = Math.min(limits.heldBytes(), HELD_ALWAYS + 2 * (end - source.position()));
        this.deadline = System.nanoTime() + limits.time().toNanos();
        open.push(new Container(Kind.ROOT, end, explicit));
    }

    Token next() throws IOException {
        try {
            return step();
        } catch (EOFException e) {
            throw new DicomFormatException(source.position(), "the end of the data", "the rest of an element");
        }
    }

    private Token step() throws IOException {
        Container top = open.element();
        long here = source.position();
        if (top.end >= 0 && here >= top.end) {
            if (here > top.end) {
                throw new DicomFormatException(here, "an element that reaches beyond what holds it", "its end within");
            }
            return close(top);
        }
        return switch (top.kind) {
            case ROOT -> atRoot(top, here);
            case ITEM -> element(top, here);
            case SEQUENCE -> item(top, here);
            case FRAGMENTS -> fragment(top, here);
        };
    }

    private Token atRoot(Container top, long here) throws IOException {
        if (isTrailing(top, here)) {
            notes.add(new ReadNote(
                    ReadNote.Kind.TRAILING_BYTES, here, "%d bytes after the last element".formatted(top.end - here)));
            source.seek(top.end);
            return new Token.End();
        }
        source.seek(here);
        lastAtRoot = tag();
        source.seek(here);
        return element(top, here);
    }

    /**
     * Zeros to the end are no element, for no data set goes on with group 0000. After the pixel data, which closes an image, anything that
     * starts no element is taken for what other programs append; before it, such bytes may as well be damage, and are refused.
     */
    private boolean isTrailing(Container top, long here) throws IOException {
        if (lastAtRoot.equals(new Tag(0))) {
            return false;
        }
        return onlyZeros(here, top.end) || (lastAtRoot.compareTo(PIXEL_DATA) >= 0 && !startsElement(top, here));
    }

    private boolean onlyZeros(long here, long end) throws IOException {
        source.seek(here);
        int wanted = 4; // an element's tag already says that there are not only zeros
        for (long left = end - here; left > 0; wanted = 1024) {
            byte[] some = source.bytes((int) Math.min(left, wanted));
            for (byte each : some) {
                if (each != 0) {
                    source.seek(here);
                    return false;
                }
            }
            left -= some.length;
            checkTime(here);
        }
        return true;
    }

    private boolean startsElement(Container top, long here) throws IOException {
        if (top.end - here < SHORTEST_ELEMENT) {
            return false;
        }
        source.seek(here);
        Tag tag = tag();
        boolean letters = new String(source.bytes(2), StandardCharsets.ISO_8859_1).matches("[A-Z]{2}");
        return tag.compareTo(lastAtRoot) > 0 && tag.group() != 0xFFFE && (letters || !top.explicit);
    }

    private Token close(Container top) {
        if (top.kind == Kind.ROOT) {
            return new Token.End();
        }
        open.pop();
        return switch (top.kind) {
            case ITEM -> new Token.ItemEnd();
            case SEQUENCE -> new Token.SequenceEnd();
            case FRAGMENTS -> new Token.FragmentsEnd();
            case ROOT -> new Token.End();
        };
    }

    private Tag tag() throws IOException {
        int group = source.unsignedShort();
        return Tag.of(group, source.unsignedShort());
    }

    private Token item(Container top, long here) throws IOException {
        Tag tag = tag();
        long length = source.unsignedInt();
        if (tag.equals(Tag.SEQUENCE_DELIMITATION) && top.end < 0) {
            return close(top);
        }
        if (!tag.equals(Tag.ITEM)) {
            throw new DicomFormatException(here, tag + " in a sequence", "an item (FFFE,E000)");
        }
        countElement(here);
        push(Kind.ITEM, length, top.explicit);
        return new Token.ItemStart(here, length);
    }

    private Token fragment(Container top, long here) throws IOException {
        Tag tag = tag();
        long length = source.unsignedInt();
        if (tag.equals(Tag.SEQUENCE_DELIMITATION)) {
            return close(top);
        }
        if (!tag.equals(Tag.ITEM) || length == Encoded.UNDEFINED_LENGTH) {
            throw new DicomFormatException(here, tag + " in pixel data", "a fragment of defined length (FFFE,E000)");
        }
        checkTime(here);
        fragments++;
        if (fragments > limits.fragments()) {
            throw new DicomFormatException(here, "more than " + limits.fragments() + " fragments", "fewer");
        }
        return new Token.Fragment(take(length));
    }

    private Token element(Container top, long here) throws IOException {
        Tag tag = tag();
        if (tag.equals(Tag.ITEM_DELIMITATION) && top.kind == Kind.ITEM && top.end < 0) {
            source.unsignedInt();
            return close(top);
        }
        if (tag.group() == 0xFFFE) {
            throw new DicomFormatException(here, tag + " among data elements", "a data element");
        }
        countElement(here);
        return top.explicit
                ? explicitElement(tag, here)
                : value(tag, implied(tag), "", here, source.unsignedInt(), false);
    }

    private void checkTime(long here) throws DicomFormatException {
        if (System.nanoTime() - deadline > 0) {
            throw new DicomFormatException(
                    here,
                    "a data set that is not read after " + limits.time(),
                    "one that is; it may be made to be slow");
        }
    }

    private void countElement(long here) throws DicomFormatException {
        checkTime(here);
        elements++;
        if (elements > limits.elements()) {
            throw new DicomFormatException(here, "more than " + limits.elements() + " data elements", "fewer");
        }
        if (!hold(ELEMENT_BYTES)) {
            throw new DicomFormatException(
                    here,
                    "an element after others that fill the memory there is for one data set",
                    "elements that take at most %d bytes in all".formatted(budget));
        }
    }

    private static boolean isLetter(char character) {
        return character >= 'A' && character <= 'Z';
    }

    private Token explicitElement(Tag tag, long here) throws IOException {
        String written = new String(source.bytes(2), StandardCharsets.ISO_8859_1);
        if (!isLetter(written.charAt(0)) || !isLetter(written.charAt(1))) {
            // Some writers slip into Implicit VR: the two bytes then are the lower half of a 32-bit length.
            notes.add(new ReadNote(ReadNote.Kind.UNKNOWN_VR, here, tag + " has no Value Representation"));
            source.seek(here + 4);
            return value(tag, implied(tag), "", here, source.unsignedInt(), true);
        }
        VR vr = VR.parse(written).orElse(VR.UN);
        if (!vr.name().equals(written)) {
            notes.add(new ReadNote(ReadNote.Kind.UNKNOWN_VR, here, tag + " has an unknown Value Representation"));
        }
        long length;
        if (vr.longForm()) {
            source.unsignedShort();
            length = source.unsignedInt();
        } else {
            length = source.unsignedShort();
        }
        return value(tag, vr, written, here, length, true);
    }

    /** The representation of an attribute in Implicit VR, as far as the dictionary knows it (PS3.5 A.1). */
    static VR implied(Tag tag) {
        if (tag.isGroupLength()) {
            return VR.UL;
        }
        if (tag.isPrivate()) {
            return tag.isPrivateCreator() ? VR.LO : VR.UN;
        }
        return Dictionary.standard()
                .find(tag)
                .map(entry -> entry.representations().contains(VR.OW)
                        ? VR.OW
                        : entry.attribute().vr())
                .orElse(VR.UN);
    }

    private Token value(Tag tag, VR vr, String written, long here, long length, boolean explicit) throws IOException {
        boolean undefined = length == Encoded.UNDEFINED_LENGTH;
        if (vr == VR.SQ || (vr == VR.UN && undefined)) {
            // UN of undefined length holds items in Implicit VR Little Endian (PS3.5 6.2.2)
            push(Kind.SEQUENCE, length, explicit && vr == VR.SQ);
            return new Token.SequenceStart(tag, written, here, length);
        }
        if (undefined) {
            if (!tag.equals(PIXEL_DATA) || vr.kind() != VR.Kind.BINARY) {
                throw new DicomFormatException(here, tag + " of undefined length with " + vr, "a defined length");
            }
            open.push(new Container(Kind.FRAGMENTS, -1, explicit));
            return new Token.FragmentsStart(tag, vr, written, here);
        }
        if ((length & 1) == 1) {
            notes.add(new ReadNote(ReadNote.Kind.ODD_LENGTH, here, tag + " has a value of odd length"));
        }
        return new Token.Leaf(tag, vr, written, here, length, take(length));
    }

    private void push(Kind kind, long length, boolean explicit) throws IOException {
        if (open.size() > 2 * limits.depth()) {
            throw new DicomFormatException(
                    source.position(), "sequences nested deeper than " + limits.depth(), "fewer levels");
        }
        long start = source.position();
        if (length == Encoded.UNDEFINED_LENGTH) {
            open.push(new Container(kind, -1, explicit));
        } else {
            checkInside(length);
            open.push(new Container(kind, start + length, explicit));
        }
    }

    /** Small values stay in memory as long as they leave room for what cannot stay in the file. */
    private Bulk take(long length) throws IOException {
        checkInside(length);
        long start = source.position();
        Bulk bytes = length <= Limits.SMALL_BINARY && held + length <= budget / 2 && hold(length)
                ? Bulk.of(source.bytes((int) length))
                : source.bulk(start, length);
        source.seek(start + length);
        return bytes;
    }

    /** How many bytes all elements together may take in memory. */
    long budget() {
        return budget;
    }

    /** Takes account of bytes that are to stay in memory; false if there is no room for them, and they must not. */
    boolean hold(long bytes) {
        if (held + bytes > budget) {
            return false;
        }
        held += bytes;
        return true;
    }

    /** The declared length must fit in the nearest container that has an end; the root always has one. */
    private void checkInside(long length) throws DicomFormatException {
        for (Container container : open) {
            if (container.end >= 0) {
                long left = container.end - source.position();
                if (length > left) {
                    throw new DicomFormatException(
                            source.position(),
                            "a length of " + length + " bytes",
                            "at most the " + left + " that are left");
                }
                return;
            }
        }
    }
}
