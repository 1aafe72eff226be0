package vestibule.samples;

import java.nio.ByteOrder;
import java.time.ZoneOffset;
import org.jspecify.annotations.Nullable;
import vestibule.samples.SamplePhoto.Trait;
import vestibule.samples.camera.Coding;
import vestibule.samples.camera.Exif;

/** The two cameras of the practice, both of a maker that does not exist. */
final class Cameras {
    /** A place in mid-ocean, far from every coast. */
    private static final Exif.Place OCEAN = new Exif.Place(-47.5, -120.25);

    private Cameras() {}

    static Exif exif(SamplePhoto photo) {
        boolean offset = !photo.traits().contains(Trait.NO_OFFSET);
        boolean place = photo.traits().contains(Trait.OWNER_AND_PLACE);
        @Nullable ZoneOffset zone = offset ? photo.taken().getOffset() : null;
        return new Exif(
                body(photo),
                photo.exifOrientation(),
                photo.taken().toLocalDateTime(),
                zone,
                shot(photo),
                place ? OCEAN : null);
    }

    private static Exif.Body body(SamplePhoto photo) {
        ByteOrder order = photo.traits().contains(Trait.LITTLE_ENDIAN) ? ByteOrder.LITTLE_ENDIAN : ByteOrder.BIG_ENDIAN;
        String owner = photo.traits().contains(Trait.OWNER_AND_PLACE) ? "O. W. Nerson" : "";
        return photo.traits().contains(Trait.POCKET_CAMERA)
                ? new Exif.Body("Okulara", "Okulara P1", "P1-0.9.4", "P100042", "Okulara 5 mm f/1.8", owner, order)
                : new Exif.Body(
                        "Okulara", "Okulara C2", "C2-1.20", "C2007781", "Okulara Makro 100 mm f/2.8", owner, order);
    }

    private static Exif.Shot shot(SamplePhoto photo) {
        if (photo.traits().contains(Trait.POCKET_CAMERA)) {
            return new Exif.Shot(60, 18, 125, 5, 0x10, 2);
        }
        return photo.view().startsWith("face-")
                ? new Exif.Shot(125, 80, 200, 100, 0x09, 1)
                : new Exif.Shot(160, 220, 200, 100, 0x09, 1);
    }

    static Coding coding(SamplePhoto photo) {
        if (photo.traits().contains(Trait.GREY)) {
            return Coding.BASELINE_GREY;
        }
        if (photo.traits().contains(Trait.PROGRESSIVE)) {
            return Coding.PROGRESSIVE_420;
        }
        if (photo.traits().contains(Trait.SAMPLING_422)) {
            return Coding.BASELINE_422;
        }
        return photo.traits().contains(Trait.SAMPLING_444) ? Coding.BASELINE_444 : Coding.BASELINE_420;
    }
}
