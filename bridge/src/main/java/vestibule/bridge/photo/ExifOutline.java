package vestibule.bridge.photo;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.Collections;
import java.util.Set;
import java.util.TreeSet;

/**
 * How the two directories of an Exif block are laid out that tell the turn, the camera and the moment (TIFF 6.0, section 2; Exif 2.3, 4.6).
 * The library makes of a damaged block what it can and passes over the rest, so that a note of a turn that is damaged looks like none. Other
 * directories, as those of thumbnails, places and makers, may be damaged without harm.
 */
final class ExifOutline {

    private static final int IDENTIFIER = 6;
    private static final int HEADER = 8;
    private static final int MAGIC = 42;
    private static final int ENTRY = 12;

    private static final int MAKE = 0x010F;
    private static final int MODEL = 0x0110;
    private static final int ORIENTATION = 0x0112;
    private static final int EXIF_DIRECTORY = 0x8769;
    private static final int MOMENT = 0x9003;

    private static final int TEXT = 2;
    private static final int LONG = 4;
    private static final int DIRECTORY = 13;
    private static final int TEXT_OF_EXIF_3 = 129;

    private final ByteBuffer tiff;
    private final Set<Integer> orientations = new TreeSet<>();
    /** Something that says the turn, the camera or the moment stands there and cannot be read. */
    private boolean lost;
    /** Something stands in the first directory of which nobody can tell what it was. */
    private boolean damagedFirst;
    /** The same for the second. */
    private boolean damagedSecond;

    private boolean turn;
    private boolean camera;
    private boolean moment;

    private ExifOutline(ByteBuffer tiff) {
        this.tiff = tiff;
    }

    /** @param block with its identifier */
    static ExifOutline of(byte[] block) {
        ExifOutline outline = new ExifOutline(
                ByteBuffer.wrap(block, IDENTIFIER, block.length - IDENTIFIER).slice());
        outline.read();
        return outline;
    }

    /** Whether turn, camera and moment are known as far as they were noted. */
    boolean isReadable() {
        return !lost && (!damagedFirst || (turn && camera && moment)) && (!damagedSecond || moment);
    }

    /** The turns that were noted, 1 to 8; a block may note several. */
    Set<Integer> orientations() {
        return Collections.unmodifiableSet(orientations);
    }

    boolean namesCamera() {
        return camera;
    }

    boolean tellsTime() {
        return moment;
    }

    private void read() {
        lost = true;
        if (tiff.capacity() < HEADER) {
            return;
        }
        int order = tiff.getShort(0);
        tiff.order(order == 0x4949 ? ByteOrder.LITTLE_ENDIAN : ByteOrder.BIG_ENDIAN);
        boolean header = (order == 0x4949 || order == 0x4D4D) && tiff.getShort(2) == MAGIC;
        if (header && holds(tiff.getInt(4))) {
            lost = false;
            directory(tiff.getInt(4), true);
        }
    }

    /** Whether a directory with an entry may begin there. */
    private boolean holds(int offset) {
        return offset >= HEADER && offset <= tiff.capacity() - 2 && tiff.getShort(offset) != 0;
    }

    private void directory(int offset, boolean first) {
        int stated = tiff.getShort(offset) & 0xFFFF;
        int room = (tiff.capacity() - offset - 2) / ENTRY;
        boolean damaged = stated > room;
        for (int index = 0; index < Math.min(stated, room); index++) {
            int entry = offset + 2 + ENTRY * index;
            int tag = tiff.getShort(entry) & 0xFFFF;
            damaged |= size(type(entry)) == 0;
            if (first) {
                entryOfFirst(tag, entry);
            } else if (tag == MOMENT) {
                moment |= text(entry);
            }
        }
        damagedFirst |= first && damaged;
        damagedSecond |= !first && damaged;
    }

    private void entryOfFirst(int tag, int entry) {
        switch (tag) {
            case MAKE -> text(entry);
            case MODEL -> camera |= text(entry);
            case ORIENTATION -> orientation(entry);
            case EXIF_DIRECTORY -> second(entry);
            default -> {
                // says nothing of turn, camera and moment
            }
        }
    }

    private void second(int entry) {
        boolean pointer = (type(entry) == LONG || type(entry) == DIRECTORY) && tiff.getInt(entry + 4) == 1;
        int offset = tiff.getInt(entry + 8);
        boolean within = pointer && offset >= HEADER && offset <= tiff.capacity() - 2;
        if (within) {
            directory(offset, false);
        } else {
            lost = true;
        }
    }

    /** Whether there is a text; one that does not lie within the block is lost. */
    private boolean text(int entry) {
        long length = tiff.getInt(entry + 4) & 0xFFFF_FFFFL;
        long offset = length <= 4 ? entry + 8L : tiff.getInt(entry + 8) & 0xFFFF_FFFFL;
        boolean within = (type(entry) == TEXT || type(entry) == TEXT_OF_EXIF_3) && offset + length <= tiff.capacity();
        lost |= !within;
        return within && length > 0;
    }

    /** 0 is what cameras write that do not know. */
    private void orientation(int entry) {
        long number = tiff.getInt(entry + 4) != 1
                ? -1
                : switch (type(entry)) {
                    case 1, 6 -> tiff.get(entry + 8);
                    case 3, 8 -> tiff.getShort(entry + 8);
                    case 4, 9 -> tiff.getInt(entry + 8);
                    default -> -1;
                };
        if (number >= 1 && number <= 8) {
            orientations.add((int) number);
        }
        turn = true;
        lost |= number < 0 || number > 8;
    }

    private int type(int entry) {
        return tiff.getShort(entry + 2) & 0xFFFF;
    }

    /** How many bytes a value of that type has; 0 where there is no such type. */
    private static int size(int type) {
        return switch (type) {
            case 1, TEXT, 6, 7, TEXT_OF_EXIF_3 -> 1;
            case 3, 8 -> 2;
            case LONG, 9, 11, DIRECTORY -> 4;
            case 5, 10, 12 -> 8;
            default -> 0;
        };
    }
}
