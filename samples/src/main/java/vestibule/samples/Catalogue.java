package vestibule.samples;

import static vestibule.samples.Capture.DIRECT;
import static vestibule.samples.Capture.MIRROR_BEHIND;
import static vestibule.samples.Capture.MIRROR_FRONT;

import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import vestibule.samples.SamplePhoto.Trait;

/** Every sample photograph, sitting by sitting. */
final class Catalogue {
    /** Seconds from one photograph of a sitting to the next. */
    private static final int PACE = 23;

    private final List<SamplePhoto> photos = new ArrayList<>();
    private String prefix = "";
    private SamplePatient patient = Practice.ZOE;
    private OffsetDateTime clock = OffsetDateTime.MIN;
    private Set<Trait> habits = EnumSet.noneOf(Trait.class);

    private Catalogue() {}

    static List<SamplePhoto> photos() {
        Catalogue catalogue = new Catalogue();
        catalogue.zoe();
        catalogue.hanako();
        catalogue.lea();
        catalogue.nina();
        catalogue.myron();
        catalogue.tonik();
        catalogue.nemo();
        return List.copyOf(catalogue.photos);
    }

    /** First patient of the card: mirrors held with the operator in front. */
    private void zoe() {
        sitting("zoe", Practice.ZOE, at(12, 9, 4, 31, ZoneOffset.ofHours(1)), Trait.THUMBNAIL);
        portrait("face-front-rest-lips-closed", 1, "");
        portrait("face-front-smile", 8, "turned by Exif Orientation 8: the camera stood on its left side");
        portrait("face-profile-right-rest", 1, "");
        landscape("teeth-front-occlusion", DIRECT, "");
        landscape("teeth-buccal-right-direct", DIRECT, "");
        landscape("teeth-buccal-left-direct", DIRECT, "");
        landscape("occlusal-maxillary-mirror", MIRROR_FRONT, "raw mirror picture: incisors at the bottom");
        landscape("occlusal-mandibular-mirror", MIRROR_FRONT, "raw mirror picture: incisors at the top");
        tooth("tooth-closeup", 21, "", "the jewel on 12 is at the viewer's left");
        landscape("teeth-front-apart", DIRECT, "", Trait.JFIF);
        landscape("teeth-buccal-right-mirror", MIRROR_FRONT, "raw mirror picture of a side view");
        landscape("teeth-buccal-left-mirror", MIRROR_FRONT, "raw mirror picture of a side view");
    }

    /** Second patient of the card: mirrors held with the operator behind the head. */
    private void hanako() {
        sitting("hanako", Practice.HANAKO, at(12, 10, 47, 5, ZoneOffset.ofHours(1)));
        portrait("face-front-rest-lips-closed", 6, "turned by Exif Orientation 6: the camera stood on its right side");
        portrait("face-front-smile", 1, "");
        portrait("face-oblique-right-smile", 1, "");
        landscape("teeth-front-occlusion", DIRECT, "");
        landscape("teeth-buccal-right-direct", DIRECT, "");
        landscape("teeth-buccal-left-direct", DIRECT, "");
        landscape(
                "occlusal-maxillary-mirror",
                MIRROR_BEHIND,
                "raw mirror picture: looks finished, has left and right swapped");
        landscape(
                "occlusal-mandibular-mirror",
                MIRROR_BEHIND,
                "raw mirror picture: looks finished, has left and right swapped");
        tooth("shade-tab", 11, "OAT 2", "shade OAT 2 of an invented shade guide");
        landscape("teeth-buccal-right-mirror", MIRROR_BEHIND, "raw mirror picture, upside down");
        landscape("teeth-buccal-left-mirror", MIRROR_BEHIND, "raw mirror picture, upside down");
        portrait("face-profile-left-rest", 1, "");
    }

    /** One picture under all eight values of Exif Orientation. */
    private void lea() {
        sitting("lea", Practice.LEA, at(3, 16, 20, 0, ZoneOffset.ofHours(1)));
        for (int orientation = 1; orientation <= 8; orientation++) {
            add(
                    "lea-smile-exif-" + orientation,
                    "smile-front",
                    DIRECT,
                    orientation,
                    false,
                    List.of(),
                    "",
                    "stored for Exif Orientation " + orientation,
                    EnumSet.noneOf(Trait.class));
        }
        portrait("face-oblique-left-rest", 1, "", Trait.LITTLE_ENDIAN);
        landscape("cast-front", DIRECT, "plaster cast");
        landscape("cast-buccal-right", DIRECT, "plaster cast");
        landscape("cast-buccal-left", DIRECT, "plaster cast");
        landscape("cast-occlusal-maxillary", DIRECT, "plaster cast, photographed straight: never to be flipped");
        landscape("cast-occlusal-mandibular", DIRECT, "plaster cast, photographed straight: never to be flipped");
    }

    /** Streams of other kinds. */
    private void nina() {
        sitting("nina", Practice.NINA, at(5, 8, 30, 11, ZoneOffset.ofHours(3)));
        landscape("teeth-front-occlusion", DIRECT, "baseline, 4:2:2", Trait.SAMPLING_422);
        landscape("teeth-front-apart", DIRECT, "baseline, 4:4:4", Trait.SAMPLING_444);
        landscape("smile-front", DIRECT, "progressive", Trait.PROGRESSIVE);
        landscape("teeth-buccal-left-direct", DIRECT, "one component", Trait.GREY);
        landscape("teeth-buccal-right-direct", DIRECT, "with a colour profile", Trait.PROFILE);
        landscape("occlusal-maxillary-mirror", MIRROR_FRONT, "raw mirror picture, 4:2:2", Trait.SAMPLING_422);
    }

    /** What a camera says that nobody else should read. */
    private void myron() {
        sitting("myron", Practice.MYRON, at(9, 14, 2, 44, ZoneOffset.ofHoursMinutes(-3, -30)), Trait.POCKET_CAMERA);
        portrait(
                "face-front-rest-lips-apart",
                6,
                "owner's name and a place in mid-ocean",
                Trait.OWNER_AND_PLACE,
                Trait.THUMBNAIL);
        landscape("teeth-front-occlusion", DIRECT, "another picture lies behind the end of this one", Trait.TRAILER);
        landscape("smile-front", DIRECT, "a comment and a JFIF segment", Trait.COMMENT, Trait.JFIF);
        landscape("smile-oblique-right", DIRECT, "no offset: local time of an unknown zone", Trait.NO_OFFSET);
        landscape("smile-oblique-left", DIRECT, "");
        tooth("treatment-stage", 11, "", "implant with healing cap at 11");
    }

    /** A child with twenty primary teeth. */
    private void tonik() {
        sitting("tonik", Practice.TONIK, at(10, 15, 15, 0, ZoneOffset.ofHours(1)), Trait.LITTLE_ENDIAN);
        portrait("face-front-smile", 1, "a child");
        landscape("teeth-front-occlusion", DIRECT, "primary teeth");
        landscape("occlusal-maxillary-mirror", MIRROR_FRONT, "primary teeth, raw mirror picture");
        landscape("occlusal-mandibular-mirror", MIRROR_BEHIND, "primary teeth, raw mirror picture");
        tooth("tooth-closeup", 61, "", "primary upper left central incisor");
    }

    private void nemo() {
        sitting("nemo", Practice.NEMO, at(11, 23, 59, 58, ZoneOffset.UTC), Trait.NO_OFFSET);
        portrait("face-front-rest-lips-closed", 1, "taken just before midnight");
        landscape("teeth-front-occlusion", DIRECT, "the same sitting, taken after midnight");
        landscape("teeth-overjet-right", DIRECT, "");
        landscape("teeth-oblique-right-apart", DIRECT, "");
        landscape("teeth-oblique-left-apart", DIRECT, "");
    }

    private static OffsetDateTime at(int day, int hour, int minute, int second, ZoneOffset offset) {
        return OffsetDateTime.of(
                LocalDate.of(2026, 3, day), java.time.LocalTime.of(hour, minute, second, 420_000_000), offset);
    }

    private void sitting(String name, SamplePatient who, OffsetDateTime start, Trait... every) {
        prefix = name;
        patient = who;
        clock = start;
        habits = Set.of(every);
    }

    private void portrait(String view, int exifOrientation, String note, Trait... traits) {
        add(prefix + "-" + view, view, DIRECT, exifOrientation, true, List.of(), "", note, Set.of(traits));
    }

    private void landscape(String view, Capture capture, String note, Trait... traits) {
        add(prefix + "-" + view, view, capture, 1, false, List.of(), "", note, Set.of(traits));
    }

    private void tooth(String view, int tooth, String words, String note) {
        add(prefix + "-" + view, view, DIRECT, 1, false, List.of(tooth), words, note, Set.of());
    }

    private void add(
            String id,
            String view,
            Capture capture,
            int exifOrientation,
            boolean portrait,
            List<Integer> teeth,
            String words,
            String note,
            Set<Trait> traits) {
        Set<Trait> all = EnumSet.noneOf(Trait.class);
        all.addAll(habits);
        all.addAll(traits);
        photos.add(new SamplePhoto(
                id,
                patient,
                view,
                capture,
                exifOrientation,
                portrait,
                teeth,
                words,
                clock,
                orientation(view),
                all,
                note));
        clock = clock.plusSeconds(PACE);
    }

    /** Patient Orientation of each view put right. */
    private static String orientation(String view) {
        if (view.contains("occlusal-maxillary")) {
            return "L\\P";
        }
        if (view.contains("occlusal-mandibular")) {
            return "L\\A";
        }
        if (view.contains("-oblique-right")) {
            return "LA\\F";
        }
        if (view.contains("-oblique-left")) {
            return "LP\\F";
        }
        if (view.contains("-right")) {
            return "A\\F";
        }
        return view.contains("-left") ? "P\\F" : "L\\F";
    }
}
