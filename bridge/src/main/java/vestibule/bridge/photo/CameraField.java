package vestibule.bridge.photo;

import com.drew.lang.ByteArrayReader;
import com.drew.metadata.Metadata;
import com.drew.metadata.exif.ExifIFD0Directory;
import com.drew.metadata.exif.ExifReader;
import com.drew.metadata.exif.ExifSubIFDDescriptor;
import com.drew.metadata.exif.ExifSubIFDDirectory;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/**
 * Texts of the Exif block that say something about whose picture it is or which camera took it. They are read for deciding only, and never
 * get into an object this way.
 */
public enum CameraField {
    IMAGE_DESCRIPTION(ExifIFD0Directory.TAG_IMAGE_DESCRIPTION),
    ARTIST(ExifIFD0Directory.TAG_ARTIST),
    COPYRIGHT(ExifIFD0Directory.TAG_COPYRIGHT),
    USER_COMMENT(ExifSubIFDDirectory.TAG_USER_COMMENT),
    OWNER(0xA430),
    BODY_SERIAL(0xA431);

    private static final int IDENTIFIER = 6;
    private static final int LONGEST = 1_000;

    private final int tag;

    CameraField(int tag) {
        this.tag = tag;
    }

    /** The field of that word in settings, if a practice may put a patient into it. */
    public static Optional<CameraField> parse(String word) {
        return Arrays.stream(values())
                .filter(field -> field != BODY_SERIAL && field.word().equals(word))
                .findFirst();
    }

    /** The word that settings use. */
    public String word() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /** What it says in a photograph; empty if nothing, nothing that can be read, or in several Exif blocks not the same. */
    public Optional<String> of(Photo photo) {
        List<String> texts = photo.jpeg().exifBlocks().stream()
                .filter(block -> block.length > IDENTIFIER)
                .flatMap(block -> in(block).stream())
                .distinct()
                .toList();
        return texts.size() == 1 ? Optional.of(texts.get(0)) : Optional.empty();
    }

    private Optional<String> in(byte[] block) {
        Metadata metadata = new Metadata();
        try {
            new ExifReader().extract(new ByteArrayReader(block), metadata, IDENTIFIER);
        } catch (RuntimeException brokenBlock) {
            return Optional.empty();
        }
        ExifSubIFDDirectory second = metadata.getFirstDirectoryOfType(ExifSubIFDDirectory.class);
        if (this == USER_COMMENT) {
            return second == null
                    ? Optional.empty()
                    : Optional.ofNullable(new ExifSubIFDDescriptor(second).getUserCommentDescription())
                            .map(String::strip)
                            .filter(CameraField::usable);
        }
        boolean first = this == IMAGE_DESCRIPTION || this == ARTIST || this == COPYRIGHT;
        return new ExifTags(first ? metadata.getFirstDirectoryOfType(ExifIFD0Directory.class) : second)
                .text(tag)
                .filter(CameraField::usable);
    }

    private static boolean usable(String text) {
        return !text.isEmpty() && text.length() <= LONGEST && text.codePoints().noneMatch(Character::isISOControl);
    }
}
