package vestibule.bridge.photo;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.dict.Attributes;

/** Exif tags and types: Exif 2.3x; attributes: PS3.3 C.8.12.10 and C.8.12.11, 2024c. */
@DisplayName("What the camera noted")
class CameraNotesTest {

    private static CameraNotes read(ExifBlock block) {
        return CameraNotes.read(block.bytes());
    }

    @Test
    @DisplayName("maker, model and firmware, without padding")
    void equipment() {
        CameraNotes notes = read(new ExifBlock()
                .first(0x010F, "Okulara  ")
                .first(0x0110, "Okulara C2")
                .first(0x0131, "1.02"));
        assertThat(notes.maker()).contains("Okulara");
        assertThat(notes.model()).contains("Okulara C2");
        assertThat(notes.software()).contains("1.02");
        assertThat(notes.doubt()).isEmpty();
    }

    @Test
    @DisplayName("the moment with sub-seconds and offset")
    void moment() {
        CaptureTime time = read(new ExifBlock()
                        .second(0x9003, "2026:03:01 14:05:09")
                        .second(0x9291, "047")
                        .second(0x9011, "+01:00"))
                .captured()
                .orElseThrow();
        assertThat(time.local()).isEqualTo(LocalDateTime.of(2026, 3, 1, 14, 5, 9));
        assertThat(time.fraction()).isEqualTo("047");
        assertThat(time.offset()).contains(ZoneOffset.ofHours(1));
    }

    @ParameterizedTest
    @DisplayName("a clock that was never set is no moment")
    @ValueSource(
            strings = {"0000:00:00 00:00:00", "    :  :     :  :  ", "2026:02:30 10:00:00", "2026:13:01 10:00:00", "x"})
    void noMoment(String text) {
        assertThat(read(new ExifBlock().second(0x9003, text)).captured()).isEmpty();
    }

    @ParameterizedTest
    @DisplayName("an offset that no place on earth has is no offset (PS3.5 Table 6.2-1, DT: -1200 to +1400)")
    @ValueSource(strings = {"+15:00", "-12:30", "+01:60", "   :  ", "Z"})
    void noOffset(String offset) {
        CaptureTime time = read(new ExifBlock()
                        .second(0x9003, "2026:03:01 14:05:09")
                        .second(0x9011, offset))
                .captured()
                .orElseThrow();
        assertThat(time.offset()).isEmpty();
    }

    @Test
    @DisplayName(
            "a zone of the settings gives the offset of that day, summer time included, but never against the camera's own")
    void zoneOfSettings() {
        ZoneId berlin = ZoneId.of("Europe/Berlin");
        CaptureTime winter = new CaptureTime(LocalDateTime.of(2026, 1, 5, 9, 0), "", Optional.empty());
        CaptureTime summer = new CaptureTime(LocalDateTime.of(2026, 7, 5, 9, 0), "", Optional.empty());
        CaptureTime own = new CaptureTime(LocalDateTime.of(2026, 7, 5, 9, 0), "", Optional.of(ZoneOffset.UTC));
        assertThat(winter.in(berlin).offset()).contains(ZoneOffset.ofHours(1));
        assertThat(summer.in(berlin).offset()).contains(ZoneOffset.ofHours(2));
        assertThat(own.in(berlin).offset()).contains(ZoneOffset.UTC);
    }

    @ParameterizedTest(name = "{0}")
    @DisplayName("Orientation is one of eight values, anything else says nothing")
    @CsvSource({"1, 1", "6, 6", "8, 8", "0, ", "9, ", "65535, "})
    void orientation(int stored, Integer read) {
        assertThat(read(new ExifBlock().first(0x0112, stored)).orientation()).isEqualTo(Optional.ofNullable(read));
    }

    private static ExifBlock turned(int orientation) {
        return new ExifBlock()
                .first(0x0110, "Okulara C2")
                .first(0x0112, orientation)
                .second(0x9003, "2026:03:01 14:05:09");
    }

    /** The same block with another number in two bytes; in the block of {@link #turned}, the first directory has three entries from 16 on. */
    private static byte[] with(byte[] block, int at, int number) {
        byte[] changed = block.clone();
        changed[at] = (byte) (number >> 8);
        changed[at + 1] = (byte) number;
        return changed;
    }

    @ParameterizedTest(name = "{0} at byte {1}")
    @DisplayName(
            "where turn, camera or moment stand in a block and cannot be read, it is said, and no turn is followed")
    @CsvSource({
        "0x4D00, 6, byte order",
        "0x002B, 8, what TIFF begins with",
        "0x7000, 12, where the first directory is",
        "0x0000, 14, number of entries",
        "0x0300, 14, number of entries",
        "0x0300, 20, where the camera's model is",
        "0x7000, 24, where the camera's model is",
        "0x0700, 30, type of the turn",
        "0x0600, 36, turn with its bytes exchanged",
        "0x7000, 48, where the second directory is",
    })
    void damaged(String number, int at, String what) {
        CameraNotes notes = CameraNotes.read(with(turned(6).bytes(), at, Integer.decode(number)));
        assertThat(notes.doubt()).as(what).isPresent();
        assertThat(notes.orientation()).isEmpty();
    }

    @Test
    @DisplayName(
            "a moment whose value lies beyond the block is told as well, and a block that is cut short anywhere before it")
    void cutShort() {
        byte[] whole = turned(6).bytes();
        assertThat(CameraNotes.read(whole).doubt()).isEmpty();
        for (int length = 7; length < whole.length; length++) {
            assertThat(CameraNotes.read(java.util.Arrays.copyOf(whole, length)).doubt())
                    .as("%d bytes", length)
                    .isPresent();
        }
    }

    @Test
    @DisplayName("damage that takes nothing of turn, camera and moment asks nothing")
    void harmless() {
        byte[] thumbnail = turned(6).bytes();
        int link = 16 + 3 * 12;
        CameraNotes noThumbnail = CameraNotes.read(with(thumbnail, link + 2, 0x7000));
        assertThat(noThumbnail.doubt()).isEmpty();
        assertThat(noThumbnail.orientation()).contains(6);
        CameraNotes noDescription =
                CameraNotes.read(with(turned(6).first(0x010E, "a description").bytes(), 24, 0x7000));
        assertThat(noDescription.doubt()).isEmpty();
        assertThat(noDescription.orientation()).contains(6);
        byte[] makers = new ExifBlock()
                .first(0x0110, "Okulara C2")
                .second(0x9003, "2026:03:01 14:05:09")
                .second(0x927C, "notes of the maker")
                .bytes();
        String text = new String(makers, java.nio.charset.StandardCharsets.ISO_8859_1);
        int entry = text.indexOf("\u0092|");
        CameraNotes noMakersNotes = CameraNotes.read(with(makers, entry + 8, 0x7000));
        assertThat(noMakersNotes.doubt()).isEmpty();
        assertThat(noMakersNotes.captured()).isPresent();
    }

    @Test
    @DisplayName("no block, one without any note, and a turn that the camera does not know ask nothing")
    void nothingNoted() {
        assertThat(CameraNotes.read().doubt()).isEmpty();
        assertThat(read(new ExifBlock()).doubt()).isEmpty();
        assertThat(read(turned(0)).doubt()).isEmpty();
    }

    @ParameterizedTest(name = "{0}, then {1}: {2}")
    @DisplayName("of several blocks the one that notes a turn is followed, and several that differ are told")
    @CsvSource({"0, 6, 6", "6, 0, 6", "8, 8, 8", "1, 6, ", "3, 8, "})
    void severalBlocks(int one, int other, Integer followed) {
        CameraNotes notes = CameraNotes.read(
                turned(one).bytes(), new ExifBlock().first(0x0112, other).bytes());
        assertThat(notes.orientation()).isEqualTo(Optional.ofNullable(followed));
        assertThat(notes.doubt().isPresent()).isEqualTo(followed == null);
        assertThat(notes.model()).contains("Okulara C2");
        assertThat(notes.captured()).isPresent();
    }

    @Test
    @DisplayName("a block that cannot be read beside one that can is told: it may note another turn")
    void oneOfThemDamaged() {
        byte[] damaged = with(turned(6).bytes(), 8, 0);
        assertThat(CameraNotes.read(turned(1).bytes(), damaged).doubt()).isPresent();
        assertThat(CameraNotes.read(damaged, turned(1).bytes()).model()).contains("Okulara C2");
    }

    @Test
    @DisplayName("exposure as decimals of at most 16 characters, integers and numbers of defined meaning")
    void exposure() {
        DataSet exposure = read(new ExifBlock()
                        .fraction(0x829A, 1, 125)
                        .fraction(0x829D, 22, 1)
                        .fraction(0x920A, 100, 3)
                        .signedFraction(0x9204, -1, 3)
                        .second(0x8827, 200)
                        .second(0x8822, 1)
                        .second(0xA403, 1))
                .exposure();
        assertThat(exposure.text(Attributes.EXPOSURE_TIME_IN_SECONDS)).contains("0.008");
        assertThat(exposure.text(Attributes.F_NUMBER)).contains("22");
        assertThat(exposure.text(Attributes.FOCAL_LENGTH)).contains("33.3333333");
        assertThat(exposure.text(Attributes.EXPOSURE_BIAS_VALUE)).contains("-0.333333333");
        assertThat(exposure.integer(Attributes.PHOTOGRAPHIC_SENSITIVITY)).contains(200L);
        assertThat(exposure.integer(Attributes.EXPOSURE_PROGRAM)).contains(1L);
        assertThat(exposure.integer(Attributes.WHITE_BALANCE)).contains(1L);
    }

    @Test
    @DisplayName("unknown, infinite and undefined values stay out")
    void unknownValues() {
        DataSet exposure = read(new ExifBlock()
                        .fraction(0x829A, 1, 0)
                        .fraction(0x9206, 0xFFFF_FFFFL, 1)
                        .signedFraction(0x9203, -1, 1)
                        .fraction(0xA404, 0, 1)
                        .second(0x8822, 77)
                        .second(0xA405, 0)
                        .second(0x8827, 65535))
                .exposure();
        assertThat(exposure.isEmpty()).isTrue();
    }

    @ParameterizedTest(name = "Flash {0}: fired {1}, return {2}, mode {3}, no function {4}, red-eye {5}")
    @DisplayName("Flash is taken apart bit by bit (PS3.3 Table C.8.12.11-1)")
    @CsvSource({"0, 0, 0, 0, 0, 0", "9, 1, 0, 1, 0, 0", "31, 1, 3, 3, 0, 0", "32, 0, 0, 0, 1, 0", "65, 1, 0, 0, 0, 1"})
    void flash(int flash, long fired, long returned, long mode, long noFunction, long redEye) {
        DataSet exposure = read(new ExifBlock().second(0x9209, flash)).exposure();
        assertThat(exposure.integer(Attributes.FLASH_FIRING_STATUS)).contains(fired);
        assertThat(exposure.integer(Attributes.FLASH_RETURN_STATUS)).contains(returned);
        assertThat(exposure.integer(Attributes.FLASH_MODE)).contains(mode);
        assertThat(exposure.integer(Attributes.FLASH_FUNCTION_PRESENT)).contains(noFunction);
        assertThat(exposure.integer(Attributes.FLASH_RED_EYE_MODE)).contains(redEye);
    }

    @Test
    @DisplayName("owner, serial numbers, comments and place are not taken out of the block")
    void privateThingsStayOut() {
        DataSet exposure = read(new ExifBlock()
                        .second(0xA430, "Somebody")
                        .second(0xA431, "B-123")
                        .second(0xA435, "L-123")
                        .second(0x9286, "a comment")
                        .second(0xA434, "Macro 100"))
                .exposure();
        assertThat(exposure.size()).isOne();
        assertThat(exposure.text(Attributes.LENS_MODEL)).contains("Macro 100");
    }

    @Test
    @DisplayName("a broken block says nothing and breaks nothing, whichever byte is wrong")
    void brokenBlocks() {
        byte[] whole = new ExifBlock()
                .first(0x010F, "Okulara")
                .second(0x9003, "2026:03:01 14:05:09")
                .fraction(0x829A, 1, 125)
                .bytes();
        long seed = 20_261_125;
        System.out.println("seed " + seed);
        Random random = new Random(seed);
        for (int round = 0; round < 5_000; round++) {
            byte[] broken = whole.clone();
            broken[6 + random.nextInt(broken.length - 6)] = (byte) random.nextInt(256);
            broken[6 + random.nextInt(broken.length - 6)] = (byte) random.nextInt(256);
            assertThat(CameraNotes.read(broken)).isNotNull();
        }
        for (int length = 0; length < whole.length; length++) {
            assertThat(CameraNotes.read(java.util.Arrays.copyOf(whole, length))).isNotNull();
        }
    }
}
