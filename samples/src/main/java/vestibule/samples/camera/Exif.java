package vestibule.samples.camera;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoField;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * The notes a camera leaves in APP1 (Exif 2.31).
 *
 * @param body who took the picture
 * @param orientation Exif Orientation, 1 to 8
 * @param taken what the camera's clock showed
 * @param offset the clock's offset, if the camera writes one
 * @param shot exposure
 * @param place where the camera thinks it is, if it says so
 */
public record Exif(
        Body body,
        int orientation,
        LocalDateTime taken,
        @Nullable ZoneOffset offset,
        Shot shot,
        @Nullable Place place) {

    /**
     * A camera of an invented maker.
     *
     * @param owner name of the owner as the camera stores it; empty for none
     */
    public record Body(
            String make, String model, String firmware, String serial, String lens, String owner, ByteOrder order) {}

    /**
     * How a picture was exposed.
     *
     * @param exposure one over this many seconds
     * @param aperture tenths of an f-number
     * @param focalLength millimetres
     * @param flash the Exif flash value
     */
    public record Shot(int exposure, int aperture, int iso, int focalLength, int flash, int program) {}

    /** Degrees, north and east positive. */
    public record Place(double latitude, double longitude) {}

    private static final DateTimeFormatter TIME = DateTimeFormatter.ofPattern("uuuu:MM:dd HH:mm:ss", Locale.ROOT);
    private static final DateTimeFormatter DAY = DateTimeFormatter.ofPattern("uuuu:MM:dd", Locale.ROOT);

    /** The content of the APP1 segment; the thumbnail may be empty. */
    byte[] segment(int width, int height, byte[] thumbnail) throws IOException {
        TiffDirectory camera = notes(width, height);
        TiffDirectory first = new TiffDirectory()
                .text(0x010F, body.make())
                .text(0x0110, body.model())
                .shorts(0x0112, orientation)
                .rational(0x011A, 72, 1)
                .rational(0x011B, 72, 1)
                .shorts(0x0128, 2)
                .text(0x0131, body.firmware())
                .text(0x0132, TIME.format(taken))
                .shorts(0x0213, 2)
                .directory(0x8769, camera);
        if (place != null) {
            first.directory(0x8825, position(place));
        }
        if (thumbnail.length > 0) {
            first.next(new TiffDirectory()
                    .shorts(0x0103, 6)
                    .rational(0x011A, 72, 1)
                    .rational(0x011B, 72, 1)
                    .shorts(0x0128, 2)
                    .block(0x0201, 0x0202, thumbnail));
        }
        ByteArrayOutputStream segment = new ByteArrayOutputStream();
        segment.write("Exif\0\0".getBytes(StandardCharsets.US_ASCII));
        segment.write(first.file(body.order()));
        return segment.toByteArray();
    }

    private TiffDirectory notes(int width, int height) {
        TiffDirectory notes = new TiffDirectory()
                .rational(0x829A, 1, shot.exposure())
                .rational(0x829D, shot.aperture(), 10)
                .shorts(0x8822, shot.program())
                .shorts(0x8827, shot.iso())
                .bytes(0x9000, "0231")
                .text(0x9003, TIME.format(taken))
                .text(0x9004, TIME.format(taken))
                .raw(0x9101, 1, 2, 3, 0)
                .signedRational(0x9204, 0, 1)
                .shorts(0x9207, 5)
                .shorts(0x9208, shot.flash() % 2 == 1 ? 4 : 0)
                .shorts(0x9209, shot.flash())
                .rational(0x920A, shot.focalLength(), 1)
                .text(0x9291, String.format(Locale.ROOT, "%02d", taken.get(ChronoField.NANO_OF_SECOND) / 10_000_000))
                .bytes(0xA000, "0100")
                .shorts(0xA001, 1)
                .longs(0xA002, width)
                .longs(0xA003, height)
                .directory(0xA005, new TiffDirectory().text(0x0001, "R98").bytes(0x0002, "0100"))
                .shorts(0xA401, 0)
                .shorts(0xA402, shot.program() == 1 ? 1 : 0)
                .shorts(0xA403, shot.flash() % 2 == 1 ? 1 : 0)
                .shorts(0xA406, 0)
                .text(0xA431, body.serial())
                .text(0xA434, body.lens());
        if (offset != null) {
            String zone = zone(offset);
            notes.text(0x9010, zone).text(0x9011, zone).text(0x9012, zone);
        }
        if (!body.owner().isEmpty()) {
            notes.text(0xA430, body.owner());
        }
        return notes;
    }

    private static String zone(ZoneOffset offset) {
        int minutes = offset.getTotalSeconds() / 60;
        int size = Math.abs(minutes);
        return String.format(Locale.ROOT, "%c%02d:%02d", minutes < 0 ? '-' : '+', size / 60, size % 60);
    }

    private TiffDirectory position(Place where) {
        ZoneOffset zone = offset == null ? ZoneOffset.UTC : offset;
        LocalDateTime utc = taken.minusSeconds(zone.getTotalSeconds());
        return new TiffDirectory()
                .raw(0x0000, 2, 3, 0, 0)
                .text(0x0001, where.latitude() < 0 ? "S" : "N")
                .rationals(0x0002, degrees(where.latitude()))
                .text(0x0003, where.longitude() < 0 ? "W" : "E")
                .rationals(0x0004, degrees(where.longitude()))
                .rationals(0x0007, utc.getHour(), 1, utc.getMinute(), 1, utc.getSecond(), 1)
                .text(0x0012, "WGS-84")
                .text(0x001D, DAY.format(utc));
    }

    private static int[] degrees(double angle) {
        long hundredths = Math.round(Math.abs(angle) * 360_000);
        return new int[] {
            (int) (hundredths / 360_000), 1, (int) (hundredths / 6000 % 60), 1, (int) (hundredths % 6000), 100
        };
    }
}
